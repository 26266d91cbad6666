"""What a new bin is led to from its stack: the plan, its first tray, and the looks of its first weeks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from trayturn.advice.due import due_list
from trayturn.tui.screens.stack import recording
from trayturn.tui.screens.stack.watch import WatchScreen
from trayturn.tui.ways import go

if TYPE_CHECKING:
    from trayturn.tui.app import TrayturnApp


def start(house: TrayturnApp, key: str) -> None:
    """The plan for a bin without a tray; for one that has some, another tray."""
    stack = house.shelf.stack(key)
    if stack is not None and not stack.trays:
        go(house, "begin", key)
    else:
        recording.start_tray(house, key)


def look(house: TrayturnApp, key: str) -> None:
    """The look whose turn it is, if there is one."""
    stack = house.shelf.stack(key)
    looks = [due for due in due_list(stack) if due.kind == "watch"] if stack is not None else []
    if looks:
        house.push_screen(WatchScreen(key, looks[0]))
