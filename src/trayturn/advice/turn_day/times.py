"""How long a turn day takes this keeper: from past days and separations, or by common practice."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import median

from trayturn.advice.bands import Band
from trayturn.advice.turn_day.moving import Moving
from trayturn.domain.day import TurnDay
from trayturn.domain.entries import DayOutcome, Outcome
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.words import count

LOOK_MIN, LIFT_MIN, FEED_MIN, CLOSE_MIN = 4.0, 1.0, 12.0, 5.0
"""Minutes to look into the bin, for one lift, to feed, and to close up. Our choice."""
PASSES, SKIM_MIN, BEFORE_AFTER_MIN = Band(4.0, 4.5, 5.0), 6.0, 20.0
"""Passes of a separation (a trade figure), and minutes to skim, and to get ready, settle and clean up (our
choice)."""
LONGEST_DAY_MIN = 12 * 60
"""A day that ran longer was left lying: it tells nothing of the work. Our choice."""
OFF = 0.3
"""How far a day may lie from a rule of thumb or from a single day, as a share, either way. Our choice."""


@dataclass(frozen=True, slots=True)
class DayTime:
    """Minutes in all, of them with hands, and what that rests on."""

    minutes: Band
    hands: Band
    basis: str


def day_time(stack: Stack, moving: Moving, separations: int, loosened: int) -> DayTime:
    """What a day with so many separations and trays to loosen takes."""
    setup = stack.setup
    before = LOOK_MIN + LIFT_MIN * len(moving.lifts) + setup.loosen_minutes * loosened + FEED_MIN + CLOSE_MIN
    one, basis = separation_minutes(stack)
    hands = _around(before).plus(hands_minutes(stack).times(separations))
    whole = _around(before).plus(one.times(separations) if separations else Band(0, 0, 0))
    days = past_minutes(stack.past_turn_days)
    if days:
        mid = median(days)
        return DayTime(_among(days, mid), hands, f"{count(len(days), 'turn day')} of yours")
    return DayTime(whole, hands, basis)


def separation_minutes(stack: Stack) -> tuple[Band, str]:
    """How long one separation takes, minutes: the keeper's own, or by common practice."""
    own = [m for one in stack.past_separations if (m := _minutes(one)) is not None]
    if own:
        return _among(own, median(own)), f"{count(len(own), 'separation')} of yours"
    setup = stack.setup
    each = setup.loosen_minutes + setup.rest_minutes + SKIM_MIN
    return PASSES.times(each).plus(_around(BEFORE_AFTER_MIN)), "common practice, no source"


def hands_minutes(stack: Stack) -> Band:
    """The part of a separation that needs hands, minutes."""
    each = stack.setup.loosen_minutes + SKIM_MIN
    return PASSES.times(each).plus(_around(BEFORE_AFTER_MIN))


def past_minutes(days: Iterable[TurnDay]) -> list[float]:
    """How long the keeper's own turn days took, minutes, the oldest first; those left undone are left out."""
    found = []
    for day in days:
        if day.ended_at is not None and day.outcome is DayOutcome.FINISHED:
            minutes = (day.ended_at - day.begun_at).total_seconds() / 60
            if 1 < minutes <= LONGEST_DAY_MIN:
                found.append(minutes)
    return found


def _minutes(one: Separation) -> float | None:
    if one.ended_at is None or one.outcome is Outcome.PUT_BACK or not one.passes:
        return None
    minutes = (one.ended_at - one.begun_at).total_seconds() / 60
    return minutes if 1 < minutes <= LONGEST_DAY_MIN else None


def _around(minutes: float) -> Band:
    return Band(minutes * (1 - OFF), minutes, minutes * (1 + OFF))


def _among(own: Sequence[float], mid: float) -> Band:
    """From the least to the most of one's own; a single one by a share either way."""
    return _around(mid) if len(own) == 1 else Band(min(own), mid, max(own))


def minutes_words(band: Band) -> str:
    """`40 to 60 min`, `2 to 3 h`, each end rounded to what a keeper would say."""
    low, high = (_said(minutes) for minutes in (band.low, band.high))
    return f"about {high}" if low == high else f"{low} to {high}"


def _said(minutes: float) -> str:
    if minutes >= 90:
        return f"{round(minutes / 30) / 2:g} h"
    return f"{max(1, round(minutes / 5) * 5 if minutes >= 20 else round(minutes))} min"
