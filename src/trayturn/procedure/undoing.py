"""Taking back the last thing the keeper did: all entries of that one act, and no more."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from trayturn.domain.entries import (
    Entry,
    Fed,
    HatchlingsRecovered,
    LotMoved,
    LureSet,
    PutOff,
    SeparationBegun,
    Sieved,
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
from trayturn.procedure.separation import back, last_move, take_out
from trayturn.procedure.turn_day import written_with

Half = WormsAdded | WormsRemoved


def take_back(journal: Sequence[Entry], now: datetime) -> list[Undone]:
    """The entries that take back the last act; none when nothing stands.

    A move of a separation or of a turn day, a turn, a meal with what it put off, worms moved with their tray,
    a lot sieved that goes on to cure, and a look with new bait write several entries together, and go
    together.
    """
    return take_out(_last_act(journal), now)


def _last_act(journal: Sequence[Entry]) -> list[Entry]:
    """The entries of the last act, newest first."""
    acts = [entry for _, entry in standing(journal)]
    if not acts:
        return []
    last = acts[-1]
    if isinstance(last, (SeparationBegun, *SEPARATION_STEPS)):
        return last_move(journal, last.tray)
    if taken := written_with(acts):
        return taken
    return [last, acts[-2]] if len(acts) > 1 and _came_with(last, acts[-2]) else [last]


def half_of_a_move(journal: Sequence[Entry], tray: str | None = None) -> Half | None:
    """The half of worms moved between two bins that the last act wrote; the other bin has the other.

    With a tray it is the last move of that tray's separation that is looked at.
    """
    act = _last_act(journal) if tray is None else last_move(journal, tray)
    return next((one for one in act if isinstance(one, Half) and other_bin(one)), None)


def other_bin(half: Half) -> str:
    """The shown name of the bin, or whatever else, that the worms came from or went to."""
    return half.source if isinstance(half, WormsAdded) else half.went_to


def holds_half(other: Profile, half: Half, name: str) -> bool:
    """Whether that bin has, anywhere in its journal, the other half of what the bin of that name has."""
    return any(_fits(entry, half, name, other.bin.name) for _, entry in standing(other.journal))


def are_halves(one: Profile, other: Profile, tray: str | None = None) -> bool:
    """Whether the last act of each bin has the other half of the same move; of the first, that of a tray."""
    first, second = half_of_a_move(one.journal, tray), half_of_a_move(other.journal)
    return first is not None and second is not None and _fits(second, first, one.bin.name, other.bin.name)


def _fits(entry: Entry, half: Half, name: str, other: str) -> bool:
    """Whether an entry of the bin named `other` is the other half of one in the bin named `name`.

    One of the two bins may have been renamed since: then only what the other wrote still has its name.
    """
    if not isinstance(entry, Half) or entry.kind == half.kind:
        return False
    named = other_bin(entry) == name or other_bin(half) == other
    return named and bool(other_bin(entry)) and (entry.at, entry.worms_kg) == (half.at, half.worms_kg)


def take_back_both(one: Profile, other: Profile, now: datetime) -> tuple[list[Undone], list[Undone]]:
    """What takes back the last act of the first bin, and in the other the half that goes with it, if any."""
    return take_back(one.journal, now), take_back(other.journal, now) if are_halves(one, other) else []


def go_back_both(one: Profile, other: Profile, tray: str, now: datetime) -> tuple[list[Undone], list[Undone]]:
    """The same for going back one step in a separation, whatever else was written in its bin since."""
    also = take_back(other.journal, now) if are_halves(one, other, tray) else []
    return back(one.journal, tray, now), also


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
    """The fresh tray of a turn, the feeding that left something over, the tray that went along with worms.

    So with the stage that a lot goes on to once it is sieved, and the bait laid anew after a look.
    """
    if last.at != before.at:
        return False
    if isinstance(last, WormsRemoved):
        went_along = bool(last.went_to) and last.tray is not None
        return isinstance(before, Turned) and went_along and last.tray not in before.order
    if isinstance(last, WormsAdded):
        return isinstance(before, TrayStarted) and bool(last.source) and before.came_from == last.source
    if isinstance(last, Turned):
        return isinstance(before, TrayStarted) and before.tray in last.order
    if isinstance(last, LotMoved):
        return isinstance(before, Sieved) and before.lot == last.lot
    if isinstance(last, LureSet):
        return isinstance(before, HatchlingsRecovered) and before.lot == last.lot
    return isinstance(last, PutOff) and isinstance(before, Fed)
