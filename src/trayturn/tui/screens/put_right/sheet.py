"""One cause told whole, to be read and taken."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from trayturn.advice.trouble.parts import Cause
from trayturn.tui.widgets.reason import ReasonScreen


class CauseScreen(ReasonScreen):
    """Its reasons, remedies and what to expect. Space takes it, and closes."""

    BINDINGS = [("space", "take", "Take it")]

    def __init__(self, lines: Sequence[str], cause: Cause, take: Callable[[], None]) -> None:
        super().__init__(cause.title, lines, cause.page)
        self.keys = f"Space takes it   {self.keys}"
        self.take = take

    def action_take(self) -> None:
        self.dismiss(None)
        self.take()
