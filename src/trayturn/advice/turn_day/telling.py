"""A turn day in words: what to do now, where the keeper is, and the list of steps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trayturn.advice.bands import mass_band
from trayturn.advice.pantry import Pantry
from trayturn.advice.story import DOING, NAMES, THEN
from trayturn.advice.turn_day.lifts import Fresh, LiftTold, heights, index_words, lifts_told
from trayturn.advice.turn_day.moving import STACK, Lift, spot_words, with_set_on_top
from trayturn.advice.turn_day.tasks import DayView, Standing, Task, needs_hands
from trayturn.domain.entries import DayStep
from trayturn.domain.setup import Pattern
from trayturn.domain.stack import Stack
from trayturn.domain.words import clock, listed, masses

TITLES = {
    DayStep.LOOK: "Open and look",
    DayStep.MOVE: "Move trays",
    DayStep.LOOSEN: "Loosen each",
    DayStep.FEED: "Feed",
    DayStep.SET_ON_TOP: "Set on top",
    DayStep.SEPARATE: "Separate",
    DayStep.BRING: "Bring back",
    DayStep.CLOSE: "Close up",
}
CLOSING = (
    "The sump is back in place, its tap closed.",
    "The cover and the lid are on.",
    "Tools are rinsed, tubs labelled.",
    "Hands are washed with soap.",
)


@dataclass(frozen=True, slots=True)
class StepLine:
    """One of the steps: its title, where it stands, and how much of it is done."""

    step: DayStep
    title: str
    standing: Standing
    so_far: str = ""


def step_lines(view: DayView) -> tuple[StepLine, ...]:
    """The steps that this day has, in order."""
    now = view.now.step if view.now is not None else None
    return tuple(_step_line(step, view, now) for step in dict.fromkeys(task.step for task in view.tasks))


def _step_line(step: DayStep, view: DayView, now: DayStep | None) -> StepLine:
    tasks = view.of(step)
    closed = [task for task in tasks if not task.open]
    so_far = f"{len(closed)}/{len(tasks)}" if 0 < len(closed) < len(tasks) else ""
    if step is now:
        standing = Standing.NOW
    elif len(closed) < len(tasks):
        standing = Standing.TO_COME
    else:
        left = all(task.standing is Standing.LEFT for task in tasks)
        standing = Standing.LEFT if left else Standing.DONE
    return StepLine(step, TITLES[step], standing, so_far)


def to_do(task: Task | None, view: DayView) -> str:
    """The one thing to do now, in a sentence."""
    if task is None:
        return "All is done."
    tray = task.tray
    if task.lift is not None:
        return lift_to_do(task, task.lift, view)
    return {
        DayStep.LOOK: "Open the bin and look, before anything is moved.",
        DayStep.LOOSEN: f"Loosen tray {tray} gently by hand, down to the mesh.",
        DayStep.BRING: f"Bring tray {tray} back with fresh bedding.",
        DayStep.FEED: f"Feed tray {tray}: it is the feeding tray from now on.",
        DayStep.SET_ON_TOP: f"Set tray {tray} on top, without the lid, under a bright light.",
        DayStep.SEPARATE: f"Separate tray {tray} from its worms, pass by pass.",
        DayStep.CLOSE: "Close up: cover, lid, sump, tools, hands.",
    }[task.step]


def to_do_now(view: DayView, stack: Stack) -> str:
    """The one thing to do now; while trays are separated, what the one that needs hands first is at."""
    task = view.now
    one = needs_hands(stack, view.day)
    if task is None or task.step is not DayStep.SEPARATE or one is None or one.step is None:
        return to_do(task, view)
    step = one.step
    if step.ends_at is None:
        return f"Tray {one.tray} waits for your hands: {NAMES[step.step]}."
    if step.ends_at <= stack.as_of:
        return f"Tray {one.tray}: {THEN[step.step]} now; the {NAMES[step.step]} is over."
    ends = clock(step.ends_at, stack.as_of)
    return f"Tray {one.tray}: {DOING[step.step]} until {ends}, then {THEN[step.step]}."


def resting(view: DayView, stack: Stack) -> bool:
    """Whether the day waits for a rest, with nothing for hands to do at its trays."""
    one = needs_hands(stack, view.day)
    ends = one.step.ends_at if one is not None and one.step is not None else None
    separates = view.now is not None and view.now.step is DayStep.SEPARATE
    return separates and ends is not None and ends > stack.as_of


def lift_to_do(task: Task, lift: Lift, view: DayView) -> str:
    """`Lift tray D off the stack, on to place 1 beside it.`"""
    places = view.lifts_of(task).places
    if lift.source == STACK:
        return f"Lift tray {lift.tray} off the stack, on to {spot_words(lift.target, places)}."
    if lift.target == STACK:
        fresh = lift.tray not in view.day.before or lift.tray == view.day.plan.comes_back
        what = "Put fresh tray" if fresh else "Put tray"
        return f"{what} {lift.tray} on the stack, from {spot_words(lift.source, places)}."
    return f"Move tray {lift.tray} to {spot_words(lift.target, places)}."


def reasons(task: Task | None, view: DayView, stack: Stack, pantry: Pantry) -> tuple[str, ...]:
    """What stands below it: the weight of a lift, why a tray is loosened, what comes after."""
    return tuple(_reasons(task, view, stack, pantry))


def _reasons(task: Task | None, view: DayView, stack: Stack, pantry: Pantry) -> Iterator[str]:
    if task is None:
        return
    if task.step is DayStep.LOOK:
        yield "A dry bottom tray soaks up what drips; a wet one says it is full. Strays below look for air."
        lacking = max(view.moving.lacking, view.bringing.lacking)
        if lacking:
            yield lacking_words(lacking, max(view.moving.places, view.bringing.places))
    elif task.lift is not None:
        yield from _lift_reasons(task, view, stack, pantry)
    elif task.step is DayStep.LOOSEN:
        yield "Air gets in and worms move freely. Loosened now, while nothing stands on it."
        yield from where_words(view)
    elif task.step is DayStep.FEED:
        yield "Bedding first, then the scraps, then a cover."
        yield from where_words(view)
    elif task.step is DayStep.SET_ON_TOP:
        yield from _on_top_reasons(task, view, stack, pantry)
        yield from where_words(view)
        food = ", where the food is" if view.day.plan.comes_back_as is None else ""
        yield f"Light and air send its worms down into the tray below{food}."


def _on_top_reasons(task: Task, view: DayView, stack: Stack, pantry: Pantry) -> Iterator[str]:
    """What the tray weighs that is set on top, where it stands beside the stack for that."""
    moving = with_set_on_top(view.moving, view.day.plan.separating)
    later = lifts_told(stack, moving, pantry)[len(view.moving.lifts) :]
    told = [one for one in later if one.lift.tray == task.tray]
    if told and task.tray in view.beside:
        yield _weight_words(told[0], stack)


def _weight_words(told: LiftTold, stack: Stack) -> str:
    """`6 to 8 kg, reckoned, hands 73 to 83 cm high; lifting index 0.8, within the limit.`"""
    units, basis = stack.setup.units, told.basis.partition(" from")[0]
    weight = f"{mass_band(told.kg, units)}, {basis}, hands {heights(told, units)} high"
    return f"{weight}; {index_words(told.index)}."


def _lift_reasons(task: Task, view: DayView, stack: Stack, pantry: Pantry) -> Iterator[str]:
    feeding = next((task.tray for task in view.of(DayStep.FEED)), None)
    filled, moving = Fresh(view.day.plan.bedding_kg, feeding), view.lifts_of(task)
    told = lifts_told(stack, moving, pantry, filled)[(task.number or 1) - 1]
    units = stack.setup.units
    yield f"Lift {task.number} of {len(moving.lifts)}: {_weight_words(told, stack)}"
    if task.step is DayStep.BRING:
        where = "on top" if stack.setup.pattern is Pattern.STRAIGHT_UP else "below the others"
        yield f"Tray {view.day.plan.comes_back} comes back with fresh bedding, {where}."
    yield from where_words(view)
    back = [view.day.plan.comes_back] if task.step is DayStep.BRING else []
    fresh = [*(tray for tray in view.day.plan.order if tray not in view.day.before), *back]
    if task.tray in fresh:
        bedding = masses(view.day.plan.bedding_kg, units) if view.day.plan.bedding_kg else "fresh bedding"
        fed = task.tray == feeding
        yield f"Tray {task.tray} gets {bedding}{'' if fed else ', dry'}."


def where_words(view: DayView) -> tuple[str, ...]:
    """Where the trays are while some are lifted, or stand beside the stack; else nothing."""
    spots = view.spots
    if view.moved and not view.beside:
        return ()
    beside = [f"place {n}: {' under '.join(pile)}" for n, pile in enumerate(spots.places, 1) if pile]
    on_it = f"On the stack, from the bottom up: {listed(spots.stack) or 'nothing'}."
    return (on_it, f"Beside it: {'; '.join(beside)}.") if beside else (on_it,)


def lacking_words(lacking: int, places: int) -> str:
    """What to do about too few places."""
    more = "one more place" if lacking == 1 else f"{lacking} more places"
    return f"This needs {places} places to put trays down, {more} than the bin has: clear a table first."
