"""What a chart shows, as plain data: a band in time, readings, other lines and days that are marked."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)


@dataclass(frozen=True, slots=True)
class Band:
    """A series with its bands: four times in five within `p10` and `p90`, every other time `p25` and `p75`.

    All of one length as `days`, which rise.
    """

    days: tuple[float, ...]
    p10: tuple[float, ...]
    p25: tuple[float, ...]
    p50: tuple[float, ...]
    p75: tuple[float, ...]
    p90: tuple[float, ...]

    def at(self, day: float) -> tuple[float, float, float, float, float] | None:
        """The five figures of a day, between its neighbours; None outside the series."""
        if not self.days or not self.days[0] <= day <= self.days[-1]:
            return None
        after = min(bisect_right(self.days, day), len(self.days) - 1)
        before = max(0, after - 1)
        span = self.days[after] - self.days[before]
        share = (day - self.days[before]) / span if span > 0 else 0.0
        p10, p25, p50, p75, p90 = (
            series[before] + share * (series[after] - series[before])
            for series in (self.p10, self.p25, self.p50, self.p75, self.p90)
        )
        return p10, p25, p50, p75, p90


@dataclass(frozen=True, slots=True)
class Dot:
    """A reading of the keeper's. One that does not fit the rest has a sign of its own."""

    day: float
    value: float
    fits: bool = True


@dataclass(frozen=True, slots=True)
class Line:
    """Another course, such as that of today's plan: its middle alone."""

    days: tuple[float, ...]
    values: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Mark:
    """A day that stands out: today, a turn."""

    day: float
    word: str


@dataclass(frozen=True, slots=True)
class Plot:
    """A chart. `unit` is said at the axis, `ticks` name days below it, `limit` is a line across it."""

    unit: str
    band: Band
    dots: tuple[Dot, ...] = ()
    lines: tuple[Line, ...] = ()
    marks: tuple[Mark, ...] = ()
    ticks: tuple[Mark, ...] = ()
    limit: float | None = None
    from_zero: bool = True

    @property
    def days(self) -> tuple[float, float]:
        """The first and the last day shown."""
        ends = [*self.band.days[:1], *self.band.days[-1:], *(dot.day for dot in self.dots)]
        ends += [day for line in self.lines for day in (*line.days[:1], *line.days[-1:])]
        return (min(ends), max(ends)) if ends else (0.0, 1.0)

    @property
    def shown_marks(self) -> list[Mark]:
        """The marks that fall into the days shown."""
        first, last = self.days
        return [mark for mark in self.marks if first <= mark.day <= last]

    @property
    def values(self) -> tuple[float, float]:
        """The least and the greatest figure shown."""
        found = [*self.band.p10, *self.band.p90, *(dot.value for dot in self.dots)]
        found += [value for line in self.lines for value in line.values]
        found += [self.limit] if self.limit is not None else []
        found += [0.0] if self.from_zero or not found else []
        low, high = min(found), max(found)
        return (low, high) if high > low else (low, low + 1.0)

    @property
    def empty(self) -> bool:
        return not (self.band.days or self.dots or self.lines)


def scale(low: float, high: float, most: int) -> list[float]:
    """Round figures for an axis, at most so many and two at least, that take in both ends."""
    span = max(high - low, 1e-9)
    rough = span / max(1, most - 1)
    power = 10 ** math.floor(math.log10(rough))
    for step in (power * times * factor for factor in (1, 10) for times in STEPS):
        first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
        if last - first + 1 <= max(2, most):
            return [round(n * step, 10) for n in range(first, max(last, first + 1) + 1)]
    return [low, high]


def said(values: Sequence[float]) -> list[str]:
    """Figures of an axis, each with as many decimals as tell neighbours apart."""
    step = min((b - a for a, b in pairwise(values)), default=1.0)
    decimals = next((n for n in range(4) if abs(round(step, n) - step) < 1e-9), 4)
    return [f"{value:.{decimals}f}" for value in values]
