"""Draws one tray: its walls, what lies in it, its worms, how wet it is, and its words."""

from __future__ import annotations

from zlib import crc32

from trayturn.advice.reading import Texture
from trayturn.tui.widgets.stack_drawing.canvas import Canvas, Ink, cells_of
from trayturn.tui.widgets.stack_drawing.geometry import Band, Columns
from trayturn.tui.widgets.stack_drawing.glyphs import Glyphs
from trayturn.tui.widgets.stack_drawing.picture import TrayPicture
from trayturn.tui.widgets.stack_drawing.vessel import Span, Vessel

BODY = {
    Texture.DRY_SHREDS: "shreds",
    Texture.SOAKED: "soaked",
    Texture.FOOD: "food",
    Texture.CASTINGS: "castings",
    Texture.EMPTY: "air",
}
ROUGHNESS = {Texture.DRY_SHREDS: 4, Texture.SOAKED: 3, Texture.FOOD: 4, Texture.CASTINGS: 1, Texture.EMPTY: 0}
HEAP = 10
"""Columns from the foot to the top of a heap: loosened castings are pulled into heaps before they rest."""
CELLS_PER_TICKS = 110
"""The drawn area that holds a tray's count of worm ticks once; a larger drawing shows more of them."""

LEAST_VIEW = 5
"""Columns between two plates that still show something of what lies behind; fewer are closed."""


def scatter(*numbers: int) -> int:
    """A fixed, evenly spread number for a place: the same at every redraw, so that nothing flickers."""
    mixed = 0x9E3779B9
    for number in numbers:
        mixed = ((mixed ^ (number & 0xFFFFFFFF)) * 0x85EBCA6B) & 0xFFFFFFFF
        mixed ^= mixed >> 13
    return mixed


def drop_falls(x: int, row: int) -> bool:
    """Whether a drop is drawn at a column and a row of the open air under a wet tray."""
    return x % 7 == 3 and (x + row) % 2 == 1


def draw_tray(
    canvas: Canvas,
    columns: Columns,
    band: Band,
    glyphs: Glyphs,
    tray: TrayPicture,
    selected: str | None,
    dripped: bool,
) -> None:
    """Draws the tray into its band. `selected` is a tray's id; `dripped`: water comes from the tray above."""
    chosen = tray.id == selected
    vessel = Vessel(columns.left, columns.right, band.top, band.rows)
    spans = vessel.inside()
    wall = "chosen" if chosen else "wall"
    if band.rows > 1:
        _draw_contents(canvas, tray, glyphs, spans, dripped)
        _draw_worms(canvas, tray, glyphs, spans)
    vessel.walls(canvas, glyphs, wall)
    start, end = columns.words if band.rows > 1 else spans[band.top]
    end = min(end, spans[band.label_row][1] - _draw_wetness(canvas, tray, glyphs, band, spans))
    after = _draw_label(canvas, tray, band.label_row, start, end)
    if band.rows == 1:
        _draw_bar(canvas, tray, glyphs, band.top, after, end)
    _draw_age(canvas, tray, band.label_row, after, end)
    _draw_caption(canvas, tray, band, start, end)
    if chosen and columns.left:
        mark = Ink("chosen", "ground", bold=True)
        canvas.put(max(0, columns.left - 2), band.label_row, glyphs.select, mark)


def _surface(tray: TrayPicture, x: int, rows: int) -> int:
    """How high the contents reach at a column, in eighths of a row: a little rough, as what lies there is."""
    rough = ROUGHNESS[tray.texture]
    bump = scatter(x // 2, crc32(tray.id.encode())) % (2 * rough + 1) - rough
    if tray.separating:
        bump += (abs(x % (2 * HEAP) - HEAP) - HEAP // 2) * rows // 2
    level = round(min(1.0, max(0.0, tray.fill)) * rows * 8)
    return max(1, min(rows * 8, level + bump)) if tray.fill > 0 else 0


def _draw_contents(canvas: Canvas, tray: TrayPicture, glyphs: Glyphs, spans: Span, dripped: bool) -> None:
    body, grain = BODY[tray.texture], glyphs.grain[tray.texture]
    seed = crc32(tray.id.encode())
    left = min(start for start, _ in spans.values())
    for below, row in enumerate(sorted(spans, reverse=True)):
        for x in range(*spans[row]):
            eighths = min(8, max(0, _surface(tray, x - left, len(spans)) - 8 * below))
            if eighths == 8:
                sign, paint = grain[scatter(x - left, below, seed) % len(grain)]
                canvas.put(x, row, sign, Ink(paint, body))
            elif eighths == 0 and dripped and drop_falls(x - left, below):
                canvas.put(x, row, glyphs.drop, Ink("water", "air", bold=True))
            else:
                canvas.put(x, row, glyphs.steps[eighths], Ink(body, "air"))


def draw_base(canvas: Canvas, columns: Columns, band: Band, glyphs: Glyphs, chosen: bool) -> None:
    """A tray's base with the holes through which worms and water pass.

    It is drawn at the top of the row under the tray, to hide nothing in it; words and surfaces there stay
    in front of it.
    """
    if band.rows == 1:
        return
    row = band.top + band.rows
    start, end = Vessel(columns.left, columns.right, band.top, band.rows).inside()[row - 1]
    for x in range(start, end):
        sign, back = canvas.at(x, row)
        empty = sign == " " and back in ("air", "ground")
        if (x - start) % 4 != 2 and (empty or back in BODY.values()):
            canvas.put(x, row, glyphs.base, Ink("chosen" if chosen else "wall", back))


def _draw_worms(canvas: Canvas, tray: TrayPicture, glyphs: Glyphs, spans: Span) -> None:
    """A few ticks in the contents. Dry shreds hold none: worms wait until they are damp."""
    if tray.texture is Texture.DRY_SHREDS or tray.worms <= 0:
        return
    body = BODY[tray.texture]
    pairs = [
        (x, row)
        for row in spans
        for x in range(spans[row][0] + 1 + row % 3, spans[row][1] - 3, 5)
        if canvas.at(x, row)[1] == canvas.at(x + 1, row)[1] == body
    ]
    pairs.sort(key=lambda place: scatter(*place, tray.worms))
    area = sum(end - start for start, end in spans.values())
    for x, row in pairs[: max(1, round(tray.worms * area / CELLS_PER_TICKS))]:
        for step in (0, 1):
            canvas.put(x + step, row, glyphs.worm, Ink("worm", body, bold=True))


def _draw_wetness(canvas: Canvas, tray: TrayPicture, glyphs: Glyphs, band: Band, spans: Span) -> int:
    """The wetness mark at the right wall: as high as the tray is wet. Returns the columns it takes."""
    start, end = spans[band.label_row]
    if end - start < 6:
        return 0
    level = round((tray.moisture or 0.0) * band.rows * 8)
    for below, row in enumerate(sorted(spans, reverse=True)):
        eighths = min(8, max(0, level - 8 * below))
        canvas.put(spans[row][1] - 1, row, glyphs.steps[eighths], Ink("water", "air"))
    if tray.moisture is None and band.rows > 1:
        row = band.label_row + 1
        canvas.put(spans[row][1] - 1, row, glyphs.unknown, Ink("muted", "air", bold=True))
    return 1


def _draw_label(canvas: Canvas, tray: TrayPicture, row: int, start: int, end: int) -> int:
    """The tray's name on its own tag and its stage beside it. Returns the column after them."""
    tag = Ink("act-tag-text", "act-tag", bold=True) if tray.feed_next else Ink("tag-text", "tag", bold=True)
    room, stage = end - start, tray.stage_word
    roomy = room >= cells_of(tray.id) + 2 + cells_of(stage)
    name = f" {tray.id} " if roomy else tray.id
    x = canvas.write(start, row, name, tag, max(room - 5, min(room, 4)))
    spare = end - x - cells_of(stage)
    word = f" {stage} " if spare > 1 else stage if roomy and spare == 0 else f" {stage}"
    return canvas.write(x, row, word, Ink("plate-text", "plate", bold=True), end - x)


def _draw_bar(canvas: Canvas, tray: TrayPicture, glyphs: Glyphs, row: int, start: int, end: int) -> None:
    """In a tray of one row the fill runs sideways, in the room the words leave."""
    body, grain, seed = BODY[tray.texture], glyphs.grain[tray.texture], crc32(tray.id.encode())
    full = start + round(min(1.0, max(0.0, tray.fill)) * (end - start))
    for x in range(start, end):
        sign, paint = grain[scatter(x - start, seed) % len(grain)]
        if x < full:
            canvas.put(x, row, sign, Ink(paint, body))
        else:
            canvas.put(x, row, " ", Ink(body, "air"))


def _draw_age(canvas: Canvas, tray: TrayPicture, row: int, after: int, end: int) -> None:
    """The tray's age at the right, where the words leave room for it."""
    for words in ages(tray.age_days):
        if after + cells_of(words) + 3 <= end:
            start = end - cells_of(words) - 2
            gap = start - after if start - after < LEAST_VIEW else 0
            plate = " " * gap + f" {words} "
            canvas.write(start - gap, row, plate, Ink("plate-text", "plate"), len(plate))
            return


def ages(days: float) -> tuple[str, ...]:
    """An age in whole days, in full and short: `34 days` and `34 d`."""
    whole = int(days)
    return ("new",) if whole < 1 else (f"{whole} day" if whole == 1 else f"{whole} days", f"{whole} d")


def _draw_caption(canvas: Canvas, tray: TrayPicture, band: Band, start: int, end: int) -> None:
    """A second line of words, in a tray deep enough to show its contents as well."""
    if band.rows >= 5 and tray.caption and cells_of(tray.caption) + 2 <= end - start:
        canvas.write(start, band.label_row + 1, f" {tray.caption} ", Ink("plate-text", "plate"), end - start)
