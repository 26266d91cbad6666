"""Bands beside each other on one scale, a line of text for each: for lists and tables."""

from __future__ import annotations

from trayturn.tui.widgets.chart.drawing import DOT, MEDIAN, MIDDLE, PLAIN, SIGNS, WIDE

Five = tuple[float, float, float, float, float]
"""p10, p25, p50, p75, p90."""


def bar(five: Five, top: float, width: int, came: float | None = None, plain: bool = False) -> str:
    """One band from nothing to `top`, `width` cells wide; `came` is what was measured in the end."""
    signs = PLAIN if plain else SIGNS
    cells = [" "] * width

    def column(value: float) -> int:
        return min(width - 1, max(0, round(value / top * (width - 1)))) if top > 0 else 0

    low, low_half, middle, high_half, high = (column(value) for value in five)
    cells[low : high + 1] = signs[WIDE] * (high + 1 - low)
    cells[low_half : high_half + 1] = signs[MIDDLE] * (high_half + 1 - low_half)
    cells[middle] = signs[MEDIAN]
    if came is not None:
        cells[column(came)] = signs[DOT]
    return "".join(cells).rstrip()
