"""A look in the first weeks: what to look for, and one key for having looked."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.due import Due
from trayturn.advice.pages import Page
from trayturn.domain.entries import Done
from trayturn.domain.words import clean
from trayturn.tui.ways import go
from trayturn.tui.widgets.sheet import Sheet

KEYS = (
    "Space: looked, and all is well   k: write readings down\n"
    "o: put something right   h: the handbook   Esc: not now"
)


class WatchScreen(Sheet[None]):
    """Space marks the look done; readings written down count as the look too."""

    BINDINGS = [
        ("space", "done", "Looked"),
        ("k", "check", "Check"),
        ("o", "put_right", "Put right"),
        ("h", "handbook", "Handbook"),
        ("escape,enter,q", "close", "Not now"),
        ("up", "scroll(-1)", "Up"),
        ("down", "scroll(1)", "Down"),
    ]

    def __init__(self, key: str, due: Due) -> None:
        super().__init__(due.what, KEYS)
        self.key, self.due = key, due

    def compose_body(self) -> ComposeResult:
        told = [line for why in self.due.why for line in (clean(why), "")]
        yield Static(Content("\n".join(told[:-1])), id="look")

    def action_done(self) -> None:
        done = Done(at=self.house.now, item=self.due.item)
        if self.house.save(self.key, [done], "Looked. u takes it back"):
            self.dismiss(None)

    def action_check(self) -> None:
        self.dismiss(None)
        go(self.house, "check", self.key)

    def action_put_right(self) -> None:
        self.dismiss(None)
        go(self.house, "put_right", self.key)

    def action_handbook(self) -> None:
        self.dismiss(None)
        go(self.house, "handbook", self.due.page or Page.STARTING)

    def action_close(self) -> None:
        self.dismiss(None)

    def action_scroll(self, by: int) -> None:
        self.query_one("#sheet-body").scroll_relative(y=by, animate=False)
