"""What the turn day's screen says beside the task itself."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from trayturn.advice.due import due_list
from trayturn.advice.turn_day.jobs import hands_free, job_lines
from trayturn.advice.turn_day.tasks import DayView, not_moved
from trayturn.advice.turn_day.telling import TITLES
from trayturn.domain.entries import DayOutcome, DayStep, DayStepDone
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, listed, span

GONE = "This bin's file cannot be read any more. Put it back or mend it; this goes on from there."
ELSEWHERE = "Something went on elsewhere meanwhile. This is where the day stands now."
AMMONIA = "Ammonia: air the room before you go on; eyes or throat sting, leave. Space once more goes on."
LEFT = "The turn day is left as it stands. u takes that back"
HAS_BEGUN = "The day has only begun. z gives it up."


def left(view: DayView) -> str:
    """What is said of a day given up: in the middle of the lifts, what to do with the trays."""
    return put_back(view) or LEFT


def put_back(view: DayView) -> str:
    """How trays that stand beside the stack go back on it; empty where none do."""
    below = view.day.before if not view.moved else view.day.plan.order
    return f"Put the trays back, from below {', '.join(below)}. u: undo" if view.beside else ""


def place(view: DayView) -> str:
    """`Task 3 of 17`."""
    open_tasks = [n for n, task in enumerate(view.tasks, 1) if task.open]
    return f"Task {open_tasks[0] if open_tasks else len(view.tasks)} of {len(view.tasks)}"


def hint(view: DayView) -> str:
    """What the keys do now."""
    step = view.now.step if view.now is not None else None
    if step is DayStep.LOOK:
        return "Up and down move, - and + or digits answer. Space: looked. e leaves it out."
    if step in (DayStep.MOVE, DayStep.BRING) and view is not None and view.lifted:
        return "Space: done. b: one step back, lift by lift."
    if step is DayStep.BRING:
        return "Space: done. b: one step back. e: it does not come back today."
    if step is DayStep.MOVE:
        return "Space: done. b: one step back. e: the trays stay as they were, nothing is turned."
    if step is DayStep.FEED:
        return "Space opens the meal. e: it is not fed today."
    if step is DayStep.SEPARATE:
        return "Space goes there. e: it is not separated today."
    if step is DayStep.SET_ON_TOP:
        return "Space: done. e: it goes back on the stack, and is not separated today."
    if step is DayStep.CLOSE:
        return "Space ticks line by line, then ends the day."
    return "Space: done. e leaves it undone, b goes back one step."


def jobs_words(stack: Stack, stacks: Sequence[Stack], now: datetime, most: int) -> str:
    """What fits until the first rest of any bin ends; nothing where hands are needed at once."""
    return "\n".join(job_lines(stack, hands_free(stacks, now), now, most))


def _undone(one: DayStepDone) -> str:
    """`feed A (no scraps at hand)`."""
    tray = f" {one.tray}" if one.tray else ""
    why = f" ({clean(one.note, 40)})" if one.note else ""
    return f"{TITLES[one.step].lower()}{tray}{why}"


def summary(stack: Stack) -> list[str]:
    """The day that has just ended, and what comes next."""
    if not stack.past_turn_days:
        return ["No turn day is under way.", "t on the bin's own screen plans one."]
    day = stack.past_turn_days[-1]
    if day.outcome is DayOutcome.LEFT:
        first = "The turn day was left as it stood."
    elif not_moved(day):
        first = "Done. The trays stay as they were: nothing is turned."
    else:
        first = "Done. The stack is turned."
    took = f"It took {span(day.ended_at - day.begun_at)}." if day.ended_at is not None else ""
    undone = listed(_undone(one) for one in day.done if one.skipped)
    left = f"Left undone: {undone}." if undone else ""
    order = f"From the bottom up: {', '.join(tray.id for tray in stack.trays)}."
    coming = [f"Next: {one.what}" for one in due_list(stack)[:3]]
    return [line for line in (first, took, left, order) if line] + ["", *coming]
