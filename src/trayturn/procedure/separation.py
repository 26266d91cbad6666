"""A separation as a state machine: where it stands, and what each move writes to the journal.

The state is the journal's own: nothing is kept here. Every function takes the moment as an argument and
returns the entries to save together, so that a crash leaves the step before or the step after, never half.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import TypeVar

from trayturn.domain.entries import (
    Amount,
    CautionsRead,
    Checked,
    DeadlineMoved,
    Entry,
    EntryBase,
    Outcome,
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
from trayturn.domain.setup import BinSetup
from trayturn.domain.stack import Separation

E = TypeVar("E", bound=EntryBase)

LITTLE_LEFT = 0.25
"""The share of the tray's contents below which another pass is not worth its rest. Engineering choice."""


@dataclass(frozen=True, slots=True)
class Skim:
    """What the keeper saw and took off in one pass; masses in kg."""

    worms_seen: Amount
    skimmed_kg: float | None = None
    overs: str = ""
    contaminants: str = ""


@dataclass(frozen=True, slots=True)
class Settling:
    """Where everything went, and what the castings weigh in kg."""

    castings_kg: float | None = None
    worms_to: str = ""
    rest_to: str = ""
    overs_to: str = ""


def begin(tray: str, now: datetime) -> list[Entry]:
    """Set the tray on top and get ready."""
    return [SeparationBegun(at=now, tray=tray), StepStarted(at=now, tray=tray, step=Step.GET_READY)]


def ready(
    sep: Separation, setup: BinSetup, now: datetime, gross_kg: float | None, cautions: Sequence[str]
) -> list[Entry]:
    """Ready: the weight and the cautions stand in the journal, and the first loosening starts."""
    entries: list[Entry] = []
    if gross_kg is not None:
        entries.append(Checked(at=now, tray=sep.tray, gross_kg=gross_kg))
    if cautions:
        entries.append(CautionsRead(at=now, work="separation", codes=tuple(cautions)))
    return [*entries, *_next(sep, Step.LOOSEN, now, 1, now + setup.loosen_time)]


def loosened(sep: Separation, setup: BinSetup, now: datetime) -> list[Entry]:
    """Loosened: the rest starts, with its deadline."""
    return _next(sep, Step.REST, now, sep.pass_number, now + setup.rest_time)


def rested(sep: Separation, now: datetime) -> list[Entry]:
    """Rested, in full or cut short: skimming starts."""
    return _next(sep, Step.SKIM, now, sep.pass_number)


def skimmed(sep: Separation, skim: Skim, now: datetime) -> list[Entry]:
    """Skimmed: the pass is in the record, and the keeper decides."""
    done = PassDone(
        at=now,
        tray=sep.tray,
        pass_number=sep.pass_number,
        worms_seen=skim.worms_seen,
        skimmed_kg=skim.skimmed_kg,
        overs=skim.overs,
        contaminants=skim.contaminants,
    )
    return [done, *_next(sep, Step.DECIDE, now, sep.pass_number)]


def again(sep: Separation, setup: BinSetup, now: datetime) -> list[Entry]:
    """One more pass."""
    return _next(sep, Step.LOOSEN, now, sep.pass_number + 1, now + setup.loosen_time)


def stop(sep: Separation, now: datetime) -> list[Entry]:
    """No more passes: everything finds its place."""
    return _next(sep, Step.SETTLE, now)


def settle(sep: Separation, settling: Settling, now: datetime) -> list[Entry]:
    """Everything has its place: clean up."""
    done = Settled(
        at=now,
        tray=sep.tray,
        castings_kg=settling.castings_kg,
        worms_to=settling.worms_to,
        rest_to=settling.rest_to,
        overs_to=settling.overs_to,
    )
    return [done, *_next(sep, Step.CLEAN_UP, now)]


def finish(sep: Separation, now: datetime) -> list[Entry]:
    """Cleaned up: the tray is empty and spare."""
    return [*_end(sep, now), SeparationEnded(at=now, tray=sep.tray, outcome=Outcome.FINISHED)]


def put_back(sep: Separation, now: datetime) -> list[Entry]:
    """Give up: the tray goes back to its level and finishes longer."""
    return [*_end(sep, now), SeparationEnded(at=now, tray=sep.tray, outcome=Outcome.PUT_BACK)]


def move_deadline(sep: Separation, now: datetime, by: timedelta) -> list[Entry]:
    """Make the timed step longer or shorter. One already over runs on from now; none ends before now."""
    if sep.step is None or sep.step.ends_at is None:
        return []
    ends_at = max(max(sep.step.ends_at, now) + by, now)
    return [DeadlineMoved(at=now, tray=sep.tray, ends_at=ends_at)]


def restart_rest(sep: Separation, now: datetime) -> list[Entry]:
    """Run the timed step's whole length again from now: for a clock that was set back meanwhile."""
    if sep.step is None or sep.step.planned is None:
        return []
    return [DeadlineMoved(at=now, tray=sep.tray, ends_at=now + sep.step.planned)]


def back(journal: Iterable[Entry], tray: str, now: datetime) -> list[Undone]:
    """Go back one step: take back what the last move wrote, newest first.

    A rest gone back to has its old deadline, since that is what the worms had.
    """
    mine = [entry for _, entry in standing(journal) if _written_by_a_move(entry, tray)]
    taken: list[Entry] = []
    for entry in reversed(mine):
        if isinstance(entry, Checked | CautionsRead) and not any(isinstance(e, StepEnded) for e in taken):
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
    return [Undone(at=now, entry_at=entry.at, entry_kind=entry.kind) for entry in taken]


def _written_by_a_move(entry: Entry, tray: str) -> bool:
    """Whether a separation's moves write such entries. Notes and feedings meanwhile are the keeper's own."""
    if isinstance(entry, CautionsRead):
        return entry.work == "separation"
    return isinstance(entry, (SeparationBegun, Checked, *SEPARATION_STEPS)) and entry.tray == tray


def _closes_move(taken: list[Entry], entry: Entry) -> bool:
    """Past the end of the step before, only what that same move wrote belongs to it."""
    ended = next((e for e in taken if isinstance(e, StepEnded)), None)
    return ended is not None and entry.at != ended.at


def advised_to_stop(sep: Separation, empty_kg: float) -> tuple[bool, str]:
    """Whether the last pass says to stop, and the reason in words.

    The rule is common practice, no source: stop when many worms come off with the castings, or when little is
    left in the tray.
    """
    last = sep.passes[-1] if sep.passes else None
    if last is not None and last.worms_seen is Amount.MANY:
        return True, "Many worms came off in the skim: they have nowhere lower to go."
    left = share_left(sep, empty_kg)
    if left is not None and left < LITTLE_LEFT:
        return True, f"Little is left in the tray (about {left:.0%} of what it held)."
    seen = "No worms" if last is None or last.worms_seen is Amount.NONE else "Few worms"
    return False, f"{seen} came off in the skim, and there is more to take."


def share_left(sep: Separation, empty_kg: float) -> float | None:
    """The share of the tray's contents not yet skimmed, 0 to 1; None where masses were not weighed."""
    if sep.gross_kg is None or not sep.passes or any(p.skimmed_kg is None for p in sep.passes):
        return None
    held = sep.gross_kg - empty_kg
    return max(0.0, 1 - sep.skimmed_kg / held) if held > 0 else None


def answered_before(journal: Sequence[Entry], sep: Separation, kind: type[E]) -> E | None:
    """What the keeper answered at this step before going back from it: it was taken back, not lost."""
    for entry in reversed(journal):
        if not isinstance(entry, kind) or entry.at < sep.begun_at:
            continue
        same_pass = getattr(entry, "pass_number", sep.pass_number) == sep.pass_number
        if getattr(entry, "tray", sep.tray) == sep.tray and same_pass:
            return entry
    return None


def _next(
    sep: Separation,
    step: Step,
    now: datetime,
    pass_number: int | None = None,
    ends_at: datetime | None = None,
) -> list[Entry]:
    started = StepStarted(at=now, tray=sep.tray, step=step, pass_number=pass_number, ends_at=ends_at)
    return [*_end(sep, now), started]


def _end(sep: Separation, now: datetime) -> list[Entry]:
    if sep.step is None:
        return []
    return [StepEnded(at=now, tray=sep.tray, step=sep.step.step, pass_number=sep.step.pass_number)]
