"""The cautions of one piece of work, to be ticked before it begins."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.asking import must_read
from trayturn.advice.cautions import Caution, cautions_for
from trayturn.advice.links import page_for
from trayturn.domain.entries import CautionsRead
from trayturn.tui.ways import go
from trayturn.tui.widgets.answers import Answers, Tick
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.sheet import Sheet

if TYPE_CHECKING:
    from trayturn.tui.app import TrayturnApp

BEFORE = {
    "starting": "Before you start this bin",
    "feeding": "Before you feed this bin for the first time",
    "grit": "Before you handle grit",
    "turn": "Before you turn the stack",
}


class CautionsSheet(Sheet[bool]):
    """Space ticks line by line and then goes on. Gives True once all are ticked and that is on disk."""

    BINDINGS = [
        ("space", "go_on", "Tick"),
        ("enter", "why", "Why"),
        ("h", "handbook", "Handbook"),
        ("escape", "leave", "Leave"),
    ]
    DEFAULT_CSS = """
    CautionsSheet {
        Answers { height: auto; max-height: 10; }
        #about { height: 2; color: $wait; }
    }
    """

    def __init__(self, key: str, work: str) -> None:
        super().__init__(
            BEFORE.get(work, "Before you begin"),
            "Space ticks   Enter tells why   h opens the handbook   Esc leaves",
        )
        self.key, self.work = key, work
        self.cautions = cautions_for(work)

    def compose_body(self) -> ComposeResult:
        yield Answers(id="answers")

    def compose_foot(self) -> ComposeResult:
        yield Static(id="about")

    def on_mount(self) -> None:
        super().on_mount()
        answers = self.query_one(Answers)
        answers.ask([Tick(caution.code, caution.title, caution.to_do) for caution in self.cautions])
        self.set_focus(answers)
        self._show_about()

    @on(LineList.Marked)
    def _show_about(self) -> None:
        self.query_one("#about", Static).update(Content(self.query_one(Answers).marked_note()))

    @property
    def _marked(self) -> Caution:
        return self.cautions[self.query_one(Answers).marked]

    def action_why(self) -> None:
        caution = self._marked
        lines = [caution.to_do, "", caution.why, "", f"Source: {caution.source}"]
        self.app.push_screen(ReasonScreen(caution.title, lines, page_for(caution.code)))

    def action_handbook(self) -> None:
        go(self.house, "handbook", page_for(self._marked.code))

    def action_go_on(self) -> None:
        if self.query_one(Answers).tick_next():
            return
        codes = tuple(caution.code for caution in self.cautions)
        if self.house.save(self.key, [CautionsRead(at=self.house.now, work=self.work, codes=codes)]):
            self.dismiss(True)

    def action_leave(self) -> None:
        self.dismiss(False)


def read_first(house: TrayturnApp, key: str, work: str, then: Callable[[], None]) -> None:
    """Do it, after the cautions of that work have been ticked where they still have to be."""
    stack = house.shelf.stack(key)
    if stack is None:
        return
    if not must_read(stack, work, house.now):
        then()
        return

    def go_on(done: bool | None) -> None:
        if done:
            then()

    house.push_screen(CautionsSheet(key, work), go_on)
