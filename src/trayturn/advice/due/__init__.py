"""What is due at a bin, most pressing first."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from trayturn.advice.due import first_weeks, stores, work
from trayturn.advice.due.item import KINDS, Due, Press, due_at
from trayturn.advice.feeding import feed_next
from trayturn.advice.pages import Page
from trayturn.domain.stack import Stack

__all__ = ["KINDS", "SOURCES", "Due", "Press", "due_list"]

SOURCES: tuple[Callable[[Stack], Iterable[Due]], ...] = (
    work.separations,
    work.waiting,
    work.turn,
    work.worms,
    work.feed,
    work.check,
    first_weeks.first_weeks,
    stores.supplies,
    work.start,
)
"""Where due things come from. Each is asked once; none knows of the others."""


def due_list(stack: Stack) -> list[Due]:
    """All that is due at this bin or coming up, most pressing first. Never empty: something comes next."""
    if not stack.trays:
        feed = feed_next(stack)
        return [due_at(stack, "start", feed.what, feed.why, None, press=Press.NOW, page=Page.STARTING)]
    return sorted((due for source in SOURCES for due in source(stack)), key=lambda due: due.order)
