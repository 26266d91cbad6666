"""What is due at a bin, most pressing first."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from trayturn.advice.due import first_weeks, stores, work
from trayturn.advice.due.castings import castings
from trayturn.advice.due.day import turn_day
from trayturn.advice.due.follow_ups import follow_ups
from trayturn.advice.due.hatching import hatching
from trayturn.advice.due.item import KINDS, Due, Press
from trayturn.advice.due.keepers_word import heard
from trayturn.advice.once import once
from trayturn.domain.stack import Stack

__all__ = ["KINDS", "SOURCES", "Due", "Press", "due_list"]

SOURCES: tuple[Callable[[Stack], Iterable[Due]], ...] = (
    turn_day,
    work.separations,
    work.waiting,
    work.turn,
    work.worms,
    work.feed,
    work.check,
    first_weeks.first_weeks,
    stores.supplies,
    work.start,
    follow_ups,
    hatching,
    castings,
)
"""Where due things come from. Each is asked once; none knows of the others or of the keeper's word."""


@once
def due_list(stack: Stack) -> list[Due]:
    """All that is due at this bin or coming up, most pressing first. Never empty: something comes next."""
    found = (heard(due, stack) for source in SOURCES for due in source(stack))
    return sorted((due for due in found if due is not None), key=lambda due: due.order)
