"""A turn day in words: what to do now, where the keeper is, and the list of steps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trayturn.advice.bands import rough_mass
from trayturn.advice.pantry import Pantry
from trayturn.advice.story import DOING, NAMES, THEN
from trayturn.advice.turn_day.lifts import Fresh, index_words, lifts_told
from trayturn.advice.turn_day.moving import STACK, Lift, spot_words
from trayturn.advice.turn_day.tasks import DayView, Standing, Task, needs_hands
from trayturn.domain.entries import DayStep, Stage
from trayturn.domain.stack import Stack
from trayturn.domain.words import clock, listed, masses

ORDER = tuple(DayStep)
TITLES = {
    DayStep.LOOK: "Open and look",
    DayStep.MOVE: "Move trays",
    DayStep.LOOSEN: "Loosen each",
    DayStep.FEED: "Feed",
    DayStep.SET_ON_TOP: "Set on top",
    DayStep.SEPARATE: "Separate",
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
    """One of the seven steps: its title, where it stands, and how much of it is done."""

    step: DayStep
    title: str
    standing: Standing
    so_far: str = ""


def step_lines(view: DayView) -> tuple[StepLine, ...]:
    """The steps that this day has, in order."""
    now = view.now.step if view.now is not None else None
    return tuple(_step_line(step, view, now) for step in ORDER if view.of(step))


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
    if task.step is DayStep.MOVE and task.lift is not None:
        return lift_to_do(task.lift, view)
    return {
        DayStep.LOOK: "Open the bin and look, before anything is moved.",
        DayStep.LOOSEN: f"Loosen tray {tray} gently by hand, down to the mesh.",
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


def lift_to_do(lift: Lift, view: DayView) -> str:
    """`Lift tray D off the stack, on to place 1 beside it.`"""
    places = view.moving.places
    if lift.source == STACK:
        return f"Lift tray {lift.tray} off the stack, on to {spot_words(lift.target, places)}."
    if lift.target == STACK:
        fresh = lift.tray not in view.day.before
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
        if view.moving.lacking:
            yield lacking_words(view.moving.lacking, view.moving.places)
    elif task.step is DayStep.MOVE and task.number is not None:
        yield from _lift_reasons(task, view, stack, pantry)
    elif task.step is DayStep.LOOSEN:
        yield "Air gets in and worms move freely. Loosened now, while nothing stands on it."
    elif task.step is DayStep.FEED:
        yield "Bedding first, then the scraps, then a cover."
    elif task.step is DayStep.SET_ON_TOP:
        yield "Light and air send its worms down into the tray below, where the food is."


def _lift_reasons(task: Task, view: DayView, stack: Stack, pantry: Pantry) -> Iterator[str]:
    feeding = next((task.tray for task in view.of(DayStep.FEED)), None)
    filled = Fresh(view.day.plan.bedding_kg, feeding)
    told = lifts_told(stack, view.moving, pantry, filled)[(task.number or 1) - 1]
    units = stack.setup.units
    weight = f"about {rough_mass(told.kg.mid, units)} ({told.basis})"
    yield f"Lift {task.number} of {len(view.moving.lifts)}: {weight}; {index_words(told.index)}."
    yield from where_words(view)
    fresh = [tray for tray in view.day.plan.order if tray not in view.day.before]
    if task.tray in fresh:
        bedding = masses(view.day.plan.bedding_kg, units) if view.day.plan.bedding_kg else "fresh bedding"
        fed = view.day.plan.stages.get(task.tray or "") is Stage.FEEDING
        yield f"Tray {task.tray} gets {bedding}{'' if fed else ', dry'}."


def where_words(view: DayView) -> tuple[str, ...]:
    """Where the trays are between two lifts; nothing once all are moved."""
    if view.moved:
        return ()
    spots = view.moving.spots(view.lifts_done)
    beside = [f"place {n}: {' under '.join(pile)}" for n, pile in enumerate(spots.places, 1) if pile]
    on_it = f"On the stack, from the bottom up: {listed(spots.stack) or 'nothing'}."
    return (on_it, f"Beside it: {'; '.join(beside)}.") if beside else (on_it,)


def lacking_words(lacking: int, places: int) -> str:
    """What to do about too few places."""
    more = "one more place" if lacking == 1 else f"{lacking} more places"
    return f"This needs {places} places to put trays down, {more} than the bin has: clear a table first."
