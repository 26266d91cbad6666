"""The places beside the bin in the middle of the lifts: which trays stand there, drawn as piles."""

from __future__ import annotations

from textual.content import Content

from trayturn.advice.turn_day.moving import Spots
from trayturn.advice.turn_day.tasks import DayView
from trayturn.domain.entries import DayStep
from trayturn.domain.words import clean

WIDTH = 15
"""Columns of one place."""


def piles(view: DayView | None, columns: int, *, ascii_only: bool) -> Content:
    """Each place with what stands on it, and a mark at the tray that is lifted next.

    Empty once all is moved, before anything was, and where the places do not fit beside each other.
    """
    if view is None or not view.beside:
        return Content("")
    spots = view.spots
    if len(spots.places) * WIDTH > columns:
        return Content("")
    high = max(1, *(len(pile) for pile in spots.places))
    rows = [_row(spots, level, view, ascii_only) for level in range(high - 1, -1, -1)]
    names = "".join(f"{f' place {n}':<{WIDTH}}" for n in range(1, len(spots.places) + 1))
    return Content("\n").join([*rows, Content.styled(names.rstrip(), "$quiet")])


def _row(spots: Spots, level: int, view: DayView, ascii_only: bool) -> Content:
    """The trays of all places on one level."""
    return Content("").join(
        _cell(pile[level], view, ascii_only) if level < len(pile) else _nothing(level)
        for pile in spots.places
    )


def _nothing(level: int) -> Content:
    return Content.styled(f"{'nothing' if level == 0 else '':<{WIDTH}}", "$quiet")


def _cell(tray: str, view: DayView, ascii_only: bool) -> Content:
    task = view.now
    lifted = task is not None and task.step in (DayStep.MOVE, DayStep.BRING, DayStep.SET_ON_TOP)
    next_up = lifted and task is not None and task.tray == tray
    mark = (">" if ascii_only else "▸") if next_up else " "
    name = f"[{clean(tray, WIDTH - 4)}]"
    return Content.styled(f"{mark}{name:<{WIDTH - 1}}", "bold $act" if next_up else "$foreground")
