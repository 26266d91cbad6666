"""The stack in the middle of the lifts: what stands on it now, as trays to be drawn."""

from __future__ import annotations

from dataclasses import replace

from textual.content import Content

from trayturn.advice.feeding import feed_next
from trayturn.advice.turn_day.moving import STACK
from trayturn.advice.turn_day.tasks import DayView, Standing, fed_tray, not_moved
from trayturn.advice.turn_day.telling import step_lines
from trayturn.domain.entries import DayStep, Stage
from trayturn.domain.stack import Stack, TrayState
from trayturn.tui.widgets.stack_drawing import picture_of
from trayturn.tui.widgets.stack_drawing.picture import StackPicture

MARKS = {
    False: {Standing.DONE: "✓", Standing.LEFT: "–", Standing.NOW: "▸", Standing.TO_COME: "·"},
    True: {Standing.DONE: "x", Standing.LEFT: "-", Standing.NOW: ">", Standing.TO_COME: "."},
}
LOOKS = {
    Standing.DONE: "$quiet",
    Standing.LEFT: "$quiet",
    Standing.NOW: "bold $act",
    Standing.TO_COME: "$foreground",
}


def picture_now(stack: Stack, view: DayView | None) -> StackPicture:
    """The stack at this moment: open while trays are moved, with the one to lift off next raised."""
    task = view.now if view is not None else None
    fed = feed_next(stack).tray
    if view is not None and not not_moved(view.day):
        fed = fed_tray(view.day) if view.moved else None
    picture = picture_of(standing_now(stack, view), fed)
    if task is None or task.step not in (DayStep.MOVE, DayStep.LOOSEN, DayStep.BRING):
        return picture
    lifted = task.tray if task.lift is not None and task.lift.source == STACK else None
    trays = tuple(replace(tray, lifted=tray.id == lifted) for tray in picture.trays)
    return replace(picture, trays=trays, has_lid=False, has_sheet=False)


def standing_now(stack: Stack, view: DayView | None) -> Stack:
    """The stack with the trays that stand on it at this moment of the day."""
    if view is None or (view.moved and not view.beside):
        return stack
    ids = view.spots.stack
    trays = [_tray(stack, tray_id, level) for level, tray_id in enumerate(ids, 1)]
    return replace(stack, trays=tuple(trays))


def _tray(stack: Stack, tray_id: str, level: int) -> TrayState:
    """A tray on its level of the moment; a fresh one is bedding that has just come in."""
    known = stack.tray(tray_id)
    if known is not None and known.on_stack:
        return replace(known, level=level)
    return fresh_tray(stack, tray_id, level)


def fresh_tray(stack: Stack, tray_id: str, level: int = 1) -> TrayState:
    """A tray of bedding that has just come in."""
    now = stack.as_of
    return TrayState(tray_id, Stage.BEDDING, level, now, now, 0.0, 0.0, stack.setup.tray_empty_kg)


def step_list(view: DayView | None, ended: bool, ascii_only: bool) -> Content:
    """The steps of the day, each with a mark and a word where it is not plain."""
    if view is None:
        return Content(" The day is over." if ended else "")
    lines = []
    for number, line in enumerate(step_lines(view), 1):
        words = f"  {line.so_far}" if line.so_far else ""
        words += ", undone" if line.standing is Standing.LEFT else ""
        text = f" {MARKS[ascii_only][line.standing]} {number} {line.title}{words}"
        lines.append(Content.styled(text, LOOKS[line.standing]))
    return Content("\n").join(lines)
