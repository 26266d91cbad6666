"""Taking back the last thing the keeper did: all entries of that one act, and no more."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from trayturn.domain.entries import (
    Entry,
    Fed,
    PutOff,
    SeparationBegun,
    StepEnded,
    StepStarted,
    TrayStarted,
    Turned,
    Undone,
    name_entry,
)
from trayturn.domain.replay import SEPARATION_STEPS, standing
from trayturn.domain.words import listed
from trayturn.procedure.separation import back


def take_back(journal: Sequence[Entry], now: datetime) -> list[Undone]:
    """The entries that take back the last act; none when nothing stands.

    A separation's move, a turn, and a meal with what it put off write several entries together, and go
    together.
    """
    acts = [entry for _, entry in standing(journal)]
    if not acts:
        return []
    last = acts[-1]
    if isinstance(last, (SeparationBegun, *SEPARATION_STEPS)):
        return back(journal, last.tray, now)
    taken: list[Entry] = [last]
    if len(acts) > 1 and _came_with(last, acts[-2]):
        taken.append(acts[-2])
    return [Undone(at=now, entry_at=entry.at, entry_kind=entry.kind) for entry in taken]


def name_act(journal: Sequence[Entry], number: int) -> str:
    """What the last so many entries of a journal took back, by name: `fed B, 2026-03-01 10:00`.

    A step is named only where nothing else went with it.
    """
    left = dict(standing(journal))
    gone = [entry for place, entry in standing(journal[:-number]) if place not in left] if number else []
    told = [entry for entry in gone if not isinstance(entry, StepStarted | StepEnded)]
    if told:
        return listed(name_entry(entry) for entry in told)
    return listed(f"the step {_words(entry)}" for entry in gone if isinstance(entry, StepStarted))


def _words(entry: StepStarted) -> str:
    return f"{str(entry.step).replace('_', ' ')} of tray {entry.tray}"


def _came_with(last: Entry, before: Entry) -> bool:
    """The fresh tray that a turn brought in, or the feeding that left something in the caddy."""
    if last.at != before.at:
        return False
    if isinstance(last, Turned):
        return isinstance(before, TrayStarted) and before.tray in last.order
    return isinstance(last, PutOff) and isinstance(before, Fed)
