"""Starting a bin: the plan in plain sentences, and Space writes down one piece of it after the other."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.pages import Page
from trayturn.advice.starting import next_work, starting_plan
from trayturn.advice.starting_steps import PlanStep, plan_steps
from trayturn.domain.words import clean
from trayturn.tui.commands import BEGIN, bindings
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.begin.rows import OF_WORK, step_rows
from trayturn.tui.screens.cautions.sheet import read_first
from trayturn.tui.screens.stack import acts, recording
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.title_row import TitleRow

WIDE, WHY = 120, 48
"""From how many columns the window is wide, and how many the reasons then take."""
NEXT = {
    "tray": "Soak the bedding and fill the first tray. Space writes it down.",
    "worms": "Put the worms in. Space writes it down.",
    "meal": "Give them a small first meal. Space writes it down.",
}
BEGUN = "It is begun. Cover it, leave a light on, look in when Due says so. Space leads back to the stack."
GONE = "Put its file back, and this screen goes on from it. Esc leads back."


class BeginScreen(BinFrame):
    """The steps on the left, the reasons of the marked one behind Enter; from 120 columns beside it."""

    PLACE = BEGIN
    BINDINGS = bindings(BEGIN)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str) -> None:
        super().__init__(key)
        self.steps: tuple[PlanStep, ...] = ()
        self._led_to: str | None = None
        """The step that the mark was led to last. The keeper may have moved it since."""

    def compose_body(self) -> ComposeResult:
        with Horizontal(classes="body"):
            with Vertical(id="plan"):
                yield Static(id="next")
                yield LineList(row_height=0, id="steps")
            yield Static(id="why")

    def on_mount(self) -> None:
        self.query_one(LineList).focus()

    @property
    def work(self) -> str | None:
        """What the bin waits for: its first tray, its worms, its first meal, or nothing more."""
        return next_work(self.stack) if self.stack is not None else None

    def show(self, key: str) -> None:
        """Draw the plan with what is done of it; the mark goes on to what is next."""
        if key not in ("", self.key):
            return
        stack = self.stack
        self.steps = plan_steps(starting_plan(stack), stack) if stack is not None else ()
        self.query_one(TitleRow).show(f"Starting {clean(stack.setup.name, 40)}" if stack else self.key)
        self.put("#next", GONE if stack is None else NEXT.get(self.work or "", BEGUN))
        self._show_steps()
        self._mark_next()
        self.refresh_bindings()

    def _show_steps(self) -> None:
        beside = WHY if self.size.width >= WIDE else 0
        self.query_one(LineList).show(step_rows(self.steps, self.work, self.size.width - beside - 1))

    def on_resize(self) -> None:
        super().on_resize()
        self._show_steps()

    def _mark_next(self) -> None:
        codes = [step.code for step in self.steps]
        first = next(iter(OF_WORK.get(self.work or "", ("cover",))))
        if first in codes and first != self._led_to:
            self._led_to = first
            self.query_one(LineList).marked = codes.index(first)
        self._show_why()

    @property
    def marked(self) -> PlanStep | None:
        """The marked step."""
        code = self.query_one(LineList).marked_key
        return next((step for step in self.steps if step.code == code), None)

    @property
    def marked_page(self) -> Page | None:
        """The page of the handbook behind the marked step."""
        return self.marked.page if self.marked is not None else None

    @on(LineList.Marked)
    def _show_why(self) -> None:
        step = self.marked
        lines = [step.what, *(line for why in step.why for line in ("", why))] if step is not None else []
        self.query_one("#why", Static).update(Content("\n".join(lines)))

    @on(LineList.Opened)
    def action_open(self) -> None:
        """Enter: why the marked step is as it is."""
        if (step := self.marked) is not None:
            told = [step.what, *(line for why in step.why for line in ("", why))]
            self.app.push_screen(ReasonScreen(step.title, told, step.page))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        loaded = self.house.shelf.loaded.get(self.key) if self.is_mounted else None
        if action in ("go_on", "undo") and self.is_mounted:
            return True if self.stack is not None and loaded is not None and not loaded.read_only else None
        return True

    def action_go_on(self) -> None:
        """Space: write down what is next, its cautions read first; once all is begun, back to the stack."""
        house, key = self.house, self.key
        if self.work == "tray":
            read_first(house, key, "starting", lambda: recording.start_tray(house, key))
        elif self.work == "worms":
            recording.worms(house, key)
        elif self.work == "meal":
            acts.feed(house, key, None)
        else:
            self.action_leave()
