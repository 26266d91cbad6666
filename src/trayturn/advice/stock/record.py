"""What went of a supply in a week, by the keeper's own record."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.bands import Band
from trayturn.advice.stock import thumb
from trayturn.advice.stock.habits import LEAST_SEEN, Habit, days_in_sight, given_at_feedings, spread_of
from trayturn.domain.stack import Stack
from trayturn.domain.supplies import LAST_FEEDINGS, LAST_STARTS, LAST_USES, gathered
from trayturn.domain.words import count, listed
from trayturn.science.spread import sum_off

SHORTEST_WEEKS = 6.0
"""A record shorter than this says nothing of a week: its first trays weigh too much in it. Our choice."""


@dataclass(frozen=True, slots=True)
class Record:
    """What goes of a supply in a week, kg, and what that rests on; `own` where it is the keeper's record.

    Without enough of a record it is what is to be expected as the bin is set up, and None for a supply of
    which no use is known.
    """

    per_week: Band | None
    rests_on: str
    own: bool = False


@dataclass(frozen=True, slots=True)
class _Kind:
    """Uses of one kind: what each took, the weeks they are spread over, and how they are called."""

    kgs: tuple[float, ...]
    weeks: float
    noun: str

    @property
    def used(self) -> int:
        return sum(1 for kg in self.kgs if kg)

    @property
    def per_week(self) -> Band:
        """The mean of those weeks; the ends are where as many weeks more would lie, 4 times in 5."""
        total, number = sum(self.kgs), len(self.kgs)
        off = sum_off(spread_of(self.kgs), number, number) if number > 1 else thumb.A_FIFTH * total
        return Band(max(0.0, total - off), total, total + off).times(1 / self.weeks)


def record_of(stack: Stack, name: str, habit: Habit) -> Record:
    """The record of the supply of that folded name, or what its habit leads to expect."""
    kinds = [kind for kind in _kinds(stack, name) if kind.used]
    longest = max((kind.weeks for kind in kinds), default=0.0)
    told = f"{listed(count(kind.used, kind.noun) for kind in kinds)} over {count(round(longest), 'week')}"
    if sum(kind.used for kind in kinds) < LEAST_SEEN or longest < SHORTEST_WEEKS:
        return _expected(stack, habit, told if kinds else "")
    band = Band(0.0, 0.0, 0.0)
    for kind in kinds:
        band = band.plus(kind.per_week)
    return Record(band, told, own=True)


def _expected(stack: Stack, habit: Habit, told: str) -> Record:
    """A week by the setup's intervals, while the record is too short."""
    setup = stack.setup
    band = habit.need(7 / setup.days_between_feedings, 7 / setup.days_between_turns, 7)
    too_few = f", for {told} tell too little" if told else ""
    if not band.high:
        return Record(None, f"{told} tell too little" if told else "no use of it is written down yet")
    return Record(band, f"expected of this bin as it is set up{too_few}")


def _kinds(stack: Stack, name: str) -> list[_Kind]:
    starts = [gathered(start.bedding_kg).get(name, 0.0) for start in stack.last_starts]
    others = [gathered(use.supplies_kg).get(name, 0.0) for use in stack.last_uses]
    fed_at = [meal.at for meal in stack.last_feedings]
    return [
        _kind(stack, given_at_feedings(stack, name), fed_at, LAST_FEEDINGS, "feeding"),
        _kind(stack, starts, [start.at for start in stack.last_starts], LAST_STARTS, "tray"),
        _kind(stack, others, [use.at for use in stack.last_uses], LAST_USES, "other use"),
    ]


def _kind(stack: Stack, kgs: Sequence[float], moments: Sequence[datetime], most: int, noun: str) -> _Kind:
    """Where more came before those in sight, the oldest only marks where the weeks begin."""
    weeks = max(days_in_sight(stack, moments, most) / 7, 1 / 7)
    return _Kind(tuple(kgs[1:] if len(kgs) == most else kgs), weeks, noun)
