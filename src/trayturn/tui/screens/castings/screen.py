"""Castings in tubs and jars: each lot with what comes next, and one key to do it."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.castings.stages import next_for, open_lots
from trayturn.advice.castings.words import NOTHING_YET, lot_line, lot_story, next_line
from trayturn.advice.pages import Page
from trayturn.domain.lots import Lot
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, count
from trayturn.tui.commands import LOTS, bindings
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.cautions.sheet import read_first
from trayturn.tui.screens.forms import lot_forms
from trayturn.tui.screens.stack.recording import ask
from trayturn.tui.widgets.choose import Choose
from trayturn.tui.widgets.line_list import LineList, Row
from trayturn.tui.widgets.title_row import TitleRow

UNREAD = "Its file cannot be read; the bin's own screen says what is wrong with it."
SAVED = "Written down. u takes it back"
DOES = {"warmth": "look"}
"""What Space does for a next thing that is no act of its own."""


class CastingsScreen(BinFrame):
    """The lots, those to be used first on top; Space does what comes next, Enter offers all."""

    PLACE = LOTS
    BINDINGS = bindings(LOTS)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def compose_body(self) -> ComposeResult:
        with Container(classes="body"):
            yield LineList(id="lots")
            with Vertical(id="aside"):
                yield Static(id="name")
                yield Static(id="story")

    def on_mount(self) -> None:
        super().on_mount()
        self.query_one(LineList).focus()

    def show(self, key: str) -> None:
        if key not in ("", self.key):
            return
        stack, rows = self.stack, self.query_one(LineList)
        lots = open_lots(stack) if stack is not None else ()
        rows.show([_row(lot, stack) for lot in lots] if stack is not None else [])
        rows.display = bool(lots)
        name = clean(stack.setup.name if stack is not None else self.key, 40)
        unread = "" if stack is not None else "reading" if self.house.reading else "cannot be read"
        self.query_one(TitleRow).show(f"{name}  castings", unread, count(len(lots), "lot") if lots else "")
        self._show_marked()
        self.refresh_bindings()

    @property
    def lot(self) -> Lot | None:
        """The marked lot."""
        stack = self.stack
        return stack.lot(self.query_one(LineList).marked_key) if stack is not None else None

    @property
    def marked_page(self) -> Page | None:
        stack, lot = self.stack, self.lot
        coming = next_for(lot, stack) if stack is not None and lot is not None else None
        return coming.page if coming is not None else Page.CASTINGS

    @on(LineList.Marked)
    def _show_marked(self) -> None:
        stack, lot = self.stack, self.lot
        if stack is None:
            lines = [UNREAD] if not self.house.reading else []
        else:
            lines = lot_story(lot, stack) if lot is not None else list(NOTHING_YET)
        self.query_one("#name", Static).update(Content(f"Lot {lot.code}" if lot is not None else "Castings"))
        self.query_one("#story", Static).update(Content("\n".join(lines)))

    def action_go_on(self) -> None:
        """What comes next for the marked lot."""
        stack, lot = self.stack, self.lot
        coming = next_for(lot, stack) if stack is not None and lot is not None else None
        if lot is not None and coming is not None:
            self._do(lot, DOES.get(coming.code, coming.code))

    @on(LineList.Opened)
    def action_open(self) -> None:
        """All that can be done with the marked lot."""
        lot = self.lot
        if lot is None:
            return

        def do(act: str | None) -> None:
            if act is not None:
                self._do(lot, act)

        choices = [(act, words, "") for act, words in lot_forms.ACTS.items()]
        self.app.push_screen(Choose(f"What was done with lot {lot.code}?", choices), do)

    def _do(self, lot: Lot, act: str) -> None:
        """The form of that act; before castings are given away, the cautions of that."""
        if act == "give":
            read_first(self.house, self.key, "giving_away", lambda: self._ask(lot, act))
        else:
            self._ask(lot, act)

    def _ask(self, lot: Lot, act: str) -> None:
        if (stack := self.stack) is not None:
            ask(self.house, self.key, lot_forms.lot_form(stack, lot, act), SAVED)

    def action_start(self) -> None:
        """A lot begun by hand."""
        if (stack := self.stack) is not None:
            ask(self.house, self.key, lot_forms.new_lot_form(stack), SAVED)


def _row(lot: Lot, stack: Stack) -> Row:
    """A lot on two lines: what it is, and what comes next."""
    coming = next_for(lot, stack)
    now = coming is not None and coming.due is not None and coming.due <= stack.as_of
    return Row(
        (
            ((lot_line(lot, stack), "strong"),),
            ((f"  {next_line(coming, stack)}", "act" if now else "muted"),),
        ),
        lot.code,
    )
