"""How long each supply lasts, what the next turn and month need of it, and what to gather by when."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from zlib import crc32

from trayturn.advice.bands import Band
from trayturn.advice.stock.ahead import Step, coming
from trayturn.advice.stock.habits import Habit, habit_of
from trayturn.advice.stock.record import Record, record_of
from trayturn.domain.stack import Stack
from trayturn.domain.supplies import SMALLEST_KG, Supply, fold

MONTH, AHEAD = 30.0, 90.0
"""Days for which there should be enough, and how many days ahead a turn is looked out for. Our choices."""
A_MOMENT = 1e-6
"""Days that sums of days may be off by rounding."""


@dataclass(frozen=True, slots=True)
class Lasts:
    """When a supply runs out: at the earliest, most likely and at the latest. None is not within a year."""

    early: datetime | None
    mid: datetime | None
    late: datetime | None


@dataclass(frozen=True, slots=True)
class Outlook:
    """One supply: what is in stock, what goes, what is needed, and how much to gather by when. Masses in kg.

    `supply.kg` and `lasts` are None while the stock is not known, `turn` where the next turn needs none of
    it, `turn_at` where no turn is in sight, `gather_kg` and `gather_by` where nothing has to be gathered.
    """

    supply: Supply
    code: str
    habit: Habit
    record: Record
    turn: Band | None
    turn_at: datetime | None
    month: Band
    month_feedings: float
    month_trays: float
    lasts: Lasts | None
    gather_kg: float | None
    gather_by: datetime | None

    @property
    def name(self) -> str:
        return self.supply.name

    @property
    def short(self) -> bool:
        """Whether the stock does not reach through the next month and turn."""
        return self.gather_kg is not None


def outlooks(stack: Stack) -> list[Outlook]:
    """Every supply the keeper has named, in stock or in the last feedings and trays, in that order."""
    steps = coming(stack)
    return [_outlook(stack, supply, code, steps) for supply, code in _coded(stack)]


def short_of(stack: Stack) -> list[Outlook]:
    """The supplies that have to be gathered, as `outlooks` tells of them. Quick where there are none."""
    steps = coming(stack)
    return [
        _outlook(stack, supply, code, steps)
        for supply, code in _coded(stack)
        if supply.kg is not None and _to_gather(supply.kg, habit_of(stack, fold(supply.name)), steps)
    ]


def _coded(stack: Stack) -> Iterator[tuple[Supply, str]]:
    """Each supply with a code of its own."""
    taken: set[str] = set()
    for supply in supplies_of(stack):
        code = _code(supply.name, taken)
        taken.add(code)
        yield supply, code


def supplies_of(stack: Stack) -> list[Supply]:
    """The supplies written down as such, and those that only feedings and trays speak of."""
    known = {fold(one.name): one for one in stack.supplies}
    for name in _named(stack):
        known.setdefault(fold(name), Supply(name, None))
    return list(known.values())


def _named(stack: Stack) -> Iterator[str]:
    for start in stack.last_starts:
        yield from start.bedding_kg
    for meal in stack.last_feedings:
        yield from meal.bedding_kg
        if meal.grit_kg:
            yield "grit"


def _code(name: str, taken: Collection[str]) -> str:
    """A supply's name as a code: `shredded-cardboard`."""
    mark = f"{crc32(fold(name).encode('utf-8', 'replace')):x}"
    code = re.sub(r"\W+", "-", fold(name)).strip("-")[:60] or mark
    return code if code not in taken else f"{code}-{mark}"


def _outlook(stack: Stack, supply: Supply, code: str, steps: Sequence[Step]) -> Outlook:
    habit = habit_of(stack, fold(supply.name))
    feedings, trays = _events(steps, MONTH)
    turn = next((step for step in steps if step.trays), None)
    gather = None if supply.kg is None else _to_gather(supply.kg, habit, steps)
    return Outlook(
        supply=supply,
        code=code,
        habit=habit,
        record=record_of(stack, fold(supply.name), habit),
        turn=habit.tray.one if turn is not None and habit.tray.one.high > 0 else None,
        turn_at=turn.at if turn is not None else None,
        month=habit.need(feedings, trays, MONTH),
        month_feedings=feedings,
        month_trays=trays,
        lasts=None if supply.kg is None else _lasts(supply.kg, habit, steps),
        gather_kg=gather[0] if gather else None,
        gather_by=gather[1] if gather else None,
    )


def _events(steps: Sequence[Step], days: float) -> tuple[float, float]:
    """How many feedings and fresh trays there are within so many days."""
    place = bisect_right(steps, days + A_MOMENT, key=lambda step: step.days)
    return (steps[place - 1].feedings, steps[place - 1].trays) if place else (0.0, 0.0)


def _need(habit: Habit, step: Step) -> Band:
    return habit.need(step.feedings, step.trays, step.days)


def _first_beyond(kg: float, steps: Sequence[Step], habit: Habit, end: int) -> datetime | None:
    """The first step at which one end of the band needs more than there is. Needs only grow with time."""
    place = bisect_right(steps, kg + SMALLEST_KG, key=lambda step: _need(habit, step)[end])
    return steps[place].at if place < len(steps) else None


def _lasts(kg: float, habit: Habit, steps: Sequence[Step]) -> Lasts:
    early, mid, late = (_first_beyond(kg, steps, habit, end) for end in (2, 1, 0))
    return Lasts(early, mid, late)


def _to_gather(kg: float, habit: Habit, steps: Sequence[Step]) -> tuple[float, datetime] | None:
    """What is short for the next month, or up to a turn after it that is in sight; and from when on."""
    turn = next((step.days for step in steps if step.trays and habit.tray.one.high > 0), 0.0)
    days = turn if MONTH < turn <= AHEAD else MONTH
    lacking = habit.need(*_events(steps, days), days).mid - kg
    by = _first_beyond(kg, steps, habit, 1)
    return (lacking, by) if lacking > SMALLEST_KG and by is not None else None
