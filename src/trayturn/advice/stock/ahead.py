"""What draws on the stock within a year: feedings, turns and time, as the bin is set up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.feeding import feed_next
from trayturn.advice.turning import next_turn
from trayturn.domain.stack import Stack, days_between

DAYS = 365
"""How far ahead it is reckoned at all."""


@dataclass(frozen=True, slots=True)
class Step:
    """A moment that draws on the stock, and how many feedings, fresh trays and days there are up to it."""

    at: datetime
    feedings: float
    trays: float
    days: float


def coming(stack: Stack) -> list[Step]:
    """What draws on the stock within a year, by the intervals of the setup: feedings, turns, and time.

    What is due already happens now. While no tray is fed, the first turn follows the first feeding; an empty
    stack needs its first tray.
    """
    now, setup = stack.as_of, stack.setup
    fed, turn = feed_next(stack), next_turn(stack)
    feeding_at = fed.due or (now if fed.instead else None)
    later = feeding_at + timedelta(days=setup.days_between_turns) if feeding_at else None
    turn_at = turn.due or later if stack.trays else now
    brings = turn.fresh is not None or turn.due is None
    moments = [
        *((at, often, 0.0) for at, often in _each(feeding_at, setup.days_between_feedings, now)),
        *((at, 0.0, often) for at, often in _each(turn_at, setup.days_between_turns, now)),
    ]
    if stack.last_uses:
        moments += [(days, 0.0, 0.0) for days in range(7, DAYS, 7)]
    return list(_summed(sorted(moments), now, brings))


def _each(first: datetime | None, days: float, now: datetime) -> Iterator[tuple[float, float]]:
    """Every time it comes round within a year, in days from now, and how often at once.

    What comes several times a day is told of once a day.
    """
    ahead = max(0.0, days_between(now, first)) if first is not None else DAYS
    while ahead < DAYS:
        yield ahead, max(1.0, 1 / days)
        ahead += max(1.0, days)


def _summed(moments: Sequence[tuple[float, float, float]], now: datetime, brings: bool) -> Iterator[Step]:
    """Running totals. The next turn may bring no tray in; those after it are taken to."""
    feedings = trays = 0.0
    for ahead, fed, turned in moments:
        feedings += fed
        trays += turned if brings else 0.0
        brings = brings or turned > 0
        yield Step(now + timedelta(days=ahead), feedings, trays, ahead)
