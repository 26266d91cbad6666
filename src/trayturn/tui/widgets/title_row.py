"""The first line of every screen: where you are, and how the bin is."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.timer import Timer
from textual.widgets import Static

SAID_FOR = 6.0
"""Seconds that what was just done stays in sight."""


class TitleRow(Horizontal):
    """The place on the left, a few facts after it, and on the right what was just done."""

    _quiet: Timer | None = None

    DEFAULT_CSS = """
    TitleRow {
        dock: top;
        height: 1;
        padding: 0 1;
        background: $title-ground;
        color: $on-title;
        & > Static { text-wrap: nowrap; text-overflow: ellipsis; height: 1; }
        #where { width: 1fr; }
        #said { width: auto; max-width: 75%; color: $wait; text-style: bold; }
    }
    """

    def compose(self) -> ComposeResult:
        yield Static(id="where")
        yield Static(id="said")

    def show(self, place: str, *facts: str) -> None:
        """Draw the place in bold and the facts that there are after it."""
        rest = "".join(
            f"  ·  {fact}" if not getattr(self.app, "ascii", False) else f"  |  {fact}"
            for fact in facts
            if fact
        )
        self.query_one("#where", Static).update(Content.assemble((place, "bold"), rest))

    def say(self, words: str) -> None:
        """Show for a few seconds what was just done, over nothing that is being read."""
        said = self.query_one("#said", Static)
        said.update(Content(words))
        if self._quiet is not None:
            self._quiet.stop()
        self._quiet = self.set_timer(SAID_FOR, lambda: said.update(Content("")))
