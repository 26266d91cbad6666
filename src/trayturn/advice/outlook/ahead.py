"""The plan as journal entries to come, so that what is planned and what was done are read in one way.

Turns go by `advice.turning`, again and again: the stack as it would stand is replayed, its next turn made,
the tray that leaves separated on the same day. The entries are never saved.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Literal

from trayturn.advice.feeding import feed_next
from trayturn.advice.outlook.calendar import Calendar
from trayturn.advice.outlook.history import History
from trayturn.advice.outlook.result import Plan
from trayturn.advice.roles import free_tray, size
from trayturn.advice.turning import fresh_entry, next_turn, turn_entries
from trayturn.domain.entries import (
    Entry,
    Fed,
    SeparationBegun,
    SeparationEnded,
    Settled,
    Stage,
    TrayStarted,
)
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack

LEAST_KG, MOST_KG = 1e-4, 1000.0
"""Less than this is nothing to write down; more no entry can hold."""
A_MOMENT = timedelta(seconds=1)


def planned(profile: Profile, history: History, plan: Plan, until: int, turns: bool = True) -> Profile:
    """The bin's past up to now with the plan behind it, up to that day; without `turns` only its meals."""
    stack = replay(profile, history.calendar.now)
    ahead = _Ahead(_cut(profile, history, plan, stack), history.calendar, plan, until)
    ahead.go(turns, plan.trays - size(stack) if turns else 0)
    return ahead.profile


def _cut(profile: Profile, history: History, plan: Plan, stack: Stack) -> Profile:
    """The profile with what counts up to now alone, set up as the plan has it."""
    setup = profile.bin.model_copy(
        update={"days_between_turns": max(1.0, plan.turn_every_days), "tray_count": plan.trays}
    )
    journal = tuple(one.entry for one in history.tolds)
    listed = profile.trays if plan.trays == size(stack) else ()
    return replace(profile, bin=setup, trays=listed, journal=journal)


class _Ahead:
    """Days are the calendar's; `meal` is that of the next one, perhaps between two days."""

    def __init__(self, profile: Profile, calendar: Calendar, plan: Plan, until: int) -> None:
        self.profile, self.calendar, self.plan, self.until = profile, calendar, plan, until
        self.meal = float(calendar.today + 1)

    def go(self, turns: bool, more: int) -> None:
        """All of it; so many more trays than the set has had come in first, as bedding at the bottom."""
        stack = self._stack(self.calendar.today)
        for separation in stack.separations:
            self._separated(separation.tray, self.calendar.today, separation.settled is not None)
        due = feed_next(stack).due
        if due is not None:
            self.meal = max(self.meal, round(self.calendar.day(due)))
        day = self.calendar.today + 1
        for _ in range(more if stack.trays else 0):
            self._fresh(day, 1, "bedding")
        while day <= self.until:
            day = self._period(day, turns)

    def _period(self, day: int, turns: bool) -> int:
        """Meals until the next turn, and that turn; the day after it."""
        stack = self._stack(day)
        if not stack.trays:
            return self.until + 1
        tray = feed_next(stack).tray or self._open(stack, day)
        if tray is None:
            self._turn(day)
            tray = feed_next(self._stack(day)).tray
            if tray is None:
                return self.until + 1
        stack = self._stack(day)
        turn = self._turn_day(stack, day) if turns else self.until + 1
        self._meals(tray, turn)
        if turn > self.until:
            return turn
        self._turn(turn)
        return turn + 1

    def _turn_day(self, stack: Stack, day: int) -> int:
        due = next_turn(stack).due
        if due is None:
            return self.until + 1
        return self._at_home(max(day, int(self.calendar.day(due))))

    def _open(self, stack: Stack, day: int) -> str | None:
        """Where no tray is fed: the bedding tray that can be, or a fresh one."""
        instead = feed_next(stack).instead
        if instead is not None:
            self._feed(instead, self._at_home(max(day, round(self.meal))))
            return instead
        return self._fresh(day, min(len(stack.trays) + 1, 20), "feeding")

    def _fresh(self, day: int, level: int, stage: Literal["bedding", "feeding"]) -> str | None:
        """A free tray started, if there is one."""
        fresh = free_tray(self._stack(day))
        if fresh is not None:
            at, filled = self._moment(day), self._bedding()
            start = TrayStarted(at=at, tray=fresh, bedding_kg=filled, level=level, stage=stage)
            self._add(self._watered([start]))
        return fresh

    def _meals(self, tray: str, turn: int) -> None:
        while round(self.meal) < min(turn, self.until + 1):
            day = self._at_home(round(self.meal))
            if day >= turn or day > self.until:
                self.meal = float(day)
                return
            self._feed(tray, day)

    def _feed(self, tray: str, day: int) -> None:
        """One meal, and the day of the next."""
        plan = self.plan
        scraps = plan.scraps_kg_per_week * plan.feed_every_days / 7
        items = _written({name: scraps * share for name, share in plan.mix.items()})
        bedding = _written({plan.bedding: scraps * plan.bedding_ratio})
        water = min(scraps * plan.water_ratio, MOST_KG)
        self.meal = max(self.meal, float(day)) + max(1.0, plan.feed_every_days)
        if items and day <= self.until:
            meal = Fed(
                at=self._moment(day),
                tray=tray,
                items_kg=items,
                bedding_kg=bedding,
                water_kg=water if water > LEAST_KG else None,
            )
            self._add([meal])

    def _turn(self, day: int) -> None:
        stack, at = self._stack(day), self._moment(day)
        turn = next_turn(stack)
        leaving = [move.tray for move in turn.moves if move.to_level is None]
        self._add(self._watered(turn_entries(stack, at, self._bedding())))
        for tray in leaving:
            self._separated(tray, day, False)
        if turn.fresh in leaving:
            again = fresh_entry(self._stack(day), turn, at, self._bedding())
            self._add(self._watered([again]))

    def _separated(self, tray: str, day: int, settled: bool) -> None:
        at, stack = self._moment(day), self._stack(day)
        state = stack.tray(tray)
        if state is None or not state.on_stack:
            return
        if state.stage is not Stage.SEPARATING:
            self._add([SeparationBegun(at=at, tray=tray)])
        if not settled:
            self._add([Settled(at=at, tray=tray)])
        self._add([SeparationEnded(at=at, tray=tray)])

    def _bedding(self) -> dict[str, float]:
        return _written({self.plan.bedding: self.plan.fresh_bedding_kg})

    def _watered(self, entries: Iterable[Entry]) -> list[Entry]:
        """A fresh tray gets the water that fresh trays get here."""
        kg = self.plan.fresh_water_kg
        water = {"water_kg": kg if kg > LEAST_KG else None}
        return [one.model_copy(update=water) if isinstance(one, TrayStarted) else one for one in entries]

    def _at_home(self, day: int) -> int:
        """That day, or the first one back."""
        if self.plan.away is None:
            return day
        left, days = self.plan.away
        first = int(self.calendar.day(left))
        back = first + round(days)
        return back if first <= day < back else day

    def _moment(self, day: int) -> datetime:
        """The middle of a day; of today the next moment."""
        return max(self.calendar.noon(day), self.calendar.now + A_MOMENT)

    def _stack(self, day: int) -> Stack:
        return replay(self.profile, self._moment(day))

    def _add(self, entries: Iterable[Entry]) -> None:
        self.profile = self.profile.with_entries(entries)


def _written(masses: Mapping[str, float]) -> dict[str, float]:
    """What an entry can hold of these masses, kg."""
    return {name: min(kg, MOST_KG) for name, kg in masses.items() if kg > LEAST_KG}
