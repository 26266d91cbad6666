"""The cautions of one piece of work, to be ticked before it begins."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.asking import ONCE, must_read
from trayturn.advice.cautions import WORKS, Caution, cautions_for
from trayturn.advice.links import page_for
from trayturn.domain.entries import CautionsRead
from trayturn.tui.ways import go
from trayturn.tui.widgets.answers import Answers, Tick
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.sheet import Sheet

if TYPE_CHECKING:
    from trayturn.domain.stack import Stack
    from trayturn.tui.app import TrayturnApp

BEFORE = {
    "starting": "Before you start this bin",
    "feeding": "Before you feed this bin",
    "grit": "Before you handle grit",
    "turn": "Before you turn the stack",
}


TICKS, GOES_ON = "Space ticks", "All ticked: Space goes on"
KEYS = "Enter tells why   h opens the handbook   Esc leaves"


def title_of(work: str, stack: Stack | None) -> str:
    """What the sheet is before, and why it stands there where that work has been done before."""
    title = BEFORE.get(work, "Before you begin")
    if work not in ONCE or stack is None:
        return title
    if any(code in stack.cautions_read for code in _own(work)):
        return f"{title}: the cautions have changed since they were read"
    fed = stack.last_fed_at is not None
    return f"{title}: its cautions were not read here yet" if fed else f"{title} for the first time"


def _own(work: str) -> set[str]:
    """The cautions that no other work has: who read one of them has read this work's, and not another's."""
    others = {one.code for other in WORKS if other != work for one in cautions_for(other)}
    return {caution.code for caution in cautions_for(work)} - others


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

    def __init__(self, key: str, work: str, stack: Stack | None = None) -> None:
        super().__init__(title_of(work, stack), f"{TICKS}   {KEYS}")
        self.key, self.work = key, work
        self.cautions = cautions_for(work)

    def compose_body(self) -> ComposeResult:
        """The cautions to tick."""
        yield Answers(id="answers")

    def compose_foot(self) -> ComposeResult:
        """What to do about the marked one."""
        yield Static(id="about")

    def on_mount(self) -> None:
        """Put them, the first one marked."""
        super().on_mount()
        answers = self.query_one(Answers)
        answers.ask([Tick(caution.code, caution.title, caution.to_do) for caution in self.cautions])
        self.set_focus(answers)
        self._show_about()

    def on_answers_changed(self) -> None:
        """After the last tick Space goes on, and the keys say so."""
        does = GOES_ON if self.query_one(Answers).all_ticked else TICKS
        self.query_one("#sheet-keys", Static).update(Content(f"{does}   {KEYS}"))

    @on(LineList.Marked)
    def _show_about(self) -> None:
        self.query_one("#about", Static).update(Content(self.query_one(Answers).marked_note()))

    @property
    def _marked(self) -> Caution:
        return self.cautions[self.query_one(Answers).marked]

    def action_why(self) -> None:
        """The reason of the marked one, and its source."""
        caution = self._marked
        self.app.push_screen(ReasonScreen(caution.title, caution.story, page_for(caution.code)))

    def action_handbook(self) -> None:
        """The page behind the marked one."""
        go(self.house, "handbook", page_for(self._marked.code))

    def action_go_on(self) -> None:
        """Tick the next one; after the last, write down that all were read."""
        if self.query_one(Answers).tick_next():
            return
        codes = tuple(caution.code for caution in self.cautions)
        if self.house.save(self.key, [CautionsRead(at=self.house.now, work=self.work, codes=codes)]):
            self.dismiss(True)

    def action_leave(self) -> None:
        """Leave without the work."""
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

    house.push_screen(CautionsSheet(key, work, stack), go_on)
