"""A turn day as a state machine: what each move writes to the journal, and what takes it back.

The state is the journal's own, as in a separation. Every function takes the stack and the moment and returns
the entries to save together. They are dated no earlier than anything in the journal, so that a clock set back
in the middle of the day cannot stand a later step before an earlier one. The entry of the step itself stands
last: what goes with it is found before it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from trayturn.advice.turn_day.plan import turn_of
from trayturn.advice.turn_day.tasks import DayView, Task, view_day
from trayturn.domain.entries import (
    Amount,
    Checked,
    DayOutcome,
    DayStep,
    DayStepDone,
    Entry,
    Feel,
    Stage,
    TrayStarted,
    TurnDayBegun,
    TurnDayEnded,
    Turned,
)
from trayturn.domain.stack import Stack
from trayturn.domain.words import listed
from trayturn.procedure import separation

GOES_WITH: Mapping[DayStep, tuple[type[Entry], ...]] = {
    DayStep.LOOK: (Checked, TrayStarted, Turned),
    DayStep.MOVE: (TrayStarted, Turned),
    DayStep.BRING: (TrayStarted,),
}
"""What a step of the day may write beside its own entry."""


@dataclass(frozen=True, slots=True)
class Look:
    """What is seen with the lid off: the sump in litres, strays, how the lowest tray feels, and the smell."""

    sump_l: float | None = None
    strays: Amount | None = None
    bottom: Feel | None = None
    smell: str = ""


def looked(stack: Stack, look: Look, now: datetime) -> list[Entry]:
    """The readings that were taken, and the step."""
    at = moment(stack, now)
    entries: list[Entry] = []
    if look.sump_l is not None or look.strays is not None or look.smell:
        entries.append(Checked(at=at, sump_l=look.sump_l, strays=look.strays, smell=look.smell))
    if look.bottom is not None and stack.trays:
        entries.append(Checked(at=at, tray=stack.trays[0].id, feel=look.bottom))
    return [*entries, *done(stack, now)]


def done(stack: Stack, now: datetime) -> list[Entry]:
    """The task that is next is done. With the last lift the turn itself stands."""
    view = view_day(stack)
    if view is None or view.now is None:
        return []
    task = view.now
    if task.step is DayStep.CLOSE:
        return [TurnDayEnded(at=moment(stack, now))]
    if task.step is DayStep.SET_ON_TOP:
        return separation.begin(task.tray or "", moment(stack, now))
    step = DayStepDone(at=moment(stack, now), step=task.step, tray=task.tray, number=task.number)
    if task.step is DayStep.BRING:
        return [*_brought(view, task, step.at), step]
    turn = turn_of(stack, view.day.plan, step.at) if _stands_with(view, task) else []
    return [*turn, step]


def _brought(view: DayView, task: Task, at: datetime) -> list[Entry]:
    """The tray that comes back fresh, once the last lift for it is done."""
    plan = view.day.plan
    if task.number != len(view.bringing.lifts) or plan.comes_back is None:
        return []
    stage: Literal["bedding", "feeding"] = "feeding" if plan.comes_back_as is Stage.FEEDING else "bedding"
    return [TrayStarted(at=at, tray=plan.comes_back, bedding_kg=dict(plan.bedding_kg), stage=stage)]


def why_not_left(stack: Stack) -> str:
    """Why the task that is next cannot be left undone: trays stand beside the stack. Empty where it can."""
    view = view_day(stack)
    task = view.now if view is not None else None
    if view is None or task is None or task.step not in (DayStep.MOVE, DayStep.BRING) or not view.lifted:
        return ""
    one = len(view.beside) == 1
    there = f"Tray {view.beside[0]} stands" if one else f"Trays {listed(view.beside)} stand"
    return f"{there} beside the stack. Space goes on, b goes back lift by lift."


def left_undone(stack: Stack, now: datetime, reason: str = "") -> list[Entry]:
    """The task that is next is left undone, perhaps for a reason. At a lift that is all moving that is left.

    The journal then has the stack as it stood: a tray cannot be half lifted in it.
    """
    view = view_day(stack)
    if view is None or view.now is None:
        return []
    task = view.now
    tray = None if task.step in (DayStep.MOVE, DayStep.BRING) else task.tray
    step = DayStepDone(at=moment(stack, now), step=task.step, tray=tray, skipped=True, note=reason)
    if task.step is DayStep.CLOSE:
        return [step, TurnDayEnded(at=step.at)]
    nothing_to_lift = _stands_with(view, task) and task.step is DayStep.LOOK
    turn = turn_of(stack, view.day.plan, step.at) if nothing_to_lift else []
    return [*turn, step]


def _stands_with(view: DayView, task: Task) -> bool:
    """Whether the trays stand as planned once this task is done: after the last lift, or with none to do."""
    if not view.moving.lifts:
        return task.step is DayStep.LOOK
    return task.step is DayStep.MOVE and task.number == len(view.moving.lifts)


def leave(stack: Stack, now: datetime) -> list[Entry]:
    """Give the day up as it stands. A separation under way goes on."""
    if stack.turn_day is None:
        return []
    return [TurnDayEnded(at=moment(stack, now), outcome=DayOutcome.LEFT)]


def moment(stack: Stack, now: datetime) -> datetime:
    """Now, but never before what is written already."""
    return max(now, stack.as_of)


def moment_on(stack: Stack, now: datetime) -> datetime:
    """The moment of work done on a turn day; otherwise simply now.

    A meal by a clock that was set back would stand before the day, and before the tray that it brought in.
    """
    return now if stack.turn_day is None else moment(stack, now)


def written_with(acts: Sequence[Entry]) -> list[Entry]:
    """The last step of a turn day with what was written with it, newest first; empty where it is none."""
    last = acts[-1] if acts else None
    if isinstance(last, TurnDayBegun):
        return [last]
    if isinstance(last, TurnDayEnded):
        before = acts[-2] if len(acts) > 1 else None
        closing = isinstance(before, DayStepDone) and (before.step, before.at) == (DayStep.CLOSE, last.at)
        return [last, before] if closing and before is not None else [last]
    if not isinstance(last, DayStepDone):
        return []
    taken: list[Entry] = [last]
    for entry in reversed(acts[:-1]):
        if not isinstance(entry, GOES_WITH.get(last.step, ())) or entry.at != last.at:
            break
        taken.append(entry)
    return taken
