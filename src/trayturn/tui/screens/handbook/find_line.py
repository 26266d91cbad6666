"""The line to type words in, above the list of pages."""

from __future__ import annotations

from textual import events
from textual.binding import Binding
from textual.message import Message

from trayturn.tui.widgets.line_input import LineInput


class FindLine(LineInput):
    """What is typed narrows the list at once. Up and down move its mark meanwhile, Escape clears it."""

    BINDINGS = [
        Binding("up", "mark(-1)", "Up", show=False),
        Binding("down", "mark(1)", "Down", show=False),
        Binding("enter", "submit", "Read", key_display="Enter"),
        Binding("escape", "give_up", "Clear", key_display="Esc"),
    ]

    class Moved(Message):
        """The mark of the list is to move."""

        def __init__(self, by: int) -> None:
            super().__init__()
            self.by = by

    class GivenUp(Message):
        """The words were taken back."""

    def action_mark(self, by: int) -> None:
        self.post_message(self.Moved(by))

    def action_give_up(self) -> None:
        self.value = ""
        self.post_message(self.GivenUp())

    def on_focus(self, event: events.Focus) -> None:
        self.action_end()
