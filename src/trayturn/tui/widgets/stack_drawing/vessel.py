"""A vessel from the side: a tray or the sump, wide at its lip and narrower at its base, in half cells."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.tui.widgets.stack_drawing.canvas import Canvas, Ink
from trayturn.tui.widgets.stack_drawing.glyphs import Glyphs

Span = dict[int, tuple[int, int]]
"""For each row the columns between two walls, as a half-open range."""


@dataclass(frozen=True, slots=True)
class Vessel:
    """`rows` rows from `top`, its lip from column `left` up to but not including `right`.

    `slant` is how much narrower a deep one is at its base, in half cells a side.
    """

    left: int
    right: int
    top: int
    rows: int
    slant: int = 2

    def inset(self, row: int) -> int:
        """How far the wall stands in on that row, in half cells. The lip juts out over the first."""
        if self.rows == 1 or row == 0 or self.right - self.left < 8:
            return 1
        slant = self.slant if self.rows > 4 else 1
        return 1 + round(row / (self.rows - 1) * slant)

    def inside(self) -> Span:
        """The columns between the walls."""
        spans = {}
        for row in range(self.rows):
            wall = self.inset(row) // 2 + 1
            spans[self.top + row] = (self.left + wall, max(self.left + wall, self.right - wall))
        return spans

    def walls(self, canvas: Canvas, glyphs: Glyphs, paint: str) -> None:
        """Draws both walls. Half a cell of a wall shows what is behind it: ground outside, air inside."""
        for row in range(self.rows):
            column, half = divmod(self.inset(row), 2)
            left, right = glyphs.thin if half else glyphs.thin[::-1]
            if row == 0:
                left, right = glyphs.lip
            ink = Ink(paint, "ground" if half else "air")
            canvas.put(self.left + column, self.top + row, left, ink)
            canvas.put(self.right - 1 - column, self.top + row, right, ink)
