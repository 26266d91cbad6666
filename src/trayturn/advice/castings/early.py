"""What is told of things done to a lot before their time."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from trayturn.advice.castings.cocoons import expected
from trayturn.advice.castings.stages import Next, next_for
from trayturn.advice.castings.words import numbers
from trayturn.advice.phrases import day_has_come
from trayturn.domain.entries import LotStage
from trayturn.domain.lots import Lot
from trayturn.domain.stack import Stack
from trayturn.domain.words import day
from trayturn.domain.words import due as in_days

WAITS = {
    "lure": "few hatch earlier",
    "look": "bait needs a week",
    "dry": "it still hatches",
    "sieve": "it is still wet",
    "ready": "it still cures",
}
"""What is better not done early, and why in three words. Weighing, filling and using may be done any day."""

TAKEN_BY = frozenset({"pack", "use", "give"})
"""What takes castings out of a lot, by the names of the acts of the screen."""


def not_yet(coming: Next, now: datetime) -> str:
    """`Not yet: in 28 days (few hatch earlier).`; empty once its day has come, or where nothing dates it."""
    if coming.code not in WAITS or coming.due is None or day_has_come(coming.due, now):
        return ""
    return f"Not yet: {in_days(coming.due, now)} ({WAITS[coming.code]})."


def minded_taking(lot: Lot, stack: Stack) -> str:
    """What to mind before any of a lot is used, filled or given away; empty where it is ready."""
    coming = next_for(lot, stack)
    told = TOLD.get(lot.stage)
    return told(lot, coming, stack) if coming is not None and coming.code != "close" and told else ""


def _waits(coming: Next, stack: Stack) -> bool:
    return coming.due is not None and not day_has_come(coming.due, stack.as_of)


def _hatching(lot: Lot, coming: Next, stack: Stack) -> str:
    if coming.code == "dry" and not _waits(coming, stack):
        return "By what is published it has hatched out; it was neither dried nor sieved yet."
    return f"It still hatches: cocoons and young would go with it{_young(lot, stack)}."


def _drying(lot: Lot, coming: Next, stack: Stack) -> str:
    if lot.sieved:
        return "It still dries."
    if coming.code == "sieve" and _waits(coming, stack):
        return f"It still dries: to be sieved from {_day(coming, stack)}."
    return "It still dries, and was not sieved yet."


def _curing(lot: Lot, coming: Next, stack: Stack) -> str:
    return f"It still cures: ready from {_day(coming, stack)}." if _waits(coming, stack) else ""


TOLD: dict[LotStage, Callable[[Lot, Next, Stack], str]] = {
    LotStage.HATCHING: _hatching,
    LotStage.DRYING: _drying,
    LotStage.CURING: _curing,
}


def _young(lot: Lot, stack: Stack) -> str:
    """` (330 to 2,800 young are to be expected in all)`, where they are reckoned."""
    found = expected(lot, stack)
    if found is None or found.young is None:
        return ""
    return f" ({numbers(found.young)} young are to be expected in all)"


def _day(coming: Next, stack: Stack) -> str:
    """`Mon 3 Mar, in 5 days`; `tomorrow`."""
    if coming.due is None:
        return ""
    near, distance = day(coming.due, stack.as_of), in_days(coming.due, stack.as_of)
    return near if near == distance else f"{near}, {distance}"
