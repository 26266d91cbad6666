"""The reason behind something shown: a title and plain lines, to read and close again."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.pages import Page
from trayturn.domain.words import clean
from trayturn.tui.ways import go
from trayturn.tui.widgets.sheet import Sheet


class ReasonScreen(Sheet[None]):
    """Wrapped lines that scroll. An empty line parts paragraphs; the text can be marked with the mouse."""

    BINDINGS = [
        ("escape,enter,space,q", "close", "Close"),
        ("up", "scroll(-1)", "Up"),
        ("down", "scroll(1)", "Down"),
        ("pageup", "scroll(-10)", "Ten up"),
        ("pagedown", "scroll(10)", "Ten down"),
        ("h", "handbook", "Handbook"),
    ]

    def __init__(self, title: str, lines: Sequence[str], page: Page | None = None) -> None:
        super().__init__(title, "Esc or Enter closes" + ("   h opens the handbook at it" if page else ""))
        self.lines = tuple(clean(line) for line in lines)
        self.page = page

    def compose_body(self) -> ComposeResult:
        yield Static(Content("\n".join(self.lines)), id="reason")

    def action_close(self) -> None:
        self.dismiss(None)

    def action_handbook(self) -> None:
        """The page of the handbook behind this reason, in its place."""
        if self.page is not None:
            self.dismiss(None)
            go(self.house, "handbook", self.page)

    def action_scroll(self, by: int) -> None:
        self.query_one("#sheet-body").scroll_relative(y=by, animate=False)
