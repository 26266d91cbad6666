"""The list of small life to tick, each with what it means."""

from __future__ import annotations

from collections.abc import Collection

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.checking.pests import KNOWN, WORDS
from trayturn.advice.pages import Page
from trayturn.domain.entries import Pest
from trayturn.tui.ways import go
from trayturn.tui.widgets.answers import Answers, Tick
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.sheet import Sheet


class PestSheet(Sheet[tuple[Pest, ...] | None]):
    """Space ticks the marked one or takes its tick away; Enter is done and gives what is ticked."""

    BINDINGS = [
        ("space", "tick", "Tick"),
        ("enter", "done", "Done"),
        ("h", "handbook", "Handbook"),
        ("escape", "leave", "Leave"),
    ]
    DEFAULT_CSS = """
    PestSheet {
        Answers { height: 12; scrollbar-size-vertical: 0; }
        #about { height: 4; color: $wait; }
    }
    """

    def __init__(self, ticked: Collection[Pest]) -> None:
        super().__init__(
            "What was seen besides worms", "Space ticks   Enter done   h handbook   Esc leaves it as it was"
        )
        self.ticked = frozenset(ticked)

    def compose_body(self) -> ComposeResult:
        yield Answers(id="answers")

    def compose_foot(self) -> ComposeResult:
        yield Static(id="about")

    def on_mount(self) -> None:
        super().on_mount()
        answers = self.query_one(Answers)
        answers.ask([_row(pest, pest in self.ticked) for pest in Pest])
        self.set_focus(answers)
        self._show_about()

    @on(LineList.Marked)
    def _show_about(self) -> None:
        self.query_one("#about", Static).update(Content(self.query_one(Answers).marked_note()))

    def action_tick(self) -> None:
        answers = self.query_one(Answers)
        row = answers.answers[answers.marked]
        if isinstance(row, Tick):
            answers.put(row.stepped(-1 if row.ticked else 1))

    def action_done(self) -> None:
        rows = self.query_one(Answers).answers
        self.dismiss(tuple(Pest(row.key) for row in rows if isinstance(row, Tick) and row.ticked))

    def action_handbook(self) -> None:
        go(self.house, "handbook", Page.PESTS)

    def action_leave(self) -> None:
        self.dismiss(None)


def _row(pest: Pest, ticked: bool) -> Tick:
    known = KNOWN[pest]
    return Tick(pest, str(pest).capitalize(), f"{WORDS[known.level]}: {known.what} {known.do}", ticked)
