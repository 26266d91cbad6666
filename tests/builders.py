"""Small makers of profiles, entries and stacks, so that a test reads as a keeper would tell it.

A moment is a number of days since the bin began, at ten in the morning: `fed("B", 3)`. Where the hour
matters, `moment(3, 17, 30)` does as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta, timezone
from typing import Any

from trayturn.domain.entries import ENTRY_TYPES, Entry, Fed, Note, TrayStarted, Turned, Undone
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.setup import BinSetup, Tray
from trayturn.domain.stack import Stack

ZONE = timezone(timedelta(hours=1))
FIRST_DAY = datetime(2026, 3, 1, tzinfo=ZONE)

When = float | datetime


def moment(day: float, hour: int = 10, minute: int = 0) -> datetime:
    """`day` days after 1 March 2026, at that clock time, at +01:00."""
    return FIRST_DAY + timedelta(days=day, hours=hour, minutes=minute)


def _at(when: When) -> datetime:
    return when if isinstance(when, datetime) else moment(when)


def a_bin(**changes: Any) -> BinSetup:
    """A bin set up in the usual way, but for the changes."""
    return BinSetup(**{"name": "Pantry", **changes})


def a_profile(*entries: Entry, trays: Iterable[str] = "ABCDE", key: str = "pantry", **setup: Any) -> Profile:
    """A profile with that journal. Other keywords change its bin: `a_profile(pattern="straight_up")`."""
    return Profile(key, a_bin(**setup), tuple(Tray(id=name) for name in trays), entries)


def entry(kind: str, when: When, **fields: Any) -> Any:
    """Any entry by its kind: `entry("worms_added", 0, worms_kg=0.5)`."""
    return ENTRY_TYPES[kind].model_validate({"kind": kind, "at": _at(when), **fields})


def started(tray: str, when: When = 0, **fields: Any) -> TrayStarted:
    """A tray put on with half a kilogram of shredded cardboard."""
    return TrayStarted(at=_at(when), tray=tray, **{"bedding_kg": {"shredded cardboard": 0.5}, **fields})


def fed(tray: str, when: When, items: Mapping[str, float] | None = None, **fields: Any) -> Fed:
    """A feeding, of half a kilogram of cabbage unless other items are named."""
    return Fed(at=_at(when), tray=tray, items_kg={"cabbage": 0.5} if items is None else dict(items), **fields)


def turned(order: Iterable[str], when: When, **stages: str) -> Turned:
    """A turn: `turned("ABC", 60)`, or with stages of its own `turned("ABC", 60, B="finishing")`."""
    return Turned.model_validate({"at": _at(when), "order": tuple(order), "stages": stages})


def noted(text: str, when: When, **fields: Any) -> Note:
    """A note in the keeper's own words."""
    return Note(at=_at(when), text=text, **fields)


def undone(of: Entry, when: When) -> Undone:
    """The entry that takes another one back."""
    return Undone(at=_at(when), entry_at=of.at, entry_kind=of.kind)


def a_usual_bin() -> tuple[Entry, ...]:
    """Three trays after the first turn, on day 60: C bedding below, A finishing, B fed on top.

    A was fed on days 2, 14, 26 and 38. B was started on day 0 and fed from day 61.
    """
    first = (started("B", 0), started("A", 0, level=2, stage="feeding"))
    feedings = (fed("A", 2), fed("A", 14), fed("A", 26), fed("A", 38))
    return (*first, *feedings, started("C", 60), turned("CAB", 60), fed("B", 61))


def stack_of(*entries: Entry, as_of: When = 1000, **setup: Any) -> Stack:
    """The stack that the entries make in the usual bin, long after them unless a moment is given."""
    return replay(a_profile(*entries, **setup), _at(as_of))


def order(stack: Stack) -> str:
    """The trays from the bottom up, in one word: `CAB`."""
    return "".join(tray.id for tray in stack.trays)


def stages(stack: Stack) -> dict[str, str]:
    """The stage of every tray, on the stack and off it."""
    return {tray.id: str(tray.stage) for tray in (*stack.trays, *stack.off_stack)}


def codes(stack: Stack) -> list[str]:
    """The codes of the findings, in the order they were found."""
    return [finding.code for finding in stack.findings]
