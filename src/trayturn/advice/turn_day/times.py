"""How long a turn day takes this keeper: from past days and separations, or by common practice."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from statistics import median

from trayturn.advice.bands import Band
from trayturn.advice.side_by_side.chains import chains_of
from trayturn.domain.day import TurnDay
from trayturn.domain.entries import DayOutcome
from trayturn.domain.stack import Stack
from trayturn.domain.words import count
from trayturn.science.scheduling import Chain, schedule

LOOK_MIN, LIFT_MIN, FEED_MIN, CLOSE_MIN = 4.0, 1.0, 12.0, 5.0
"""Minutes to look into the bin, for one lift, to feed, and to close up. Our choice."""
LONGEST_DAY_MIN = 12 * 60
"""A day that ran longer was left lying: it tells nothing of the work. Our choice."""
OFF = 0.3
"""How far a day may lie from a rule of thumb or from a single day, as a share, either way. Our choice."""
STEPS = 2_000
"""How many steps the search for an order of several separations may take. Engineering choice."""
PRACTICE = "common practice"


@dataclass(frozen=True, slots=True)
class DayTime:
    """Minutes in all, of them with hands, and what that rests on; `days` of the keeper's own count for it."""

    minutes: Band
    hands: Band
    basis: str
    days: int = 0


def day_time(
    stack: Stack, lifts: int, separating: Sequence[str], loosened: int, *, fed: bool = True
) -> DayTime:
    """What a day of so many lifts takes in which these trays are separated and so many others loosened.

    It is by the keeper's own turn days with as many trays separated where there are any, else by the steps of
    earlier separations; the part that needs hands is reckoned step by step in any case.
    """
    moves = LOOK_MIN + LIFT_MIN * lifts + stack.setup.loosen_minutes * loosened + CLOSE_MIN
    before = _around(moves + (FEED_MIN if fed else 0.0))
    work, whole = _separations(stack, separating)
    hands = before.plus(work)
    if days := past_minutes(stack.past_turn_days, len(separating)):
        whole = _among(days)
        # What is reckoned step by step may be slower than this keeper is: no hands for longer than the day.
        hands = Band(*(min(part, day) for part, day in zip(hands, whole, strict=True)))
        return DayTime(whole, hands, f"{count(len(days), 'turn day')} of yours", len(days))
    past = len(stack.past_separations)
    own = f"{count(past, 'separation')} of yours" if past and separating else PRACTICE
    return DayTime(before.plus(whole), hands, own)


def _separations(stack: Stack, separating: Sequence[str]) -> tuple[Band, Band]:
    """The hands and the whole of separating these trays side by side, minutes."""
    ahead = [
        one
        for one in chains_of([stack], stack.as_of, [(stack.key, tray) for tray in separating])
        if one.tray in separating
    ]
    plans = [_worked(tuple(one.chains[n] for one in ahead)) for n in range(3)]
    return Band(*(work for work, _ in plans)), Band(*(done for _, done in plans))


@lru_cache(maxsize=32)
def _worked(chains: tuple[Chain, ...]) -> tuple[float, float]:
    """Minutes of hands and in all: the same chains are asked about with every key."""
    found = schedule(chains, most_steps=STEPS)
    return found.hands, found.done


def past_minutes(days: Iterable[TurnDay], separated: int) -> list[float]:
    """How long the keeper's turn days with so many separations took, minutes, oldest first.

    Those left undone, and those that ran on for longer than a day's work, are left out.
    """
    found = []
    for day in days:
        if day.ended_at is not None and day.outcome is DayOutcome.FINISHED:
            minutes = (day.ended_at - day.begun_at).total_seconds() / 60
            if 1 < minutes <= LONGEST_DAY_MIN and len(day.plan.separating) == separated:
                found.append(minutes)
    return found


def _around(minutes: float) -> Band:
    return Band(minutes * (1 - OFF), minutes, minutes * (1 + OFF))


def _among(own: Sequence[float]) -> Band:
    """From the least to the most of one's own; a single one by a share either way."""
    return _around(own[0]) if len(own) == 1 else Band(min(own), median(own), max(own))


def minutes_words(band: Band) -> str:
    """`40 to 60 min`, `2 to 3 h`, each end rounded to what a keeper would say."""
    low, high = (_said(minutes) for minutes in (band.low, band.high))
    return f"about {high}" if low == high else f"{low} to {high}"


def _said(minutes: float) -> str:
    if minutes >= 90:
        return f"{round(minutes / 30) / 2:g} h"
    return f"{max(1, round(minutes / 5) * 5 if minutes >= 20 else round(minutes))} min"
