"""A turn day under way: all its tasks in order, which are done, and which one is next."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from trayturn.advice.turn_day.moving import (
    STACK,
    Lift,
    Moving,
    Spots,
    bringing_of,
    moving_of,
    with_set_on_top,
)
from trayturn.domain.day import TurnDay
from trayturn.domain.entries import DayStep, Outcome, Stage
from trayturn.domain.stack import Separation, Stack


class Standing(StrEnum):
    """Where a task stands."""

    DONE = "done"
    LEFT = "left undone"
    NOW = "now"
    TO_COME = "to come"


@dataclass(frozen=True, slots=True)
class Task:
    """One task of the day. A lift has its `number`, from 1; `tray` is what it is about."""

    step: DayStep
    tray: str | None = None
    number: int | None = None
    lift: Lift | None = None
    standing: Standing = Standing.TO_COME

    @property
    def open(self) -> bool:
        return self.standing in (Standing.NOW, Standing.TO_COME)


@dataclass(frozen=True, slots=True)
class DayView:
    """The day's tasks, in order; `now` is the first that is open, None once all are done."""

    day: TurnDay
    moving: Moving
    tasks: tuple[Task, ...]
    bringing: Moving

    @property
    def now(self) -> Task | None:
        return next((task for task in self.tasks if task.standing is Standing.NOW), None)

    @property
    def lifts_done(self) -> int:
        return sum(task.step is DayStep.MOVE and not task.open for task in self.tasks)

    @property
    def moved(self) -> bool:
        """Whether every lift is done, or the trays are left as they stand."""
        return self.lifts_done == len(self.moving.lifts)

    @property
    def lifted(self) -> bool:
        """Whether trays stand beside the stack in the middle of the lifts."""
        return 0 < self.lifts_done < len(self.moving.lifts) or self.brought_in_part

    @property
    def brought_in_part(self) -> bool:
        """Whether a tray is being brought back, and others stand beside the stack for it."""
        return 0 < self._brought < len(self.bringing.lifts)

    @property
    def _brought(self) -> int:
        return sum(task.step is DayStep.BRING and not task.open for task in self.tasks)

    def lifts_of(self, task: Task | None) -> Moving:
        """The lifts that a task is one of."""
        return self.bringing if task is not None and task.step is DayStep.BRING else self.moving

    @property
    def spots(self) -> Spots:
        """Where the trays are now. A tray to be separated stays on its place until it is set on top."""
        if not self.moved:
            return self.moving.spots(self.lifts_done)
        if self.brought_in_part:
            return self.bringing.spots(self._brought)
        spots = self.moving.spots(len(self.moving.lifts) if not not_moved(self.day) else 0)
        gone = [task.tray or "" for task in self.of(DayStep.SET_ON_TOP) if not task.open]
        emptied = {task.tray for task in self.of(DayStep.SEPARATE) if task.standing is Standing.DONE}
        places = tuple(tuple(tray for tray in pile if tray not in gone) for pile in spots.places)
        return Spots((*spots.stack, *(tray for tray in gone if tray not in emptied)), places)

    @property
    def beside(self) -> tuple[str, ...]:
        """The trays that stand beside the stack now."""
        return tuple(tray for pile in self.spots.places for tray in pile)

    def of(self, step: DayStep) -> tuple[Task, ...]:
        return tuple(task for task in self.tasks if task.step is step)


def view_day(stack: Stack) -> DayView | None:
    """The turn day under way; None when there is none."""
    day = stack.turn_day
    if day is None:
        return None
    moving = moving_of(day.before, day.stages_before, day.plan, stack.setup)
    bringing = Moving((), 0)
    if day.plan.comes_back is not None:
        bringing = bringing_of(day.plan, day.stages_before, stack.setup)
    tasks = [replace(task, standing=_standing(task, day, stack)) for task in _tasks(day, moving, bringing)]
    first = next((n for n, task in enumerate(tasks) if task.open), None)
    if first is not None:
        tasks[first] = replace(tasks[first], standing=Standing.NOW)
    return DayView(day, moving, tuple(tasks), bringing)


def _tasks(day: TurnDay, moving: Moving, bringing: Moving) -> Iterator[Task]:
    """Look, then lift by lift, each tray loosened while nothing stands on it; then feed, separate, close.

    A tray that comes back fresh does so once it is empty, and is fed then where it is the one to be fed.
    """
    yield Task(DayStep.LOOK)
    yield from _moves(day, moving)
    fed, back = fed_tray(day), day.plan.comes_back
    if fed is not None and fed != back:
        yield Task(DayStep.FEED, fed)
    separating = _from_the_top(day, moving)
    yield from (Task(DayStep.SET_ON_TOP, tray) for tray in separating)
    yield from (Task(DayStep.SEPARATE, tray) for tray in separating)
    yield from (Task(DayStep.BRING, lift.tray, n, lift) for n, lift in enumerate(bringing.lifts, 1))
    if fed is not None and fed == back:
        yield Task(DayStep.FEED, fed)
    yield Task(DayStep.CLOSE)


def _from_the_top(day: TurnDay, moving: Moving) -> list[str]:
    """The trays to be separated; of two on one place the upper one is set on top first."""
    lifts = with_set_on_top(moving, day.plan.separating).lifts[len(moving.lifts) :]
    return list(dict.fromkeys((*(lift.tray for lift in lifts), *day.plan.separating)))


def fed_tray(day: TurnDay) -> str | None:
    """The tray that is fed from this day on."""
    plan = day.plan
    if plan.comes_back_as is Stage.FEEDING:
        return plan.comes_back
    return next((t for t in reversed(plan.order) if plan.stages.get(t) is Stage.FEEDING), None)


def not_moved(day: TurnDay) -> bool:
    """Whether the trays were left as they stood: then nothing was turned."""
    return any(one.skipped and one.number is None for one in day.steps(DayStep.MOVE))


def _moves(day: TurnDay, moving: Moving) -> Iterator[Task]:
    spots = moving.spots(0)
    then = [tray for tray in day.plan.order if tray not in day.plan.separating]
    loosen = [tray for tray in then if tray in day.before]
    for number, lift in enumerate(moving.lifts, 1):
        if lift.target == STACK and spots.stack and spots.stack == tuple(then[: len(spots.stack)]):
            yield from _loosened(spots.stack[-1], loosen)
        yield Task(DayStep.MOVE, lift.tray, number, lift)
        spots = spots.after(lift)
    if spots.stack:
        yield from _loosened(spots.stack[-1], loosen)


def _loosened(tray: str, loosen: list[str]) -> Iterator[Task]:
    """The tray on top, if it is one to be loosened and was not yet."""
    if tray in loosen:
        loosen.remove(tray)
        yield Task(DayStep.LOOSEN, tray)


def _standing(task: Task, day: TurnDay, stack: Stack) -> Standing:
    """By its own entry where it has one; feeding and separating by what the journal says of the tray."""
    entry = next((e for e in day.done if (e.step, e.tray, e.number) == _key(task)), None)
    if entry is not None:
        return Standing.LEFT if entry.skipped else Standing.DONE
    if task.step is DayStep.MOVE:
        return Standing.LEFT if not_moved(day) else Standing.TO_COME
    if task.step is DayStep.LOOSEN and not_moved(day):
        return Standing.LEFT
    if task.step is DayStep.BRING:
        return _brought(day, stack)
    if task.step is DayStep.FEED and task.tray == day.plan.comes_back:
        return _fed_fresh(day, stack)
    if task.step is DayStep.FEED:
        return _fed(task, day, stack)
    if task.step in (DayStep.SET_ON_TOP, DayStep.SEPARATE):
        return _separated(task, day, stack)
    return Standing.TO_COME


def _fed(task: Task, day: TurnDay, stack: Stack) -> Standing:
    """By a feeding since the day began. Where nothing was turned there is no new tray to be fed."""
    tray = stack.tray(task.tray or "")
    fed_at = tray.last_fed_at if tray is not None else None
    if fed_at is not None and fed_at >= day.begun_at:
        return Standing.DONE
    gone = task.tray in day.before and (tray is None or not tray.on_stack)
    return Standing.LEFT if gone or not_moved(day) else Standing.TO_COME


def _brought(day: TurnDay, stack: Stack) -> Standing:
    """Whether the tray came back: fresh since the day began, or not at all where it was never emptied."""
    if not_moved(day) or any(one.skipped and one.number is None for one in day.steps(DayStep.BRING)):
        return Standing.LEFT
    if _fresh(day, stack):
        return Standing.DONE
    emptied = _separated(Task(DayStep.SEPARATE, day.plan.comes_back), day, stack)
    return Standing.LEFT if emptied is Standing.LEFT else Standing.TO_COME


def _fresh(day: TurnDay, stack: Stack) -> bool:
    tray = stack.tray(day.plan.comes_back or "")
    return tray is not None and tray.on_stack and tray.started_at >= day.begun_at


def _fed_fresh(day: TurnDay, stack: Stack) -> Standing:
    """The tray that came back is fed once it is there."""
    tray = stack.tray(day.plan.comes_back or "")
    if tray is not None and _fresh(day, stack) and tray.last_fed_at is not None:
        return Standing.DONE
    return Standing.LEFT if _brought(day, stack) is Standing.LEFT else Standing.TO_COME


def _key(task: Task) -> tuple[DayStep, str | None, int | None]:
    return task.step, task.tray, task.number


def _separated(task: Task, day: TurnDay, stack: Stack) -> Standing:
    """By its separation: under way, or over since the day began. What is not set on top is not separated."""
    on_top = task.step is DayStep.SET_ON_TOP
    if stack.separation(task.tray or "") is not None:
        return Standing.DONE if on_top else Standing.TO_COME
    if (over := _over_since(task, day, stack)) is not None:
        put_back = over.outcome is Outcome.PUT_BACK and not on_top
        return Standing.LEFT if put_back else Standing.DONE
    left = any(one.tray == task.tray and one.skipped for one in day.steps(DayStep.SET_ON_TOP))
    tray = stack.tray(task.tray or "")
    gone = tray is None or not tray.on_stack
    return Standing.LEFT if left or gone else Standing.TO_COME


def needs_hands(stack: Stack, day: TurnDay) -> Separation | None:
    """Of the separations of this day that are under way, the one that needs hands first.

    That is a step without a timer, then the one whose time ends first.
    """
    mine = [one for one in stack.separations if one.tray in day.plan.separating]
    return min(mine, key=_free_from, default=None)


def _free_from(one: Separation) -> float:
    ends = one.step.ends_at if one.step is not None else None
    return ends.timestamp() if ends is not None else 0.0


def _over_since(task: Task, day: TurnDay, stack: Stack) -> Separation | None:
    """Its last separation, where that ended on this day.

    One that ran when the day began must have; the others tell by their moments, and a clock set back spoils
    only the last.
    """
    past = [one for one in stack.past_separations if one.tray == task.tray]
    if not past:
        return None
    ran = day.stages_before.get(task.tray or "") is Stage.SEPARATING
    ended = past[-1].ended_at or past[-1].begun_at
    return past[-1] if ran or max(ended, past[-1].begun_at) >= day.begun_at else None
