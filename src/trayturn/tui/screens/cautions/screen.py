"""The cautions: what to mind, each with its reason and its source."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Container
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.cautions import CAUTIONS, WORK_WORDS, Caution, cautions_for
from trayturn.advice.links import page_for
from trayturn.advice.pages import Page
from trayturn.domain.words import day
from trayturn.tui.commands import CAUTIONS as PLACE_NAME
from trayturn.tui.commands import bindings
from trayturn.tui.frame import Frame
from trayturn.tui.widgets.line_list import LineList, Row, Span
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.title_row import TitleRow


class CautionsScreen(Frame):
    """Every caution, or those before one kind of work. With a bin's key it tells which were read for it.

    What to do stands under the list; Enter opens the reason and the source, and from 120 columns they stand
    beside.
    """

    PLACE = PLACE_NAME
    BINDINGS = bindings(PLACE_NAME)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str | None = None, work: str | None = None) -> None:
        super().__init__()
        self.key, self.work = key, work
        self.cautions = cautions_for(work) if work else CAUTIONS

    def compose_body(self) -> ComposeResult:
        """The list, and what is to be known of the marked one."""
        with Container(classes="body"):
            yield LineList(id="cautions")
            yield Static(id="caution")

    def show(self, key: str) -> None:
        """Draw them as they were read."""
        before = f"before {WORK_WORDS[self.work]}" if self.work else "all of them"
        self.query_one(TitleRow).show("Cautions", before, "Enter tells reason and source")
        self.query_one(LineList).show([self._row(caution) for caution in self.cautions])
        self._show_marked()

    def _row(self, caution: Caution) -> Row:
        read = self._read(caution)
        spans: list[Span] = [(f"{caution.title:<36}", "strong")]
        if self.key is not None:
            spans = [("[x] " if read else "[ ] ", "fine" if read else "muted"), *spans]
            spans.append((f"read {read}" if read else "", "muted"))
        return Row((tuple(spans),), caution.code)

    def _read(self, caution: Caution) -> str:
        """When it was last read for the bin, in words; empty when it was not."""
        stack = self.house.shelf.stack(self.key) if self.key else None
        at = stack.cautions_read.get(caution.code) if stack is not None else None
        return day(at, self.house.now) if at is not None else ""

    @on(LineList.Marked)
    def _show_marked(self) -> None:
        caution = self._marked
        lines = caution.story if caution is not None else []
        self.query_one("#caution", Static).update(Content("\n".join(lines)))

    @property
    def _marked(self) -> Caution | None:
        key = self.query_one(LineList).marked_key
        return next((caution for caution in self.cautions if caution.code == key), None)

    @on(LineList.Opened)
    def action_open(self) -> None:
        """Enter: the reason and the source."""
        if (caution := self._marked) is not None:
            self.app.push_screen(ReasonScreen(caution.title, caution.story, page_for(caution.code)))

    @property
    def marked_page(self) -> Page | None:
        """The page of the marked caution, else of all."""
        return page_for(caution.code) if (caution := self._marked) is not None else Page.CAUTIONS
