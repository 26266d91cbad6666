"""Where everything in the drawing goes, in whole cells: pure arithmetic, no glyphs and no colours."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, auto

from trayturn.tui.widgets.stack_drawing.picture import StackPicture, TrayPicture

WIDEST_BODY = 46
DEPTH_TO_WIDTH = 0.19
"""Rows to columns of one tray: about 0.15 m deep and 0.4 m wide, in cells twice as tall as wide."""


class Part(Enum):
    """What a band of rows shows."""

    LID = auto()
    TRAY = auto()
    GAP = auto()
    SUMP = auto()
    FEET = auto()


@dataclass(frozen=True, slots=True)
class Band:
    """Some whole rows of the drawing, from `top` down. A gap belongs to the tray above it."""

    part: Part
    top: int
    rows: int
    tray: TrayPicture | None = None

    @property
    def label_row(self) -> int:
        """The row that carries the words: high up, so that what lies below them can be seen."""
        return self.top + max(0, self.rows - 2) // 2


@dataclass(frozen=True, slots=True)
class Columns:
    """The columns: marks left of `left`, the stack itself up to `right`, notes from there to `width`."""

    left: int
    right: int
    width: int

    @property
    def body(self) -> int:
        return self.right - self.left

    @property
    def words(self) -> tuple[int, int]:
        """The columns between which words stand, the same in every vessel so that they line up."""
        inset = 1 if self.body < 10 else 2 if self.body < 30 else 3
        return self.left + inset, self.right - inset

    @property
    def notes(self) -> int:
        return self.width - self.right


@dataclass(frozen=True, slots=True)
class Layout:
    """The whole drawing: its columns, and its bands from the top down without overlap."""

    columns: Columns
    height: int
    bands: tuple[Band, ...]

    def tray_at(self, row: int) -> str | None:
        """The tray drawn on that row."""
        hit = (band.tray for band in self.bands if band.tray and band.top <= row < band.top + band.rows)
        return next((tray.id for tray in hit), None)


def columns_for(width: int) -> Columns:
    """Shares the width out: a column or two for the mark, as much body as fits, and notes on the right."""
    mark, notes = next(
        shares
        for least, shares in ((48, (2, 14)), (34, (2, 12)), (22, (1, 7)), (12, (1, 2)), (0, (0, 0)))
        if width >= least
    )
    body = min(WIDEST_BODY, width - mark - notes)
    spare = width - mark - notes - body
    left = mark + spare // 2
    return Columns(left, left + body, width)


@dataclass(frozen=True, slots=True)
class _Rows:
    """How many rows each part gets."""

    tray: int
    lid: int
    gap: int
    sump: int
    feet: int

    def total(self, trays: int, gaps: int) -> int:
        return trays * self.tray + self.lid + gaps * self.gap + self.sump + self.feet


def _candidates(deepest: int, has_lid: bool) -> Iterator[_Rows]:
    """Every way to share out the rows, the handsomest first; the last needs one row a tray and no more."""
    for depth in range(deepest, 3, -1):
        for sump in ((depth + 1) // 2, max(2, (depth - 1) // 2)):
            yield _Rows(depth, 2 * has_lid, 1 + depth // 5, sump, 1)
    for depth in (3, 2, 1):
        yield _Rows(depth, 2 * has_lid, 1, 2, 1)
        yield _Rows(depth, 1 * has_lid, 1, 2, 1)
        yield _Rows(depth, 1 * has_lid, 1, 1, 1)
        yield _Rows(depth, 1 * has_lid, 1, 1, 0)
    yield _Rows(1, 0, 1, 1, 0)
    yield _Rows(1, 0, 0, 1, 0)
    yield _Rows(1, 0, 0, 0, 0)


def lay_out(picture: StackPicture, width: int, height: int, selected: str | None = None) -> Layout:
    """Lays the stack out on `width` by `height` cells, standing on the last row.

    With fewer rows than trays only some are laid out, the selected one among them. Under a raised tray
    there is no lid.
    """
    columns = columns_for(width)
    trays = picture.top_first
    gaps = sum(tray.raised for tray in trays)
    has_lid = (picture.has_lid or picture.has_sheet) and not gaps
    deepest = max(3, round(columns.body * DEPTH_TO_WIDTH))
    fitting = (rows for rows in _candidates(deepest, has_lid) if rows.total(len(trays), gaps) <= height)
    rows = next(fitting, _Rows(1, 0, 0, 0, 0))
    shown = _around(trays, selected, height) if len(trays) > height else trays
    return Layout(columns, height, tuple(_stand(_bands(shown, rows), height)))


def _around(trays: tuple[TrayPicture, ...], selected: str | None, height: int) -> tuple[TrayPicture, ...]:
    chosen = next((index for index, tray in enumerate(trays) if tray.id == selected), 0)
    first = max(0, min(chosen - height // 2, len(trays) - height))
    return trays[first : first + height]


def _bands(trays: tuple[TrayPicture, ...], rows: _Rows) -> Iterator[Band]:
    """The bands top-first, each as if it began at row 0: raised trays, lid, stack, sump, feet."""
    raised = [tray for tray in trays if tray.raised]
    for tray in raised:
        yield Band(Part.TRAY, 0, rows.tray, tray)
        yield Band(Part.GAP, 0, rows.gap, tray)
    yield Band(Part.LID, 0, rows.lid)
    for tray in trays:
        if not tray.raised:
            yield Band(Part.TRAY, 0, rows.tray, tray)
    yield Band(Part.SUMP, 0, rows.sump)
    yield Band(Part.FEET, 0, rows.feet)


def _stand(bands: Iterator[Band], height: int) -> Iterator[Band]:
    """Sets the bands on one another so that the last ends on the last row."""
    kept = [band for band in bands if band.rows]
    top = max(0, height - sum(band.rows for band in kept))
    for band in kept:
        yield Band(band.part, top, band.rows, band.tray)
        top += band.rows
