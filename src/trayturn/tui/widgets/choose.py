"""A sheet of a few choices, one a row: Enter takes the marked one, Esc none."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on
from textual.app import ComposeResult

from trayturn.domain.words import clean
from trayturn.tui.widgets.line_list import LineList, Row
from trayturn.tui.widgets.sheet import Sheet

Choice = tuple[str, str, str]
"""What a choice gives, what it is called, and a few words after it."""


class Choose(Sheet[str | None]):
    """Gives the key of the choice that was taken, or None."""

    BINDINGS = [("enter,space", "take", "Take"), ("escape", "leave", "Leave")]
    DEFAULT_CSS = """
    Choose LineList { height: auto; max-height: 14; }
    """

    def __init__(self, title: str, choices: Sequence[Choice]) -> None:
        super().__init__(title, "Enter takes the marked one   Esc leaves")
        self.choices = tuple(choices)

    def compose_body(self) -> ComposeResult:
        yield LineList(id="choices")

    def on_mount(self) -> None:
        super().on_mount()
        width = max((len(clean(name)) for _, name, _ in self.choices), default=0) + 3
        rows = [
            Row((((f"{clean(name):<{width}}", "plain"), (clean(more), "muted")),), key)
            for key, name, more in self.choices
        ]
        choices = self.query_one(LineList)
        choices.show(rows)
        self.set_focus(choices)

    @on(LineList.Opened)
    def action_take(self) -> None:
        self.dismiss(self.query_one(LineList).marked_key or None)

    def action_leave(self) -> None:
        self.dismiss(None)
