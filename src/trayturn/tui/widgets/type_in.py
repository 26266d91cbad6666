"""One question with one line to type the answer in."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, Static

from trayturn.domain.words import clean
from trayturn.tui.widgets.line_input import LineInput
from trayturn.tui.widgets.sheet import Sheet


class TypeIn(Sheet[str | None]):
    """Asks one thing. `check` returns what is wrong with the answer in one sentence, or None.

    Enter gives the text as typed, Escape gives None. What is wrong is said under the line, and nothing typed
    is lost.
    """

    BINDINGS = [("escape", "leave", "Leave")]
    DEFAULT_CSS = """
    TypeIn #wrong { color: $text-error; height: auto; min-height: 1; }
    """

    def __init__(
        self,
        question: str,
        value: str = "",
        hint: str = "",
        check: Callable[[str], str | None] | None = None,
    ) -> None:
        super().__init__(question, "Enter keeps it   Esc leaves")
        self.value, self.hint, self.check = value, hint, check

    def compose_body(self) -> ComposeResult:
        yield LineInput(self.value, self.hint, id="answer")
        yield Static(id="wrong")

    def on_input_changed(self, event: Input.Changed) -> None:
        """What was wrong is no longer said once it is being put right."""
        self.query_one("#wrong", Static).update()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        trouble = self.check(event.value) if self.check else None
        if trouble is None:
            self.dismiss(event.value)
        else:
            self.query_one("#wrong", Static).update(Content(clean(trouble)))

    def action_leave(self) -> None:
        self.dismiss(None)
