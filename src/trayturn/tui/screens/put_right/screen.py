"""Putting right: signs to tick, the causes they and the journal speak for, and one to take."""

from __future__ import annotations

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Container, Vertical, VerticalScroll
from textual.widgets import Static

from trayturn.advice.pages import Page
from trayturn.advice.pantry import pantry_of
from trayturn.advice.trouble.case import case_of, record_of
from trayturn.advice.trouble.follow_up import follow_up, open_follow_up
from trayturn.advice.trouble.ranking import Ranked
from trayturn.advice.trouble.signs import SIGN
from trayturn.advice.trouble.telling import NO_JOURNAL, NO_SIGNS, Answer, story, summary
from trayturn.domain.words import clean, day
from trayturn.tui.commands import PUT_RIGHT, bindings
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.put_right.inquiry import Inquiry, LeftOff, cause_of
from trayturn.tui.screens.put_right.rows import SignList, cause_rows, sign_rows
from trayturn.tui.screens.put_right.sheet import CauseScreen
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.title_row import TitleRow

TICK = "Tick what you see. Space ticks, 1 to 5 jump, Enter goes on to the causes."
TAKE = "Enter tells it whole. Space takes it: it goes on the due list. b goes back."
TICK_WIDE = "Space ticks, 1 to 5 jump, Enter: the causes."
TAKE_WIDE = "Space takes it, Enter tells it, b: the signs."
GONE = "Put the file back, and this screen goes on from it."
MEND = "Mend the file with an editor, and this screen goes on from it."


class PutRightScreen(BinFrame):
    """First the signs, then the causes. In a wide window both stand open, with the marked cause beside."""

    PLACE = PUT_RIGHT
    BINDINGS = bindings(PUT_RIGHT)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str, tray: str | None = None) -> None:
        super().__init__(key)
        self.tray = tray
        self.by_hand: dict[str, bool] = {}
        self.inquiry: Inquiry | None = None
        self.told = Answer((), "", False)

    def compose_body(self) -> ComposeResult:
        with Container(classes="body"):
            with Vertical(id="looking"):
                yield Static(id="hint", markup=False)
                yield SignList(id="signs")
                yield Static(id="sign")
            with Vertical(id="finding"):
                yield Static("Causes, the likeliest first", id="found", markup=False)
                yield LineList(row_height=0, empty=("", NO_SIGNS), id="causes")
                yield Static(id="tells")
            with VerticalScroll(id="telling", can_focus=False):
                yield Static(id="cause")

    def on_mount(self) -> None:
        kept = self.house.left_off.get((PUT_RIGHT, self.key))
        if isinstance(kept, LeftOff) and kept.counts(self.house.now):
            self.by_hand.update(kept.by_hand)
            self.tray = self.tray or kept.tray
        self.signs.focus()

    @property
    def signs(self) -> SignList:
        return self.query_one("#signs", SignList)

    @property
    def causes(self) -> LineList:
        return self.query_one("#causes", LineList)

    @property
    def at_causes(self) -> bool:
        """Whether the keeper has gone on from the signs."""
        return self.causes.has_focus

    @property
    def wide(self) -> bool:
        """Whether signs, causes and the marked cause stand side by side. Known before the first layout."""
        return self.size.width >= self.HORIZONTAL_BREAKPOINTS[-1][0]

    @property
    def marked(self) -> Ranked | None:
        """The marked cause."""
        return cause_of(self.told, self.causes.marked_key)

    @property
    def marked_page(self) -> Page | None:
        """The page of the handbook behind the marked cause; over the signs, that of all troubles."""
        return self.marked.cause.page if self.at_causes and self.marked is not None else Page.TROUBLES

    @property
    def read_only(self) -> bool:
        """Whether the file has problems or is gone, so that nothing may be written to it."""
        loaded = self.house.shelf.loaded.get(self.key)
        return loaded is None or loaded.read_only

    def show(self, key: str) -> None:
        """Ask the bin anew with the signs that are ticked."""
        if key not in ("", self.key):
            return
        stack, loaded = self.stack, self.house.shelf.loaded.get(self.key)
        if stack is None or loaded is None or loaded.profile is None or loaded.read_only:
            self._show_absence()
            return
        if self.tray not in [tray.id for tray in stack.trays]:
            self.tray = None
        kept, profile = self.house.shelf.kept, loaded.profile
        case = case_of(kept(profile, record_of), stack, kept(profile, pantry_of), self.tray)
        self.inquiry = Inquiry(case, self.by_hand)
        scope = f"tray {self.tray}" if self.tray else "whole bin"
        self.query_one(TitleRow).show("Put right", clean(stack.setup.name, 40), scope)
        self._show_answer()

    def _show_absence(self) -> None:
        self.inquiry, self.told = None, Answer((), "", False)
        here = self.key in self.house.shelf.loaded
        trouble = "its file cannot be read" if here else "its file is gone"
        reading = self.house.reading
        self.query_one(TitleRow).show("Put right", self.key, "reading" if reading else trouble)
        self.signs.show([])
        self.causes.show([])
        for place in ("#sign", "#tells", "#cause"):
            self.put(place, "")
        self.put("#hint", "" if reading else MEND if here else GONE)
        self.refresh_bindings()

    def _show_answer(self) -> None:
        """Everything that the ticks change."""
        if self.inquiry is None:
            return
        self.told = self.inquiry.answer()
        self.signs.show(sign_rows(self.inquiry.ticks, ascii_only=self.house.ascii, wide=self.wide))
        self.causes.show(cause_rows(self.told.ranked, self.inquiry.case, wide=self.wide))
        most = f"What would tell the most: {self.told.tells_most}." if self.told.tells_most else ""
        self.put("#tells", NO_JOURNAL if self.told.rests_on_signs_alone else most)
        self._show_marked()

    @on(LineList.Marked)
    def _show_marked(self) -> None:
        """The marked sign's own words, and the marked cause: whole where there is room."""
        if self.inquiry is None:
            return
        tick, take = (TICK_WIDE, TAKE_WIDE) if self.wide else (TICK, TAKE)
        self.put("#hint", take if self.at_causes else tick)
        self.put("#sign", _of_sign(self.signs.marked_key, self.inquiry))
        tell = story if self.wide else summary
        one, ticks = self.marked, list(self.inquiry.ticks.values())
        lines = tell(one, self.inquiry.case, ticks) if one is not None else []
        self.put("#cause", "\n".join(lines))
        self.query_one("#telling").scroll_home(animate=False)
        self.refresh_bindings()

    def on_resize(self) -> None:
        super().on_resize()
        self._show_answer()

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:
        self.set_class(self.at_causes, "-causes")
        self._show_marked()

    @on(LineList.Opened)
    def action_open(self) -> None:
        """Enter: from the signs on to the causes; at a cause its whole story."""
        if self.at_causes:
            self._tell()
        elif self.told.ranked:
            self.causes.mark_first()
            self.causes.focus()
        else:
            self.house.say(NO_SIGNS)

    def _tell(self) -> None:
        one, asked = self.marked, self.inquiry
        if one is not None and asked is not None:
            lines = story(one, asked.case, list(asked.ticks.values()))
            self.house.push_screen(CauseScreen(lines, one.cause, self._take))

    def action_go_on(self) -> None:
        """Space: tick the marked sign, or take the marked cause."""
        if self.at_causes:
            self._take()
        elif self.inquiry is not None:
            self.inquiry.toggle(self.signs.marked_key)
            self._show_answer()

    def _take(self) -> None:
        """Put the marked cause on the due list; where it stands for that day already, say so."""
        one, asked, now = self.marked, self.inquiry, self.house.now
        if one is None or asked is None or self.read_only:
            return
        entry = follow_up(one, asked.case, asked.ticks.values(), now)
        there = open_follow_up(one.cause, asked.case)
        if there is not None and there.due.date() == entry.due.date():
            self.house.say(f"On the due list already, for {day(entry.due, now)}")
        else:
            self.house.save(self.key, [entry], f"On the due list for {day(entry.due, now)}. u takes it back")

    def action_back(self) -> None:
        """From the causes back to the signs."""
        self.signs.focus()

    def action_filter_tray(self) -> None:
        """The next tray of the stack, and after the last one the whole bin."""
        stack = self.stack
        trays = [tray.id for tray in stack.trays] if stack is not None else []
        around: list[str | None] = [None, *trays]
        self.tray = around[(around.index(self.tray) + 1) % len(around)] if self.tray in around else None
        self.show("")

    def action_cautions(self) -> None:
        from trayturn.tui.screens.cautions.screen import CautionsScreen

        self.house.push_screen(CautionsScreen(self.key, "putting_right"))

    def action_leave(self) -> None:
        """What is ticked is kept for today."""
        self.house.left_off[PUT_RIGHT, self.key] = LeftOff(self.house.now, self.tray, dict(self.by_hand))
        super().action_leave()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if not self.is_mounted:
            return True
        if action == "go_on" and self.at_causes:
            return True if self.marked is not None and not self.read_only else None
        if action == "back":
            return True if self.at_causes else None
        if action in ("go_on", "open", "filter_tray", "undo"):
            return True if self.inquiry is not None else None
        return True


def _of_sign(code: str, asked: Inquiry) -> str:
    """Where a tick comes from, and what is known of the sign by itself."""
    sign, tick = SIGN[code], asked.ticks.get(code)
    said = f"Ticked {tick.said}. " if tick is not None and tick.said else ""
    return said + (f"{sign.note} [{sign.source.told}]" if sign.source is not None else "")
