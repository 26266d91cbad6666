"""A reading's range as a small drawing: its limits, its best band, and where readings stand on it.

Plain text, so that it can be drawn anywhere: the parts differ in shape, not in colour alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from trayturn.tui.widgets.line_list import Span

OUTSIDE, LIVING, BEST, LEAST, MOST, NOW, BEFORE = "·─━├┤▼△"
PLAIN = str.maketrans({OUTSIDE: ".", LIVING: "-", BEST: "=", LEAST: "[", MOST: "]", NOW: "v", BEFORE: "^"})


@dataclass(frozen=True, slots=True)
class Scale:
    """What is drawn: all numbers in one unit, the ends of the scale first."""

    shown: tuple[float, float]
    limits: tuple[float, float]
    best: tuple[float, float]


def place(number: float, shown: tuple[float, float], width: int) -> int:
    """The column of a number, at the edge where it is beyond the scale."""
    low, high = shown
    column = round((number - low) / (high - low) * (width - 1))
    return max(0, min(width - 1, column))


def bar(scale: Scale, width: int, plain: bool = False) -> str:
    """The scale itself: dots outside the limits, a line within them, a heavy one where it is best."""
    columns = [
        scale.shown[0] + (scale.shown[1] - scale.shown[0]) * column / (width - 1) for column in range(width)
    ]
    best = {place(number, scale.shown, width) for number in scale.best}
    signs = [
        BEST if min(best) <= column <= max(best) else LIVING if _within(number, scale.limits) else OUTSIDE
        for column, number in enumerate(columns)
    ]
    low, high = (place(number, scale.shown, width) for number in scale.limits)
    signs[low], signs[high] = LEAST, MOST
    text = "".join(signs)
    return text.translate(PLAIN) if plain else text


def _within(number: float, limits: tuple[float, float]) -> bool:
    return limits[0] <= number <= limits[1]


def pointer(number: float, words: str, scale: Scale, width: int, now: bool, plain: bool = False) -> str:
    """A mark over or under the scale with its words on the side where there is room."""
    column = place(number, scale.shown, width)
    mark = NOW if now else BEFORE
    mark = mark.translate(PLAIN) if plain else mark
    after = f"{' ' * column}{mark} {words}"
    if len(after) <= width:
        return after
    return f"{words} {mark}".rjust(column + 1)


def numbers(labels: Sequence[tuple[float, str]], scale: Scale, width: int) -> str:
    """The limits and the best band in figures in their places; one that would touch another is left out."""
    line = ""
    for number, label in sorted(labels):
        start = max(0, min(width - len(label), place(number, scale.shown, width) - len(label) // 2))
        if not line or start > len(line):
            line = line.ljust(start) + label
    return line


def scale_lines(
    scale: Scale,
    now: tuple[float, str] | None,
    before: tuple[float, str] | None,
    labels: Sequence[tuple[float, str]],
    width: int,
    plain: bool = False,
) -> list[tuple[Span, ...]]:
    """The drawing line by line: the reading of now on top, the scale and its figures, the last reading."""
    top = pointer(*now, scale, width, True, plain) if now is not None else ""
    low = pointer(*before, scale, width, False, plain) if before is not None else ""
    return [
        ((top, "strong"),),
        ((bar(scale, width, plain), "fine"),),
        ((numbers(labels, scale, width), "muted"),),
        ((low, "muted"),),
    ]
