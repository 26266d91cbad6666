"""Castings in tubs and jars: each lot with what comes next, and one key to do it."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.castings.early import not_yet
from trayturn.advice.castings.stages import Next, next_for, open_lots
from trayturn.advice.castings.taking_up import as_lot, old_tubs, tub_key
from trayturn.advice.castings.words import NOTHING_YET, TAKE_UP, lot_story, reason
from trayturn.advice.due.hatching import Tub
from trayturn.advice.pages import Page
from trayturn.domain.lots import Lot
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, count
from trayturn.tui.commands import LOTS, bindings
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.castings.rows import heading, lot_rows
from trayturn.tui.screens.castings.sheet import SAVED
from trayturn.tui.screens.castings.sheets import SHEETS
from trayturn.tui.screens.cautions.sheet import read_first
from trayturn.tui.screens.forms import lot_forms
from trayturn.tui.screens.forms.lot_parts import last_bait
from trayturn.tui.screens.stack.recording import ask
from trayturn.tui.widgets.choose import Choose
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.title_row import TitleRow

UNREAD = "Its file cannot be read; the bin's own screen says what is wrong with it."
AT_ONCE = {
    "lure": "Bait laid. u takes it back; g says what bait",
    "dry": "It dries from now on. u takes it back",
    "ready": "It is ready. u takes it back",
    "close": "Closed. u takes it back",
}
"""What needs no amount is written down by Space alone, and what is said then."""


class CastingsScreen(BinFrame):
    """The lots, those to be used first on top; Space does what comes next, Enter tells why, g offers all."""

    PLACE = LOTS
    BINDINGS = bindings(LOTS)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str, lot: str | None = None) -> None:
        super().__init__(key)
        self.held = lot
        """The lot the keeper is at, by its code: the mark comes back to it once it is here again."""

    def compose_body(self) -> ComposeResult:
        with Container(classes="body"):
            with Vertical(id="table"):
                yield Static(id="heading")
                yield LineList(id="lots")
            with Vertical(id="aside"):
                yield Static(id="name")
                yield Static(id="story")

    def on_mount(self) -> None:
        super().on_mount()
        self.query_one(LineList).focus()

    def on_resize(self) -> None:
        super().on_resize()
        self._mark_moved()

    def show(self, key: str) -> None:
        """Every lot and every tub without one; the mark stays on its lot."""
        if key not in ("", self.key):
            return
        stack, rows = self.stack, self.query_one(LineList)
        lots = open_lots(stack) if stack is not None else ()
        rows.show(lot_rows(lots, old_tubs(stack), stack) if stack is not None else [])
        if self.held is not None:
            rows.mark_row(self.held)
        self.query_one("#table").display = bool(rows.rows)
        self.put("#heading", heading(lots) if lots else "")
        name = clean(stack.setup.name if stack is not None else self.key, 40)
        unread = "" if stack is not None else "reading" if self.house.reading else "cannot be read"
        facts = count(len(lots), "lot") if lots else ""
        self.query_one(TitleRow).show(f"Castings of {name}", unread, facts)
        self._mark_moved()

    @property
    def lot(self) -> Lot | None:
        """The marked lot."""
        stack = self.stack
        return stack.lot(self.query_one(LineList).marked_key) if stack is not None else None

    @property
    def tub(self) -> Tub | None:
        """The marked castings that are no lot yet."""
        stack, key = self.stack, self.query_one(LineList).marked_key
        tubs = old_tubs(stack) if stack is not None and " " in key else ()
        return next((tub for tub in tubs if key == tub_key(tub)), None)

    @property
    def coming(self) -> Next | None:
        """What comes next for the marked lot."""
        stack, lot = self.stack, self.lot
        return next_for(lot, stack) if stack is not None and lot is not None else None

    @property
    def read_only(self) -> bool:
        """Whether nothing can be written to the bin's file."""
        loaded = self.house.shelf.loaded.get(self.key)
        return loaded is None or loaded.read_only

    @property
    def marked_page(self) -> Page | None:
        coming = self.coming
        return coming.page if coming is not None else Page.HATCHING if self.tub is not None else Page.CASTINGS

    @on(LineList.Marked)
    def _moved_by_hand(self) -> None:
        self.held = self.query_one(LineList).marked_key
        self._mark_moved()

    def _mark_moved(self) -> None:
        lot = self.lot
        self.put("#name", f"Lot {lot.code}" if lot is not None else "Castings")
        self.query_one("#story", Static).update(Content("\n".join(self._told(lot))))
        self.refresh_bindings()

    def _told(self, lot: Lot | None) -> list[str]:
        """What is known of what is marked; in a wide window with the reason for what comes next."""
        stack = self.stack
        if stack is None:
            return [] if self.house.reading else [UNREAD]
        if lot is None:
            return list(TAKE_UP if self.tub is not None else NOTHING_YET)
        first, *story = lot_story(lot, stack)
        return [first, "", *reason(lot, stack)] if self.wide else [first, *story]

    def action_go_on(self) -> None:
        """What comes next for the marked lot; castings that are no lot yet become one."""
        stack, lot, coming = self.stack, self.lot, self.coming
        if stack is not None and self.tub is not None:
            self._take_up(stack, self.tub)
        elif stack is not None and lot is not None and coming is not None:
            if early := not_yet(coming, self.house.now):
                self.house.say(f"{early} g does it anyway")
            else:
                self._do(stack, lot, coming.code)

    def _take_up(self, stack: Stack, tub: Tub) -> None:
        begun = as_lot(tub, stack)
        if self.house.save(self.key, [begun], f"Taken up as lot {begun.lot}. u takes it back"):
            self.held = begun.lot
            self.show(self.key)

    def _do(self, stack: Stack, lot: Lot, code: str) -> None:
        """Write it down at once, or ask for its amounts; what no hand can do is told."""
        self.held = lot.code
        if code in AT_ONCE:
            bait = {"bait": last_bait(lot)} if code == "lure" else {}
            entries = lot_forms.entries_of(stack, lot, code, self.house.now, **bait)
            self.house.save(self.key, entries, AT_ONCE[code])
        elif code in SHEETS:
            self.app.push_screen(SHEETS[code](self.key, stack, lot))
        else:
            self.action_open()

    @on(LineList.Opened)
    def action_open(self) -> None:
        """Why that comes next, with all that is known of the lot."""
        stack, lot, coming = self.stack, self.lot, self.coming
        if stack is not None and lot is not None:
            title = coming.what if coming is not None else f"Lot {lot.code}"
            self.app.push_screen(ReasonScreen(title, reason(lot, stack), self.marked_page))
        elif self.tub is not None:
            self.app.push_screen(ReasonScreen("Castings not kept as a lot", TAKE_UP, self.marked_page))

    def action_filter_kind(self) -> None:
        """All that can be done with the marked lot, typed: another stage, another day. Giving has a sheet."""
        lot = self.lot
        if lot is None:
            return

        def do(act: str | None) -> None:
            if act == "give":
                read_first(self.house, self.key, "giving_away", lambda: self._sheet("give"))
            elif act is not None:
                self._ask(lot, act)

        choices = [(act, words, "") for act, words in lot_forms.ACTS.items()]
        self.app.push_screen(Choose(f"What was done with lot {lot.code}?", choices), do)

    def _ask(self, lot: Lot, act: str) -> None:
        self.held = lot.code
        if (stack := self.stack) is not None:
            ask(self.house, self.key, lot_forms.lot_form(stack, lot, act), SAVED)

    def action_more(self) -> None:
        """Jars or bags filled."""
        self._sheet("pack")

    def action_less(self) -> None:
        """Castings used."""
        self._sheet("use")

    def _sheet(self, code: str) -> None:
        stack, lot = self.stack, self.lot
        if stack is not None and lot is not None:
            self._do(stack, lot, code)

    def action_start(self) -> None:
        """A lot begun by hand."""
        if (stack := self.stack) is not None:
            ask(self.house, self.key, lot_forms.new_lot_form(stack), SAVED)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """What needs a marked lot, or a file that can be written, is dim without."""
        if not self.is_mounted:
            return True
        if action in ("start", "undo"):
            return None if self.stack is None or self.read_only else True
        if action in ("filter_kind", "more", "less"):
            return None if self.lot is None or self.read_only else True
        if action == "go_on":
            return None if self.read_only or (self.coming is None and self.tub is None) else True
        if action == "open":
            return True if self.lot is not None or self.tub is not None else None
        return True
