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
    WormsAdded,
    WormsRemoved,
    name_entry,
)
from trayturn.domain.profile import Profile
from trayturn.domain.replay import SEPARATION_STEPS, standing
from trayturn.domain.words import listed
from trayturn.procedure.separation import back
from trayturn.procedure.turn_day import written_with


def take_back(journal: Sequence[Entry], now: datetime) -> list[Undone]:
    """The entries that take back the last act; none when nothing stands.

    A move of a separation or of a turn day, a turn, a meal with what it put off, and worms moved with their
    tray write several entries together, and go together.
    """
    acts = [entry for _, entry in standing(journal)]
    if not acts:
        return []
    last = acts[-1]
    if isinstance(last, (SeparationBegun, *SEPARATION_STEPS)):
        return back(journal, last.tray, now)
    if taken := written_with(acts):
        return [Undone(at=now, entry_at=entry.at, entry_kind=entry.kind) for entry in taken]
    taken = [last]
    if len(acts) > 1 and _came_with(last, acts[-2]):
        taken.append(acts[-2])
    return [Undone(at=now, entry_at=entry.at, entry_kind=entry.kind) for entry in taken]


def half_of_a_move(journal: Sequence[Entry]) -> WormsAdded | WormsRemoved | None:
    """The last act, where it is one half of worms moved between two bins; the other bin has the other."""
    acts = standing(journal)
    last = acts[-1][1] if acts else None
    return last if isinstance(last, WormsAdded | WormsRemoved) and other_bin(last) else None


def other_bin(half: WormsAdded | WormsRemoved) -> str:
    """The shown name of the bin, or whatever else, that the worms came from or went to."""
    return half.source if isinstance(half, WormsAdded) else half.went_to


def holds_half(other: Profile, half: WormsAdded | WormsRemoved, name: str) -> bool:
    """Whether that bin has, anywhere in its journal, the other half of what the bin of that name has."""
    return other.bin.name == other_bin(half) and any(
        _fits(entry, half, name) for _, entry in standing(other.journal)
    )


def are_halves(one: Profile, other: Profile) -> bool:
    """Whether the last act of each bin is the other half of the same move."""
    first, second = half_of_a_move(one.journal), half_of_a_move(other.journal)
    if first is None or second is None or other_bin(first) != other.bin.name:
        return False
    return _fits(second, first, one.bin.name)


def _fits(entry: Entry, half: WormsAdded | WormsRemoved, name: str) -> bool:
    """Whether an entry of another bin is the other half, of a bin of that name."""
    if not isinstance(entry, WormsAdded | WormsRemoved) or entry.kind == half.kind:
        return False
    return other_bin(entry) == name and (entry.at, entry.worms_kg) == (half.at, half.worms_kg)


def take_back_both(one: Profile, other: Profile, now: datetime) -> tuple[list[Undone], list[Undone]]:
    """What takes back the last act of the first bin, and in the other the half that goes with it, if any."""
    return take_back(one.journal, now), take_back(other.journal, now) if are_halves(one, other) else []


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
    """The fresh tray of a turn, the feeding that left something over, the tray that went along with worms."""
    if last.at != before.at:
        return False
    if isinstance(last, WormsRemoved):
        went_along = bool(last.went_to) and last.tray is not None
        return isinstance(before, Turned) and went_along and last.tray not in before.order
    if isinstance(last, WormsAdded):
        return isinstance(before, TrayStarted) and bool(last.source) and before.came_from == last.source
    if isinstance(last, Turned):
        return isinstance(before, TrayStarted) and before.tray in last.order
    return isinstance(last, PutOff) and isinstance(before, Fed)
