"""A grid of cells to draw on. Whatever falls outside it is cut off, so no drawing can overflow."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import NamedTuple

from rich.cells import cell_len

from trayturn.domain.words import clean


class Ink(NamedTuple):
    """How one cell is coloured: paint names for the sign and what is behind it."""

    fore: str
    back: str
    bold: bool = False


class Canvas:
    """`width` by `height` cells, each a sign and its ink. The second cell of a wide sign holds nothing."""

    def __init__(self, width: int, height: int, ink: Ink) -> None:
        self.width, self.height = width, height
        self.signs = [[" "] * width for _ in range(height)]
        self.inks = [[ink] * width for _ in range(height)]

    def put(self, x: int, y: int, sign: str, ink: Ink) -> None:
        """Draws one sign that is one cell wide."""
        if 0 <= x < self.width and 0 <= y < self.height:
            self.signs[y][x] = sign
            self.inks[y][x] = ink

    def at(self, x: int, y: int) -> tuple[str, str]:
        """The sign in a cell and the paint behind it, to draw over it without a hole."""
        inside = 0 <= x < self.width and 0 <= y < self.height
        return (self.signs[y][x], self.inks[y][x].back) if inside else (" ", "ground")

    def write(self, x: int, y: int, text: str, ink: Ink, room: int) -> int:
        """Writes words as they are, cut to `room` cells. Returns the column after the last."""
        end = min(x + room, self.width)
        for sign, cells in measured(text):
            if x + cells > end:
                break
            self.put(x, y, sign, ink)
            if cells == 2:
                self.put(x + 1, y, "", ink)
            x += cells
        return x

    def runs(self, y: int) -> Iterator[tuple[str, Ink]]:
        """One row as stretches of the same ink."""
        for ink, cells in groupby(zip(self.inks[y], self.signs[y], strict=True), key=lambda cell: cell[0]):
            yield "".join(sign for _, sign in cells), ink

    def text(self) -> str:
        """The drawing without its colours."""
        return "\n".join("".join(row).rstrip() for row in self.signs)


VARIANT_SIGN = "\ufe0f"


def measured(text: str) -> list[tuple[str, int]]:
    """The letters of cleaned text with their cells, accents kept with the letter they sit on.

    The sign that asks for a coloured form is dropped: terminals disagree on the width it makes.
    """
    letters: list[tuple[str, int]] = []
    for sign in clean(text, 200).replace(VARIANT_SIGN, ""):
        if cells := cell_len(sign):
            letters.append((sign, cells))
        elif letters:
            letters[-1] = (letters[-1][0] + sign, letters[-1][1])
    return letters


def cells_of(text: str) -> int:
    """The cells that `Canvas.write` needs for the text."""
    return sum(cells for _, cells in measured(text))
