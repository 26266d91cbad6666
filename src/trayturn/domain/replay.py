"""From a journal to the stack as it stands at a moment."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from operator import itemgetter

from trayturn.domain import fold_care, fold_separation
from trayturn.domain.entries import (
    DayStepDone,
    DeadlineMoved,
    Entry,
    OversCarried,
    PassDone,
    SeparationBegun,
    SeparationEnded,
    Settled,
    StepEnded,
    StepStarted,
    TurnDayBegun,
    TurnDayEnded,
    Turned,
    Undone,
    name_entry,
)
from trayturn.domain.freezing import freeze
from trayturn.domain.handlers import HANDLERS
from trayturn.domain.ledger import Ledger
from trayturn.domain.problems import Finding, Severity
from trayturn.domain.profile import Profile
from trayturn.domain.stack import Stack
from trayturn.domain.words import count

SEPARATION_STEPS = (StepStarted, StepEnded, DeadlineMoved, PassDone, Settled, SeparationEnded)


def standing(journal: Iterable[Entry]) -> list[tuple[int, Entry]]:
    """The entries that count, each with its place in the file from 1: those undone are left out.

    An undone entry never happened, whatever moment is asked about.
    """
    kept, _ = _strike(journal)
    return kept


def _strike(journal: Iterable[Entry]) -> tuple[list[tuple[int, Entry]], list[tuple[int, Entry]]]:
    """The entries that count, and the undone entries that found nothing to take back."""
    kept: dict[int, Entry] = {}
    places: dict[tuple[datetime, str], list[int]] = {}
    in_vain: list[tuple[int, Entry]] = []
    for index, entry in enumerate(journal, 1):
        if not isinstance(entry, Undone):
            kept[index] = entry
            places.setdefault((entry.at, entry.kind), []).append(index)
        elif (place := _meant(entry, places.get((entry.entry_at, entry.entry_kind), []), kept)) is not None:
            places[entry.entry_at, entry.entry_kind].remove(place)
            del kept[place]
        else:
            in_vain.append((index, entry))
    return list(kept.items()), in_vain


def _meant(entry: Undone, same: list[int], kept: dict[int, Entry]) -> int | None:
    """The place of the entry that is taken back, of those of its time and kind: the latest, of its tray."""
    tray = entry.entry_tray
    fitting = (n for n in reversed(same) if tray is None or getattr(kept[n], "tray", None) == tray)
    return next(fitting, None)


def in_time(kept: Iterable[tuple[int, Entry]]) -> list[tuple[datetime, int, Entry]]:
    """Entries in the order they count, each with the moment it counts at.

    That is the order of their times, but the steps of one separation keep the order in which they were
    written: a clock set back between two of them must not stand a later step before an earlier one. A turn
    day that has begun holds its own steps, and those of the trays that are separated on it, in the same way.
    """
    latest: dict[str, datetime] = {}
    day: TurnDayBegun | None = None
    timed = []
    for index, entry in kept:
        at = entry.at
        if isinstance(entry, TurnDayBegun):
            day = entry
        elif day is not None and _of_the_day(entry, day):
            at = max(at, day.at)
        day = None if isinstance(entry, TurnDayEnded) else day
        if isinstance(entry, SEPARATION_STEPS):
            at = latest[entry.tray] = max(at, latest.get(entry.tray, at))
        elif isinstance(entry, SeparationBegun):
            latest[entry.tray] = at
        timed.append((at, index, entry))
    return sorted(timed, key=itemgetter(0))


def _of_the_day(entry: Entry, day: TurnDayBegun) -> bool:
    """Whether an entry is a step of that turn day, or of a separation that belongs to it."""
    if isinstance(entry, DayStepDone | TurnDayEnded):
        return True
    return isinstance(entry, (SeparationBegun, *SEPARATION_STEPS)) and entry.tray in day.separating


def present(profile: Profile, now: datetime) -> datetime:
    """The moment that `now` means for this bin: never before anything in its journal.

    A clock that was set back must not hide what was written by the clock before. What was taken back does
    not count.
    """
    if all(entry.at <= now for entry in profile.journal):
        return now
    return max([now, *(entry.at for _, entry in standing(profile.journal))])


def replay_now(profile: Profile, now: datetime) -> Stack:
    """The bin as it is at present, by a clock that reads `now`. What is dated ahead of it is a finding."""
    as_of = present(profile, now)
    stack = replay(profile, as_of)
    if as_of == now:
        return stack
    return replace(stack, findings=(*stack.findings, *dated_ahead(profile, now)))


def dated_ahead(profile: Profile, now: datetime) -> tuple[Finding, ...]:
    """One finding where entries that count are dated after `now`: a slip in a date, or a clock set back."""
    ahead = [(place, entry) for place, entry in standing(profile.journal) if entry.at > now]
    if not ahead:
        return ()
    place, last = max(ahead, key=lambda pair: (pair[1].at, pair[0]))
    what = f"{count(len(ahead), 'entry is', 'entries are')} dated ahead of the clock ({now:%Y-%m-%d %H:%M})."
    to_do = "The bin is told as of the last one; correct its date, or the clock."
    where = f"entry {place} ({name_entry(last)})"
    return (Finding(Severity.WARNING, "dated-ahead", what, to_do, where, place),)


def replay(profile: Profile, as_of: datetime) -> Stack:
    """The stack at `as_of`. Impossible histories become findings; they never raise.

    Entries count in the order that `in_time` gives them.
    """
    ledger = _open(profile)
    for _ in _folded(ledger, as_of):
        pass
    return freeze(ledger, as_of)


@dataclass(frozen=True, slots=True)
class Told:
    """An entry that counts, when it does, its place in the file from 1, and the trays' order on the stack
    before and after it, bottom first."""

    at: datetime
    place: int
    entry: Entry
    before: tuple[str, ...]
    after: tuple[str, ...]


def told(profile: Profile, as_of: datetime) -> Iterator[Told]:
    """The journal up to a moment as `replay` reads it, an entry at a time."""
    ledger = _open(profile)
    before: tuple[str, ...] = ()
    for at, place, entry in _folded(ledger, as_of):
        after = tuple(ledger.order)
        yield Told(at, place, entry, before, after)
        before = after


def _open(profile: Profile) -> Ledger:
    return Ledger(profile, frozenset(tray.id for tray in profile.trays))


def _folded(ledger: Ledger, as_of: datetime) -> Iterator[tuple[datetime, int, Entry]]:
    """Fold the entries up to a moment into the ledger, each given once it is in."""
    kept, in_vain = _strike(ledger.profile.journal)
    for at, index, entry in in_time(sorted(kept + in_vain, key=lambda pair: pair[0])):
        if at > as_of:
            break
        ledger.index, ledger.entry = index, entry
        _check_entry(ledger, entry)
        if (handler := HANDLERS.get(entry.kind)) is not None:
            handler(ledger, entry)
        fold_care.acted(ledger, entry)
        fold_separation.came_out(ledger, entry)
        yield at, index, entry


def _check_entry(ledger: Ledger, entry: Entry) -> None:
    setup = ledger.profile.bin
    if setup.began and entry.at < setup.began:
        ledger.find(
            "before-the-bin", f"The bin began on {setup.began:%Y-%m-%d}, after this.", "Correct a date."
        )
    if not ledger.known_trays:
        return
    for tray in dict.fromkeys(_named(entry)):
        if tray is not None and tray not in ledger.known_trays:
            ledger.find("unlisted-tray", f"Tray {tray} is not one of the [[trays]].", "Add or correct it.")


def _named(entry: Entry) -> tuple[str | None, ...]:
    """The trays that an entry names as being there."""
    if isinstance(entry, Turned | TurnDayBegun):
        return entry.order
    if isinstance(entry, OversCarried):
        return entry.tray, entry.to
    return (getattr(entry, "tray", None),)
