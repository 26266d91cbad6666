"""Draws a stack onto a canvas. Pure: the same picture, size and glyphs always give the same cells."""

from __future__ import annotations

from trayturn.tui.widgets.stack_drawing.canvas import Canvas, Ink, cells_of
from trayturn.tui.widgets.stack_drawing.geometry import Band, Columns, Layout, Part
from trayturn.tui.widgets.stack_drawing.glyphs import Glyphs
from trayturn.tui.widgets.stack_drawing.paint_tray import draw_base, draw_tray, drop_falls, scatter
from trayturn.tui.widgets.stack_drawing.picture import StackPicture, TrayPicture
from trayturn.tui.widgets.stack_drawing.vessel import Vessel

GROUND = Ink("text", "ground")
WET = 0.8
"""The moisture from which a tray is drawn dripping; common practice, no source."""
PASSES_ON = 0.6
"""Below this a tray is drawn soaking up what drips into it; common practice, no source."""


def draw(picture: StackPicture, layout: Layout, glyphs: Glyphs, selected: str | None = None) -> Canvas:
    """The whole drawing: bands from the top down, then the notes on the right of each tray."""
    canvas = Canvas(layout.columns.width, layout.height, GROUND)
    dripping = False
    for band in layout.bands:
        match band.part:
            case Part.LID:
                _draw_lid(canvas, layout.columns, band, glyphs, picture)
            case Part.GAP:
                _draw_gap(canvas, layout.columns, band, glyphs)
            case Part.SUMP:
                _draw_sump(canvas, layout.columns, band, glyphs, picture, dripping)
            case Part.FEET:
                _draw_feet(canvas, layout.columns, band, glyphs)
            case Part.TRAY if band.tray:
                draw_tray(canvas, layout.columns, band, glyphs, band.tray, selected, dripping)
                _draw_notes(canvas, layout.columns, band, glyphs, band.tray)
                dripping = _drips(band.tray, dripping)
    for band in layout.bands:
        if band.part is Part.TRAY and band.tray:
            draw_base(canvas, layout.columns, band, glyphs, band.tray.id == selected)
    return canvas


def _drips(tray: TrayPicture, from_above: bool) -> bool:
    """Whether water leaves the tray: it is wet itself, or damp enough to let through what drips into it."""
    if tray.moisture is None:
        return from_above
    return tray.moisture >= WET or (from_above and tray.moisture >= PASSES_ON)


def _draw_lid(canvas: Canvas, columns: Columns, band: Band, glyphs: Glyphs, picture: StackPicture) -> None:
    """The lid with its handle, and the sheet's edge in the lower half of its last row."""
    last = band.top + band.rows - 1
    lid = "lid" if picture.has_lid else "ground"
    for x in range(columns.left, columns.right):
        inside = columns.left < x < columns.right - 1
        back = "sheet" if inside and picture.has_sheet else "ground"
        canvas.put(x, last, glyphs.under_lid, Ink(lid, back))
    if band.rows > 1 and picture.has_lid:
        for x, sign in zip(range(columns.left, columns.right), _lid_top(columns.body, glyphs), strict=True):
            canvas.put(x, band.top, sign, Ink("lid", "ground"))


def _lid_top(width: int, glyphs: Glyphs) -> str:
    """The upper row of a lid: a slab with a handle in its middle."""
    corner, slab, rise, handle, fall, end = glyphs.lid
    if width < 6:
        return slab * width
    grip = rise + handle * max(0, width // 8 * 2 - 2) + fall
    left = (width - 2 - len(grip)) // 2
    return corner + slab * left + grip + slab * (width - 2 - left - len(grip)) + end


def _draw_gap(canvas: Canvas, columns: Columns, band: Band, glyphs: Glyphs) -> None:
    """Open air under a raised tray; under one being separated, the way the worms take."""
    if band.tray is None or band.tray.lifted:
        return
    for x in range(columns.left + 3, columns.right - 3, max(4, columns.body // 6)):
        canvas.put(x, band.top + band.rows // 2, glyphs.down, Ink("worm-way", "ground", bold=True))


def _draw_sump(
    canvas: Canvas, columns: Columns, band: Band, glyphs: Glyphs, picture: StackPicture, dripping: bool
) -> None:
    """The sump with its water, its words and its tap. `dripping`: water comes from the tray above."""
    vessel = Vessel(columns.left, columns.right, band.top, band.rows, slant=1)
    vessel.walls(canvas, glyphs, "wall")
    level = round(min(1.0, max(0.0, picture.sump_fill or 0.0)) * band.rows * 8)
    for row, span in vessel.inside().items():
        eighths = min(8, max(0, level - 8 * (band.top + band.rows - 1 - row)))
        for x in range(*span):
            if eighths == 8:
                sign = glyphs.ripple if scatter(x // 2, row) % 4 == 0 else " "
                canvas.put(x, row, sign, Ink("water-mark", "water"))
            elif eighths == 0 and dripping and drop_falls(x - columns.left, row):
                canvas.put(x, row, glyphs.drop, Ink("water", "air", bold=True))
            else:
                canvas.put(x, row, glyphs.steps[eighths], Ink("water", "air"))
    start, end = columns.words
    words = f" sump {picture.sump_words}".rstrip() + " "
    canvas.write(start, band.label_row, words, Ink("plate-text", "plate"), end - start)
    if columns.notes > 2 and band.rows > 1:
        for x, sign in zip((columns.right - 1, columns.right), glyphs.tap, strict=True):
            canvas.put(x, band.top + band.rows - 1, sign, Ink("wall", "ground"))


def _draw_feet(canvas: Canvas, columns: Columns, band: Band, glyphs: Glyphs) -> None:
    inset = max(1, columns.body // 8)
    for left in (columns.left + inset, columns.right - inset - 2):
        for x, sign in zip((left, left + 1), glyphs.foot, strict=True):
            canvas.put(x, band.top, sign, Ink("wall", "ground"))


def _draw_notes(canvas: Canvas, columns: Columns, band: Band, glyphs: Glyphs, tray: TrayPicture) -> None:
    """Right of the tray: whether it is fed next or in hand, and under that how wet it is."""
    room = columns.notes - 1
    wet = _wet_words(tray, glyphs), Ink("water-text" if tray.moisture is not None else "muted", "ground")
    act = _act_words(tray, glyphs, room), Ink("act", "ground", bold=True)
    notes = [act, wet] if band.rows > 1 or act[0] else [wet]
    for offset, (words, ink) in enumerate(notes[: band.rows]):
        if cells_of(words) <= room:
            canvas.write(columns.right + 1, band.label_row + offset, words, ink, room)


def _act_words(tray: TrayPicture, glyphs: Glyphs, room: int) -> str:
    if tray.lifted:
        return "in hand"
    if not tray.feed_next:
        return ""
    forms = (f"{glyphs.feed} feed next", f"{glyphs.feed} feed", glyphs.feed)
    return next((words for words in forms if cells_of(words) <= room), "")


def _wet_words(tray: TrayPicture, glyphs: Glyphs) -> str:
    if tray.moisture is None:
        return f"moisture {glyphs.unknown}"
    return tray.moisture_words or f"{tray.moisture:.0%} wet"
