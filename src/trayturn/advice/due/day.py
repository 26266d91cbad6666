"""A turn day under way: the first thing due, wherever it stands."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.due.item import Due, Press, due_at
from trayturn.advice.phrases import when
from trayturn.domain.stack import Stack


def turn_day(stack: Stack) -> Iterator[Due]:
    """What the day is at. Its rests are due things of their own."""
    if stack.turn_day is None:
        return
    from trayturn.advice.turn_day.tasks import view_day
    from trayturn.advice.turn_day.telling import resting, to_do_now

    view = view_day(stack)
    if view is None:
        return
    closed = sum(not task.open for task in view.tasks)
    begun = when(view.day.begun_at, stack.as_of)
    why = (
        f"This turn day began {begun}; {closed} of {len(view.tasks)} tasks are done.",
        "It goes on from where it stands. On its screen z gives it up.",
    )
    what = f"Turn day: {to_do_now(view, stack)}"
    press = Press.REST_RUNS if resting(view, stack) else Press.STEP_WAITS
    yield due_at(stack, "turn_day", what, why, view.day.begun_at, press=press)
