"""The order of work for all separations under way: computed anew from the journals at every look."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.side_by_side.chains import Ahead, chains_of
from trayturn.domain.entries import Step
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean
from trayturn.science.scheduling import Chain, Schedule, Slot, schedule

STEPS = 4_000
"""How many steps a search may take: a screen is waiting. Engineering choice."""
SHORT_MIN = 0.5
"""A wait shorter than this is none."""


@dataclass(frozen=True, slots=True)
class Planned:
    """One piece of work in its place. From `end` to `rest_until` the tray rests."""

    bin: str
    name: str
    tray: str
    what: str
    start: datetime
    end: datetime
    rest_until: datetime


@dataclass(frozen=True, slots=True)
class Wait:
    """A rest that lasts longer than it was set to, minutes; `in_all` is how long it then was."""

    bin: str
    tray: str
    minutes: float
    in_all: float


@dataclass(frozen=True, slots=True)
class SideBySide:
    """The order of work. `done` is when all will be done: with few passes, the likeliest, and with many.

    `waits` are the rests that last longer because hands are elsewhere. `proved`: no order ends sooner.
    """

    now: datetime
    slots: tuple[Planned, ...]
    done: tuple[datetime, datetime, datetime]
    waits: tuple[Wait, ...]
    hands_min: float
    proved: bool

    @property
    def trays(self) -> list[tuple[str, str, str]]:
        """Bin, its shown name, and tray of each separation, in the order in which they need hands."""
        return list(dict.fromkeys((slot.bin, slot.name, slot.tray) for slot in self.slots))

    @property
    def first(self) -> Planned | None:
        """What needs hands first."""
        return self.slots[0] if self.slots else None

    @property
    def free_min(self) -> float:
        """Minutes until hands are needed."""
        return max(0.0, _minutes(self.now, self.slots[0].start)) if self.slots else 0.0

    def of(self, key: str, tray: str) -> tuple[Planned, ...]:
        """The work at one tray."""
        return tuple(slot for slot in self.slots if (slot.bin, slot.tray) == (key, tray))


def side_by_side(
    stacks: Iterable[Stack], now: datetime, planned: Iterable[tuple[str, str]] = ()
) -> SideBySide | None:
    """The order of work for all that is being separated, and for what is planned; None where nothing is."""
    ahead = chains_of(list(stacks), now, planned)
    if not ahead:
        return None
    low, mid, high = (schedule([one.chains[n] for one in ahead], most_steps=STEPS) for n in range(3))
    return SideBySide(
        now,
        tuple(_told(slot, ahead, now) for slot in mid.slots),
        (_at(now, low.done), _at(now, mid.done), _at(now, max(mid.done, high.done))),
        tuple(_waits(mid, ahead, now)),
        mid.hands,
        mid.proved,
    )


def _told(slot: Slot, ahead: Sequence[Ahead], now: datetime) -> Planned:
    one = next(one for one in ahead if one.name == slot.chain)
    times = (_at(now, minutes) for minutes in (slot.start, slot.end, slot.rest_until))
    return Planned(one.stack.key, clean(one.stack.setup.name, 30), one.tray, slot.task.name, *times)


def _waits(found: Schedule, ahead: Sequence[Ahead], now: datetime) -> Iterable[Wait]:
    """Rests under way that will be over before hands are free. A tray not loosened yet loses nothing."""
    for one in ahead:
        chain: Chain = one.chains[1]
        sep = one.stack.separation(one.tray)
        first = next((slot for slot in found.slots if slot.chain == chain.name), None)
        if sep is None or sep.step is None or sep.step.step is not Step.REST or first is None:
            continue
        if first.start - chain.ready > SHORT_MIN:
            in_all = _minutes(sep.step.started_at, now) + first.start
            yield Wait(one.stack.key, one.tray, first.start - chain.ready, in_all)


def _at(now: datetime, minutes: float) -> datetime:
    return now + timedelta(minutes=minutes)


def _minutes(start: datetime, end: datetime) -> float:
    return (end - start).total_seconds() / 60
