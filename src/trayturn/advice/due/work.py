"""The work of the stack itself: separations, turns, worms, feedings, checks and fresh trays."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from trayturn.advice.due.item import Due, Press, due_at
from trayturn.advice.feeding import feed_next
from trayturn.advice.pages import Page
from trayturn.advice.phrases import every, since, when
from trayturn.advice.roles import free_tray, room, waiting_on_top
from trayturn.advice.stock.outlook import MONTH
from trayturn.advice.stock.turn_words import support_lines
from trayturn.advice.stock.turns import bedding_at_hand, turn_supported
from trayturn.advice.story import DOING, NAMES, THEN, separation_line
from trayturn.advice.turning import NextTurn, next_turn
from trayturn.domain.setup import Pattern
from trayturn.domain.stack import Separation, Stack, StepTimes
from trayturn.domain.words import clock, count
from trayturn.domain.words import due as in_days


def separations(stack: Stack) -> Iterator[Due]:
    """Each separation under way: its rest, or the step that waits."""
    for separation in stack.separations:
        yield _separation_due(stack, separation)


def _separation_due(stack: Stack, separation: Separation) -> Due:
    step = separation.step
    why = (
        separation_line(separation, stack.as_of),
        f"Its separation began {when(separation.begun_at, stack.as_of)}; "
        f"{count(len(separation.passes), 'pass', 'passes')} done so far.",
    )
    if step is None or step.ends_at is None:
        begun = step.started_at if step else separation.begun_at
        what = f"Tray {separation.tray} waits: {_task(separation, step)}."
        return due_at(stack, "separation", what, why, begun, separation.tray, Press.STEP_WAITS)
    then, doing = THEN[step.step], DOING[step.step]
    if step.ends_at <= stack.as_of:
        what = f"Tray {separation.tray}: {then} now; the {NAMES[step.step]} is over."
        return due_at(stack, "rest", what, why, step.ends_at, separation.tray, Press.REST_OVER)
    what = f"Tray {separation.tray}: {doing} until {clock(step.ends_at, stack.as_of)}, then {then}."
    return due_at(stack, "rest", what, why, step.ends_at, separation.tray, Press.REST_RUNS)


def waiting(stack: Stack) -> Iterator[Due]:
    """A turn was done first, and the tray that left is still to be separated."""
    tray = waiting_on_top(stack)
    if tray is not None and not stack.separations:
        finishing = since(tray.stage_since, stack.as_of)
        why = (f"It has been finishing {finishing}, and stands above the feeding tray.",)
        what = f"Separate tray {tray.id}: it waits on top."
        yield due_at(stack, "separation", what, why, stack.last_turn_at, tray.id, Press.NOW)


def _task(separation: Separation, step: StepTimes | None) -> str:
    """What the keeper is to do in an untimed step, or between two steps."""
    if step is not None:
        return NAMES[step.step]
    return THEN[separation.steps[-1].step] if separation.steps else "get ready"


def _press(due: datetime, ready: bool, stack: Stack) -> Press:
    """How something with a day of its own presses: it waits where the day has come and it is not ready."""
    if ready:
        return Press.NOW
    return Press.WAITS if due <= stack.as_of else Press.LATER


def turn(stack: Stack) -> Iterator[Due]:
    """The next turn."""
    coming = next_turn(stack)
    if coming.due is not None and stack.turn_day is None:
        press = _press(coming.due, coming.ready and not stack.separations, stack)
        why = _with_stock(stack, coming)
        yield due_at(stack, "turn", coming.what, why, coming.due, press=press)


def _with_stock(stack: Stack, coming: NextTurn) -> tuple[str, ...]:
    """The reasons of a turn; what its stock lacks stands before them once the turn is near."""
    support = turn_supported(stack)
    lines = support_lines(support) if support is not None else ()
    near = coming.due is not None and coming.due <= stack.as_of + timedelta(days=MONTH)
    return (*lines, *coming.why) if near else (*coming.why, *lines)


def worms(stack: Stack) -> Iterator[Due]:
    """A bin that was only just set up has bedding and no worms yet."""
    begun = any(tray.feedings for tray in (*stack.trays, *stack.off_stack)) or stack.turns
    if not stack.trays or begun or stack.worms_kg is not None or stack.past_separations or stack.separations:
        return
    why = (
        "No worms are written down for this bin, and it has not been fed yet.",
        "Give them the damp bedding first; their first meals are small.",
    )
    yield due_at(stack, "worms", "Put the worms in.", why, None, press=Press.NOW)


def feed(stack: Stack) -> Iterator[Due]:
    """The next feeding, or what to do while no tray is fed."""
    coming = feed_next(stack)
    tray = coming.tray or coming.instead
    if coming.due is not None:
        press = _press(coming.due, coming.ready, stack)
        yield due_at(stack, "feed", coming.what, coming.why, coming.due, tray, press)
    else:
        press = Press.WAITS if coming.rests else Press.NOW
        page = None if stack.trays else Page.STARTING
        kind = "feed" if tray else "start"
        yield due_at(stack, kind, coming.what, coming.why, None, tray, press, page=page)


def check(stack: Stack) -> Iterator[Due]:
    """The next look at the bin as a whole."""
    last = stack.last_check_at or stack.began_at
    if last is None or not stack.trays:
        return
    due = last + timedelta(days=stack.setup.days_between_checks)
    now = due <= stack.as_of
    looked = f"last checked {when(last, stack.as_of)}" if stack.last_check_at else "not checked yet"
    why = (
        f"This bin is checked {every(stack.setup.days_between_checks)}, and was {looked}.",
        "Look at moisture, smell, temperature and the sump.",
    )
    what = f"Check the bin {'now' if now else in_days(due, stack.as_of)}."
    yield due_at(stack, "check", what, why, due, press=Press.NOW if now else Press.LATER)


def start(stack: Stack) -> Iterator[Due]:
    """Bedding below, a stack with room takes a bedding tray at any time; a turn that is due brings one.

    Where there is no bedding for it, nothing is said until there is.
    """
    places, name = room(stack), free_tray(stack)
    turning = next_turn(stack).ready or bool(stack.separations) or stack.turn_day is not None
    if stack.setup.pattern is not Pattern.BEDDING_BELOW or turning or not places or name is None:
        return
    if not bedding_at_hand(stack):
        return
    if feed_next(stack).tray is None and feed_next(stack).instead is None:
        return
    why = (
        f"The stack has room for {count(places, 'more tray')}.",
        "A bedding tray at the bottom catches what drips, and is ready when its turn comes.",
    )
    yield due_at(
        stack, "start", f"There is room for tray {name} with fresh bedding.", why, None, name, Press.ANY_TIME
    )
