"""Going back in a separation: what the last move wrote, and what the keeper had answered in it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import TypeVar, get_args

from trayturn.domain.entries import (
    CautionsRead,
    Checked,
    DeadlineMoved,
    Entry,
    EntryBase,
    LotBegun,
    PassDone,
    SeparationBegun,
    SeparationEnded,
    Settled,
    Step,
    StepEnded,
    StepStarted,
    Undone,
)
from trayturn.domain.replay import SEPARATION_STEPS, standing
from trayturn.domain.stack import CameOut, Separation

E = TypeVar("E", bound=EntryBase)


def last_move(journal: Iterable[Entry], tray: str) -> list[Entry]:
    """What the last move of that tray's separation wrote, newest first.

    A rest gone back to has its old deadline, since that is what the worms had.
    """
    mine = [entry for _, entry in standing(journal) if _written_by_a_move(entry, tray)]
    taken: list[Entry] = []
    for entry in reversed(mine):
        if isinstance(entry, Checked | CautionsRead) and not any(isinstance(e, StepEnded) for e in taken):
            continue
        if isinstance(entry, CameOut) and not _came_with(taken, entry):
            continue
        if isinstance(entry, StepStarted) and any(
            isinstance(e, StepStarted | SeparationEnded) for e in taken
        ):
            break
        if isinstance(entry, DeadlineMoved) and any(isinstance(e, StepEnded) for e in taken):
            break
        if taken and _closes_move(taken, entry):
            break
        taken.append(entry)
        if isinstance(entry, SeparationBegun):
            break
    return taken


def back(journal: Iterable[Entry], tray: str, now: datetime) -> list[Undone]:
    """Go back one step: take back what the last move wrote."""
    return take_out(last_move(journal, tray), now)


def take_out(entries: Iterable[Entry], now: datetime) -> list[Undone]:
    """The entries that take these back; each names the tray too: trays worked on together share seconds."""
    return [
        Undone(at=now, entry_at=entry.at, entry_kind=entry.kind, entry_tray=getattr(entry, "tray", None))
        for entry in entries
    ]


def _written_by_a_move(entry: Entry, tray: str) -> bool:
    """Whether a separation's moves write such entries. Notes and feedings meanwhile are the keeper's own."""
    if isinstance(entry, CautionsRead):
        return entry.work == "separation"
    kinds = (SeparationBegun, Checked, *SEPARATION_STEPS, *get_args(CameOut))
    return isinstance(entry, kinds) and getattr(entry, "tray", None) == tray


def _came_with(taken: list[Entry], entry: Entry) -> bool:
    """Whether the skim or the settling taken back wrote it too: they write it after what was done."""
    ended = next((e for e in taken if isinstance(e, StepEnded)), None)
    if ended is None or ended.step not in (Step.SKIM, Step.SETTLE) or entry.at != ended.at:
        return False
    return not any(isinstance(e, PassDone | Settled) for e in taken)


def _closes_move(taken: list[Entry], entry: Entry) -> bool:
    """Past the end of the step before, only what that same move wrote belongs to it."""
    ended = next((e for e in taken if isinstance(e, StepEnded)), None)
    return ended is not None and entry.at != ended.at


def answered_before(journal: Sequence[Entry], sep: Separation, kind: type[E]) -> E | None:
    """What the keeper answered at this step before going back from it: it was taken back, not lost."""
    for entry in reversed(journal):
        if not isinstance(entry, kind) or entry.at < sep.begun_at:
            continue
        same_pass = getattr(entry, "pass_number", sep.pass_number) == sep.pass_number
        if getattr(entry, "tray", sep.tray) == sep.tray and same_pass:
            return entry
    return None


def answered_with(journal: Sequence[Entry], before: Entry | None) -> tuple[CameOut, ...]:
    """What was written along with such an answer, right after it: pieces, things found, worms, a lot."""
    place = next((n for n, entry in enumerate(journal) if entry is before), len(journal))
    found: list[CameOut] = []
    for entry in journal[place + 1 :]:
        if not isinstance(entry, CameOut):
            break
        found.append(entry)
    return tuple(found)


def why_not_back(journal: Sequence[Entry], tray: str) -> str:
    """Why the last move cannot be gone back from: its lot has gone on. Empty where nothing holds it."""
    lots = {entry.lot for entry in last_move(journal, tray) if isinstance(entry, LotBegun)}
    later = [entry for _, entry in standing(journal) if not isinstance(entry, LotBegun)]
    gone_on = next((lot for entry in later if (lot := getattr(entry, "lot", None)) in lots), "")
    return f"Lot {gone_on} has gone on since. Take that back first." if gone_on else ""
