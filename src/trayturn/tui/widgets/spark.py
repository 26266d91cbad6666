"""Readings in time as a small chart: by time from left to right, tall or in one line, without colour too."""

from __future__ import annotations

from collections.abc import Sequence

BLOCKS = " ▁▂▃▄▅▆▇█"
LEVELS = " _.-^"
"""One line in plain signs: from the foot of the line to its top."""
STACKED = " .:|"
"""A part of a column in plain signs, by how far it is filled."""


def columns_of(times: Sequence[float], width: int) -> list[int]:
    """The column of each moment; a lone one stands at the end."""
    first, last = times[0], times[-1]
    if last <= first:
        return [width - 1] * len(times)
    return [round((time - first) / (last - first) * (width - 1)) for time in times]


def ends(numbers: Sequence[float], least_span: float) -> tuple[float, float]:
    """The foot and the top of the chart: what errors of reading alone would do is not blown up to fill it."""
    low, high = min(numbers), max(numbers)
    missing = max(0.0, least_span - (high - low))
    return low - missing / 2, high + missing / 2


def spark(
    times: Sequence[float],
    numbers: Sequence[float],
    width: int,
    height: int = 1,
    least_span: float = 1.0,
    plain: bool = False,
) -> list[str]:
    """The chart's lines, the top one first. Of readings that fall on one column the last is drawn."""
    if not numbers:
        return [""] * height
    low, high = ends(numbers, least_span)
    signs = (LEVELS if height == 1 else STACKED) if plain else BLOCKS
    steps = len(signs) - 1
    filled: dict[int, int] = {}
    for column, number in zip(columns_of(times, width), numbers, strict=True):
        share = (number - low) / (high - low) if high > low else 0.5
        filled[column] = 1 + round(share * (height * steps - 1))
    return [
        "".join(signs[_part(filled.get(column, 0), row, steps)] for column in range(width)).rstrip()
        for row in reversed(range(height))
    ]


def _part(filled: int, row: int, steps: int) -> int:
    """How much of one row of a column is filled; the rows are counted from the foot."""
    return max(0, min(steps, filled - row * steps))
