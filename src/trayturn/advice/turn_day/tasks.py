"""A turn day under way: all its tasks in order, which are done, and which one is next."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from trayturn.advice.turn_day.moving import STACK, Lift, Moving, moving_of
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
        return 0 < self.lifts_done < len(self.moving.lifts)

    def of(self, step: DayStep) -> tuple[Task, ...]:
        return tuple(task for task in self.tasks if task.step is step)


def view_day(stack: Stack) -> DayView | None:
    """The turn day under way; None when there is none."""
    day = stack.turn_day
    if day is None:
        return None
    moving = moving_of(day.before, day.stages_before, day.plan, stack.setup)
    tasks = [replace(task, standing=_standing(task, day, stack)) for task in _tasks(day, moving)]
    first = next((n for n, task in enumerate(tasks) if task.open), None)
    if first is not None:
        tasks[first] = replace(tasks[first], standing=Standing.NOW)
    return DayView(day, moving, tuple(tasks))


def _tasks(day: TurnDay, moving: Moving) -> Iterator[Task]:
    """Look, then lift by lift, each tray loosened while nothing stands on it; then feed, separate, close."""
    yield Task(DayStep.LOOK)
    yield from _moves(day, moving)
    if (fed := fed_tray(day)) is not None:
        yield Task(DayStep.FEED, fed)
    separating = day.plan.separating
    yield from (Task(DayStep.SET_ON_TOP, tray) for tray in separating)
    yield from (Task(DayStep.SEPARATE, tray) for tray in separating)
    yield Task(DayStep.CLOSE)


def fed_tray(day: TurnDay) -> str | None:
    """The tray that is fed from this day on."""
    return next((t for t in reversed(day.plan.order) if day.plan.stages.get(t) is Stage.FEEDING), None)


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
