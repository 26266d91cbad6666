"""Supplies: what is in stock, what goes, how long it lasts, and what to gather by when."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.pages import Page
from trayturn.advice.stock import Outlook, outlooks, reasons, story
from trayturn.advice.stock.words import state_word
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, count
from trayturn.tui.commands import SUPPLIES, bindings
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.supplies.rows import heading, supply_rows
from trayturn.tui.screens.supplies.sheet import SupplySheet
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.title_row import TitleRow

NOTHING_YET = (
    "Nothing is in stock by the journal yet.",
    "",
    "Bedding, grit, meal or coffee grounds will stand here: how much there is, what goes in a week, "
    "how long it lasts, and what the next turn needs. Feedings and fresh trays draw on it by themselves.",
    "",
    "Space writes down the first: what came in, or what you counted.",
)
ANOTHER_WORDS = ("Space opens a form for any supply by name, or for several at once.",)
HINT = "   Space came in   - used   Enter why"


class SuppliesScreen(BinFrame):
    """A table of supplies, and the story of the marked one. Space writes down what came in, or a count."""

    PLACE = SUPPLIES
    BINDINGS = bindings(SUPPLIES)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str) -> None:
        super().__init__(key)
        self.found: dict[str, Outlook] = {}

    def compose_body(self) -> ComposeResult:
        with Container(classes="body"):
            with Vertical(id="table"):
                yield Static(Content(heading()), id="heading")
                yield LineList(id="supplies")
            with Vertical(id="aside"):
                yield Static(id="name")
                yield Static(id="supply")

    def on_mount(self) -> None:
        self.query_one(LineList).focus()

    def on_resize(self) -> None:
        super().on_resize()
        self._show_marked()

    def show(self, key: str) -> None:
        if key not in ("", self.key):
            return
        stack = self.stack
        self.found = {one.code: one for one in outlooks(stack)} if stack is not None else {}
        self.query_one("#table").display = stack is not None
        self.query_one("#name").display = stack is not None
        if stack is None:
            self._show_absence()
        else:
            self._show_supplies(stack)
        self.refresh_bindings()

    def _show_absence(self) -> None:
        reading = self.house.reading
        self.query_one(TitleRow).show(self.key, "reading" if reading else "cannot be read")
        self.put(
            "#supply", "" if reading else "Esc leads back; there the bin says what is wrong with its file."
        )

    def _show_supplies(self, stack: Stack) -> None:
        found = list(self.found.values())
        rows = supply_rows(found, stack.as_of, stack.setup.units, ascii_only=self.house.ascii)
        self.query_one(LineList).show(rows)
        short = sum(1 for one in found if one.short)
        unknown = sum(1 for one in found if state_word(one) == "count it")
        facts = [f"{short} short" if short else "", f"{unknown} to be counted" if unknown else ""]
        title = f"Supplies of {clean(stack.setup.name, 40)}"
        self.query_one(TitleRow).show(title, count(len(found), "supply", "supplies"), *facts)
        self._show_marked()

    @property
    def marked(self) -> Outlook | None:
        """The marked supply; None on the row for another."""
        return self.found.get(self.query_one(LineList).marked_key)

    @property
    def marked_page(self) -> Page | None:
        return Page.SUPPLIES

    @on(LineList.Marked)
    def _show_marked(self) -> None:
        stack, one = self.stack, self.marked
        if stack is None:
            return
        name = clean(one.name, 60) if one is not None else "Another supply"
        self.query_one("#name", Static).update(Content.assemble(name, (HINT, "not bold")))
        told = _told(one, stack, self.wide) if one is not None else self._about_any()
        self.query_one("#supply", Static).update(told)

    def _about_any(self) -> Content:
        return Content("\n".join(ANOTHER_WORDS if self.found else NOTHING_YET))

    @on(LineList.Opened)
    def action_open(self) -> None:
        """Enter: what the marked supply's numbers rest on; on the last row, the form for any."""
        stack, one = self.stack, self.marked
        if stack is None:
            return
        if one is None:
            self._ask_any("in")
        else:
            self.app.push_screen(ReasonScreen(clean(one.name, 60), reasons(one, stack), Page.SUPPLIES))

    def action_go_on(self) -> None:
        """Space: what came in; a stock that nobody knows is counted first."""
        one = self.marked
        self._write("counted" if one is not None and one.supply.kg is None else "in")

    def action_more(self) -> None:
        self._write("in")

    def action_less(self) -> None:
        self._write("out")

    def _write(self, way: str) -> None:
        stack, one = self.stack, self.marked
        if stack is None or self.read_only:
            return
        if one is None:
            self._ask_any(way)
        else:
            self.app.push_screen(SupplySheet(self.key, one, stack.setup.units, way))

    def _ask_any(self, way: str) -> None:
        from trayturn.tui.screens.stack import recording

        recording.supplies(self.house, self.key, way)

    @property
    def read_only(self) -> bool:
        """Whether the file has problems, so that nothing may be written to it."""
        loaded = self.house.shelf.loaded.get(self.key)
        return loaded is None or loaded.read_only

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if self.is_mounted and action in ("go_on", "more", "less", "undo"):
            return None if self.stack is None or self.read_only else True
        return True


def _told(one: Outlook, stack: Stack, wide: bool) -> Content:
    """The story, with what is to be gathered standing out; in a wide window all that it rests on too."""
    first, *rest = reasons(one, stack) if wide else story(one, stack)
    head = (f"! {first}", "bold $act") if one.short else first
    return Content.assemble(head, "\n", "\n".join(rest))
