"""Useful jobs for a rest: what fits into the time that is left, and why it is worth doing now."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.due.hatching import tubs
from trayturn.advice.phrases import when
from trayturn.advice.stock.turns import turn_supported
from trayturn.domain.entries import Stage
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean

MOST = 4
"""So many jobs are named at once."""
STALE = timedelta(days=60)
"""Stock counted longer ago than this is worth weighing again. Our choice."""
TUB_FOR = timedelta(days=120)
"""How long a tub of castings is looked at. Our choice."""


@dataclass(frozen=True, slots=True)
class Job:
    """One job: about so many minutes (our choice), the more urgent first."""

    what: str
    minutes: float
    why: str
    urgent: int = 0


def jobs(stack: Stack, left: timedelta | None, now: datetime) -> tuple[Job, ...]:
    """The jobs that fit into what is left of a rest, most useful first; none when nothing is left."""
    minutes = left.total_seconds() / 60 if left is not None else 0.0
    fitting = [job for job in _all(stack, now) if job.minutes <= minutes]
    return tuple(sorted(fitting, key=lambda job: (-job.urgent, job.minutes))[:MOST])


def _all(stack: Stack, now: datetime) -> Iterator[Job]:
    yield from _bedding(stack)
    yield from _stock(stack, now)
    yield from _tubs(stack, now)
    yield from _bin(stack, now)
    yield Job("Label the tub for the castings: tray, date and weight", 2, "Nobody remembers it later.")
    yield Job("Wash the overs tub and the scoop", 4, "Wet castings wash off, dry ones do not.")


def _bedding(stack: Stack) -> Iterator[Job]:
    """Bedding for the fresh tray, shredded or soaked while hands are free."""
    support = turn_supported(stack)
    name = clean(support.bedding, 40) if support is not None else "bedding"
    if support is not None and support.short:
        yield Job(f"Shred more {name}", 10, "The stock does not fill the fresh tray.", 3)
    elif stack.in_stage(Stage.BEDDING) or support is not None:
        yield Job(f"Shred {name} for the next meals", 10, "Dry bedding goes on top of every meal.")


def _stock(stack: Stack, now: datetime) -> Iterator[Job]:
    counted = stack.supplies_counted_at
    if stack.supplies and (counted is None or now - counted > STALE):
        last = f"last weighed {when(counted, now)}" if counted is not None else "never weighed"
        yield Job("Weigh the supplies", 6, f"The stock was {last}.", 1)


def _tubs(stack: Stack, now: datetime) -> Iterator[Job]:
    """The hatch tubs of earlier separations, and lots that wait for the next thing."""
    for lot in stack.lots:
        if lot.closed_at is None and lot.stage == "drying":
            yield Job(f"Sieve lot {lot.code}", 12, f"It has been drying since {lot.stage_since:%Y-%m-%d}.", 2)
        elif lot.closed_at is None and lot.stage == "hatching":
            what = f"Look for hatchlings in lot {lot.code}" if lot.lures else f"Lay a lure on lot {lot.code}"
            yield Job(what, 5, f"It has been hatching since {lot.stage_since:%Y-%m-%d}.", 1)
    if not stack.lots:
        for tub in tubs(stack, now - TUB_FOR):
            yield Job(
                f"Look for hatchlings in the tub of tray {tub.tray}", 5, f"Taken {when(tub.since, now)}.", 1
            )


def _bin(stack: Stack, now: datetime) -> Iterator[Job]:
    checked = stack.sump.checked_at
    if checked is None or now - checked > timedelta(days=1):
        last = f"last looked at {when(checked, now)}" if checked is not None else "never looked at"
        yield Job("Empty the sump and write its volume down", 4, f"It was {last}.", 1)
    spare = [tray.id for tray in stack.off_stack]
    if spare:
        yield Job(f"Rinse and dry spare tray {spare[0]}", 6, "It comes in at the next turn.")
    if stack.worms_kg is None:
        yield Job("Estimate the worms in the feeding tray", 8, "No worms are written down for this bin.")
