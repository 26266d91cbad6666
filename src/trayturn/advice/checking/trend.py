"""Whether a reading rises or falls, and only when it is more than readings err by.

The slope is the median of the slopes between all pairs of readings (Theil 1950; Sen 1968), which one odd
reading does not turn. Rising or falling is said when the change along that slope, from the first reading
to the last, is at least twice what one reading may be off.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta
from itertools import combinations
from statistics import median

from trayturn.advice.checking.history import Point
from trayturn.advice.checking.kinds import Kind
from trayturn.advice.reading import FEEL_BAND_PCT
from trayturn.domain.setup import Units
from trayturn.domain.stack import days_between
from trayturn.domain.units import show_volume, three_figures
from trayturn.domain.words import count

MAY_BE_OFF: Mapping[Kind, float] = {
    Kind.MOISTURE: FEEL_BAND_PCT,
    Kind.TEMPERATURE: 1.0,
    Kind.PH: 0.5,
    Kind.SUMP: 0.1,
}
"""How far one reading may be off: points, °C, pH, litres. Common practice, no source."""
LATEST = 5
AS_OLD_AS = timedelta(days=60)
"""A trend is of the last five readings, none older than that. Our choice."""


@dataclass(frozen=True, slots=True)
class Trend:
    """A change over some days, in the reading's unit. `direction` is 1 rising, -1 falling, 0 steady."""

    kind: Kind
    direction: int
    change: float
    days: float
    readings: int

    @property
    def word(self) -> str:
        return {1: "rising", -1: "falling", 0: "steady"}[self.direction]

    def words(self, units: Units) -> str:
        """`Rising: 12 points in 21 days, by 4 readings.`"""
        span = f"{count(round(self.days), 'day')}" if self.days >= 1 else "less than a day"
        by = count(self.readings, "reading")
        if self.direction == 0:
            least = _amount(self.kind, 2 * MAY_BE_OFF[self.kind], units)
            return f"Steady over {span}, by {by}: less than {least} is reading error."
        return f"{self.word.capitalize()}: {_amount(self.kind, abs(self.change), units)} in {span}, by {by}."


def trend(points: Sequence[Point]) -> Trend | None:
    """The trend of the latest readings; None for fewer than two, or for readings that are no numbers."""
    if not points or points[-1].kind not in MAY_BE_OFF:
        return None
    kind, last = points[-1].kind, points[-1].at
    recent: Sequence[Point] = [point for point in points[-LATEST:] if last - point.at <= AS_OLD_AS]
    if kind is Kind.SUMP:
        recent = _since_emptied(recent)
    days = days_between(recent[0].at, last)
    if days <= 0:
        return None
    change = _slope(recent) * days
    needed = 2 * MAY_BE_OFF[kind]
    direction = 0 if abs(change) < needed - 1e-9 else 1 if change > 0 else -1
    return Trend(kind, direction, change, days, len(recent))


def _slope(points: Sequence[Point]) -> float:
    """The median change a day over all pairs of readings at different moments."""
    pairs = [(days_between(a.at, b.at), b.number - a.number) for a, b in combinations(points, 2)]
    return median(change / days for days, change in pairs if days > 0)


def _since_emptied(points: Sequence[Point]) -> Sequence[Point]:
    """A sump that holds less than before was emptied: what counts is what came in since."""
    start = 0
    for place in range(1, len(points)):
        if points[place].number < points[place - 1].number:
            start = place
    return points[start:]


def _amount(kind: Kind, amount: float, units: Units) -> str:
    if kind is Kind.SUMP:
        return show_volume(amount, units)
    if kind is Kind.TEMPERATURE:
        scale = 1.8 if units is Units.US else 1.0
        return f"{three_figures(round(scale * amount, 1))} °{'F' if units is Units.US else 'C'}"
    return f"{amount:.0f} points" if kind is Kind.MOISTURE else three_figures(round(amount, 1))
