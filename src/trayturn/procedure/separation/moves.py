"""The moves of a separation, and what each writes to the journal.

The state is the journal's own: nothing is kept here. Every function takes the moment as an argument and
returns the entries to save together, so that a crash leaves the step before or the step after, never half.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from trayturn.domain.entries import (
    CautionsRead,
    Checked,
    ContaminantFound,
    DeadlineMoved,
    Entry,
    LotBegun,
    Outcome,
    OversCarried,
    PassDone,
    SeparationBegun,
    SeparationEnded,
    Settled,
    Step,
    StepEnded,
    StepStarted,
)
from trayturn.domain.setup import BinSetup
from trayturn.domain.stack import Separation
from trayturn.procedure.separation.told import Settling, Skim, Thing


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
    """Loosened: the rest starts, with its deadline: as chosen before this pass, else the bin's own."""
    chosen = sep.step.rest_minutes if sep.step is not None else None
    rest = setup.rest_time if chosen is None else timedelta(minutes=chosen)
    return _next(sep, Step.REST, now, sep.pass_number, now + rest)


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
        pieces=skim.pieces,
        note=skim.note,
    )
    return [done, *_found(sep, skim.found, now), *_next(sep, Step.DECIDE, now, sep.pass_number)]


def _found(sep: Separation, found: Sequence[Thing], now: datetime) -> list[Entry]:
    return [
        ContaminantFound(at=now, tray=sep.tray, what=one.what, count=one.count, source=one.source)
        for one in found
    ]


def again(sep: Separation, setup: BinSetup, now: datetime, rest_minutes: float | None = None) -> list[Entry]:
    """One more pass, its rest of that many minutes where it is not to be the bin's own."""
    ends_at = now + setup.loosen_time
    *ended, started = _next(sep, Step.LOOSEN, now, sep.pass_number + 1, ends_at)
    return [*ended, started.model_copy(update={"rest_minutes": rest_minutes})]


def stop(sep: Separation, now: datetime) -> list[Entry]:
    """No more passes: everything finds its place."""
    return _next(sep, Step.SETTLE, now)


def settle(sep: Separation, settling: Settling, now: datetime) -> list[Entry]:
    """Everything has its place: clean up. Castings that were weighed begin a lot."""
    done = Settled(
        at=now,
        tray=sep.tray,
        castings_kg=settling.castings_kg,
        worms_to=settling.worms_to,
        rest_to=settling.rest_to,
        overs_to=settling.overs_to,
    )
    after = [*_carried(sep, settling, now), *_found(sep, settling.found, now), *_lot(sep, settling, now)]
    return [done, *after, *_next(sep, Step.CLEAN_UP, now)]


def _carried(sep: Separation, settling: Settling, now: datetime) -> list[Entry]:
    if settling.pieces_to is None or not settling.pieces:
        return []
    return [OversCarried(at=now, tray=sep.tray, to=settling.pieces_to, pieces=settling.pieces)]


def _lot(sep: Separation, settling: Settling, now: datetime) -> list[Entry]:
    lot, kg = settling.lot, settling.castings_kg
    if lot is None or kg is None:
        return []
    return [LotBegun(at=now, lot=lot.code, tray=sep.tray, kg=kg, stage=lot.stage, place=lot.place)]


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
