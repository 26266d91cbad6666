"""Useful jobs for a rest: what fits into the time that is left, and why it is worth doing now."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.castings.stages import nexts
from trayturn.advice.due.hatching import tubs
from trayturn.advice.passes.durations import durations, minutes_of
from trayturn.advice.phrases import since, when
from trayturn.advice.stock.turn_words import short_line, stock_line
from trayturn.advice.stock.turns import turn_supported
from trayturn.domain.entries import LotStage, Step
from trayturn.domain.lots import Lot
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, count, listed

MOST = 4
"""So many jobs are named at once."""
STALE = timedelta(days=60)
"""Stock counted longer ago than this is worth weighing again. Our choice."""
TUB_FOR = timedelta(days=120)
"""How long a tub of castings without a lot is looked at. Our choice."""
LOT_MIN = {"lure": 5.0, "look": 6.0, "sieve": 15.0, "pack": 10.0, "dry": 5.0}
"""Minutes for what comes next for a lot. Common practice, no source."""
SINCE = {
    LotStage.HATCHING: "It has been hatching",
    LotStage.DRYING: "It has been drying",
    LotStage.CURING: "It has been curing",
    LotStage.READY: "It has been ready",
}


@dataclass(frozen=True, slots=True)
class Job:
    """One job, the more urgent first. `basis` says whose minutes they are, where they are the keeper's own.

    Otherwise minutes are common practice, no source.
    """

    what: str
    minutes: float
    why: str
    urgent: int = 0
    basis: str = ""


def hands_free(stacks: Iterable[Stack], now: datetime) -> timedelta | None:
    """How long until the first rest ends, in any bin; None where nothing rests or hands are wanted now."""
    steps = [one.step for stack in stacks for one in stack.separations if one.step is not None]
    ends = [step.ends_at for step in steps if step.step is Step.REST and step.ends_at is not None]
    if not ends or len(ends) < len(steps) or min(ends) <= now:
        return None
    return min(ends) - now


def jobs(stack: Stack, left: timedelta | None, now: datetime) -> tuple[Job, ...]:
    """The jobs that fit into the time in which hands are free, most useful first; none where they are not."""
    if left is None:
        return ()
    minutes = left.total_seconds() / 60
    fitting = [job for job in _all(stack, now) if job.minutes <= minutes]
    return tuple(sorted(fitting, key=lambda job: (-job.urgent, job.minutes))[:MOST])


def job_words(job: Job) -> str:
    """`Weigh the supplies (about 6 min). The stock was last weighed yesterday.`"""
    basis = f", {job.basis}" if job.basis else ""
    return f"{job.what} (about {job.minutes:.0f} min{basis}). {job.why}"


def job_lines(stack: Stack, left: timedelta | None, now: datetime, most: int) -> tuple[str, ...]:
    """So many of them as lines under a countdown; none where nothing fits."""
    found = jobs(stack, left, now)[:most]
    return ("While it rests:", *(job_words(job) for job in found)) if found else ()


def _all(stack: Stack, now: datetime) -> Iterator[Job]:
    yield from _bedding(stack)
    yield from _stock(stack, now)
    yield from _lots(stack, now)
    yield from _bin(stack, now)
    yield from _trays(stack)


def _bedding(stack: Stack) -> Iterator[Job]:
    """Bedding for the next fresh tray, while hands are free."""
    support = turn_supported(stack)
    if support is None:
        yield Job("Shred bedding for the next meals", 10, "Dry bedding goes on top of every meal.")
        return
    more = f"Prepare more {clean(support.bedding, 40)} for tray {support.tray}"
    if support.short:
        yield Job(more, 10, short_line(support), 3)
    else:
        yield Job(more, 10, stock_line(support))


def _stock(stack: Stack, now: datetime) -> Iterator[Job]:
    counted = stack.supplies_counted_at
    if stack.supplies and (counted is None or now - counted > STALE):
        last = f"last weighed {when(counted, now)}" if counted is not None else "never weighed"
        yield Job("Weigh the supplies", 6, f"The stock was {last}.", 1)


def _lots(stack: Stack, now: datetime) -> Iterator[Job]:
    """What has come due for each lot of castings; where none was begun, the tubs of earlier separations."""
    for lot, coming in nexts(stack):
        if coming.code in LOT_MIN and coming.due is not None and coming.due <= now:
            yield Job(coming.what.rstrip("."), LOT_MIN[coming.code], _lot_why(lot, now), 2)
    if not stack.lots:
        for tub in tubs(stack, now - TUB_FOR):
            what = f"Look for hatchlings in the tub of tray {tub.tray}"
            yield Job(what, 6, f"Its castings were taken {when(tub.since, now)}.", 1)


def _lot_why(lot: Lot, now: datetime) -> str:
    return f"{SINCE[lot.stage]} {since(lot.stage_since, now)}."


def _bin(stack: Stack, now: datetime) -> Iterator[Job]:
    checked = stack.sump.checked_at
    if checked is None or now - checked > timedelta(days=1):
        last = f"last looked at {when(checked, now)}" if checked is not None else "never looked at"
        yield Job("Empty the sump and write its volume down", 4, f"It was {last}.", 1)
    if stack.worms_kg is None:
        yield Job("Estimate the worms (w)", 8, "No worms are written down for this bin.")


def _trays(stack: Stack) -> Iterator[Job]:
    """The tubs and trays that this separation takes and leaves."""
    if stack.separations:
        trays = listed(one.tray for one in stack.separations)
        which = f"tubs for trays {trays}" if len(stack.separations) > 1 else f"a tub for tray {trays}"
        yield Job(f"Label {which}: castings, date, weight", 2, "Nobody remembers it later.")
    support = turn_supported(stack)
    spare = [tray.id for tray in stack.off_stack]
    if spare:
        next_in = support.tray if support is not None and support.tray in spare else spare[0]
        minutes, basis = _washing(stack)
        yield Job(f"Wash and dry spare tray {next_in}", minutes, "It comes in at the next turn.", 0, basis)


def _washing(stack: Stack) -> tuple[float, str]:
    """Minutes to wash a tray: as this keeper cleaned up after separations, which is mostly that."""
    past = stack.past_separations
    steps = [step for one in past for step in one.steps if step.step is Step.CLEAN_UP]
    own = sum(minutes_of(step) is not None for step in steps)
    minutes = durations(stack.setup, past).minutes[Step.CLEAN_UP]
    return minutes, f"as your last {count(own, 'clean-up')}" if own > 1 else ""
