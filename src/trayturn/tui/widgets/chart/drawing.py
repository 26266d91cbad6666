"""A chart drawn in cells: signs that are told apart without colour, and a look by name for each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from trayturn.tui.widgets.chart.plot import Dot, Line, Plot, said, scale

WIDE, MIDDLE, MEDIAN, LINE, MARK, LIMIT = "wide", "middle", "median", "line", "mark", "limit"
DOT, ODD, AXIS, GROUND = "dot", "odd", "axis", "ground"
LOOKS = (WIDE, MIDDLE, MEDIAN, LINE, MARK, LIMIT, DOT, ODD, AXIS)
SIGNS = {WIDE: "░", MIDDLE: "▒", MEDIAN: "━", LINE: "╍", MARK: "│", LIMIT: "┄", DOT: "●", ODD: "×"}
PLAIN = {WIDE: ".", MIDDLE: ":", MEDIAN: "=", LINE: "-", MARK: "|", LIMIT: "~", DOT: "o", ODD: "x"}
KEY = ((MEDIAN, "middle"), (MIDDLE, "1 in 2"), (WIDE, "4 in 5"), (DOT, "yours"))
"""What the signs of a chart mean, in the words that stand below it."""

Cell = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Frame:
    """Where things fall: the columns and rows of the field, and the days and figures they stand for."""

    left: int
    width: int
    height: int
    days: tuple[float, float]
    values: tuple[float, float]

    def column(self, day: float) -> int:
        first, last = self.days
        share = (day - first) / (last - first) if last > first else 1.0
        return self.left + round(share * (self.width - 1))

    def day(self, column: int) -> float:
        first, last = self.days
        return first + (last - first) * (column - self.left) / max(1, self.width - 1)

    def row(self, value: float) -> int:
        """The row of a figure, from the top; figures beyond the ends fall on the ends."""
        low, high = self.values
        share = min(1.0, max(0.0, (value - low) / (high - low)))
        return round((1 - share) * (self.height - 1))


def draw(plot: Plot, width: int, height: int, plain: bool = False) -> list[list[Cell]]:
    """The chart's rows, each of `width` cells: a sign and the name of its look."""
    grid: list[list[Cell]] = [[(" ", GROUND)] * width for _ in range(height)]
    below = 2 if plot.ticks else 1
    field_rows = height - below
    if plot.empty or width < 16 or field_rows < 3:
        return grid
    ends = scale(*plot.values, most=max(2, (field_rows + 2) // 3))
    labels = said(ends)
    left = max(len(label) for label in labels) + 2
    frame = Frame(left, width - left, field_rows, plot.days, (ends[0], ends[-1]))
    _axis(grid, frame, list(zip(ends, labels, strict=True)), plot, plain)
    signs = PLAIN if plain else SIGNS
    for x, y, look in _cells(plot, frame):
        grid[y][x] = (signs[look], look)
    return grid


def _cells(plot: Plot, frame: Frame) -> Iterator[tuple[int, int, str]]:
    """What is drawn in the field, in order: what comes later covers what came before."""
    if plot.limit is not None:
        y = frame.row(plot.limit)
        yield from ((x, y, LIMIT) for x in range(frame.left, frame.left + frame.width))
    yield from _band(plot, frame)
    for mark in plot.shown_marks:
        yield from ((frame.column(mark.day), y, MARK) for y in range(frame.height))
    for line in plot.lines:
        yield from _line(line, frame)
    yield from _median(plot, frame)
    yield from (_dot(dot, frame) for dot in plot.dots)


def _band(plot: Plot, frame: Frame) -> Iterator[tuple[int, int, str]]:
    for x in range(frame.left, frame.left + frame.width):
        if (figures := plot.band.at(frame.day(x))) is None:
            continue
        p10, p25, _, p75, p90 = figures
        for low, high, look in ((p10, p90, WIDE), (p25, p75, MIDDLE)):
            yield from ((x, y, look) for y in range(frame.row(high), frame.row(low) + 1))


def _median(plot: Plot, frame: Frame) -> Iterator[tuple[int, int, str]]:
    for x in range(frame.left, frame.left + frame.width):
        if (figures := plot.band.at(frame.day(x))) is not None:
            yield x, frame.row(figures[2]), MEDIAN


def _line(line: Line, frame: Frame) -> Iterator[tuple[int, int, str]]:
    for day, value in zip(line.days, line.values, strict=True):
        yield frame.column(day), frame.row(value), LINE


def _dot(dot: Dot, frame: Frame) -> tuple[int, int, str]:
    return frame.column(dot.day), frame.row(dot.value), DOT if dot.fits else ODD


def _axis(
    grid: list[list[Cell]], frame: Frame, labels: list[tuple[float, str]], plot: Plot, plain: bool
) -> None:
    """The upright axis with its figures, and below it the days that have a name."""
    upright, corner, level, notch = ("|", "+", "-", "+") if plain else ("│", "└", "─", "┤")
    at = frame.left - 1
    for y in range(frame.height):
        grid[y][at] = (upright, AXIS)
    for value, label in labels:
        y = frame.row(value)
        _write(grid[y], at - len(label), label)
        grid[y][at] = (notch, AXIS)
    bottom = grid[frame.height]
    bottom[at] = (corner, AXIS)
    for x in range(frame.left, len(bottom)):
        bottom[x] = (level, AXIS)
    for mark in plot.shown_marks:
        _write(bottom, frame.column(mark.day) - len(mark.word) // 2, mark.word, least=frame.left)
    free = frame.left
    for tick in plot.ticks:
        if frame.days[0] <= tick.day <= frame.days[1] and frame.column(tick.day) >= free:
            free = _write(grid[frame.height + 1], frame.column(tick.day), tick.word) + 1
    _write(grid[frame.height + 1] if plot.ticks else bottom, 0, plot.unit)


def _write(row: list[Cell], x: int, text: str, least: int = 0) -> int:
    """Words on a row, moved in where they would run over its ends. Returns the column behind them."""
    x = max(least, min(x, len(row) - len(text)))
    for n, sign in enumerate(text[: len(row) - x]):
        row[x + n] = (sign, AXIS)
    return x + len(text)


def runs(row: list[Cell]) -> Iterator[tuple[str, str]]:
    """A row as stretches of one look."""
    for look, cells in groupby(row, key=lambda cell: cell[1]):
        yield "".join(sign for sign, _ in cells), look


def text(rows: list[list[Cell]]) -> str:
    """The drawing without its looks."""
    return "\n".join("".join(sign for sign, _ in row).rstrip() for row in rows)
