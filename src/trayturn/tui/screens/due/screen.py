"""All that is due, in one order, and which bin is next: of all bins or of one."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.contents import uneaten_kg
from trayturn.advice.due import Due, due_list
from trayturn.advice.due.keepers_word import put_off_a_day, take_a_day_back
from trayturn.advice.next import Next, what_next
from trayturn.advice.pages import Page
from trayturn.advice.pantry import pantry_of
from trayturn.domain.entries import Snoozed
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, count, day
from trayturn.tui.commands import DUE, bindings
from trayturn.tui.frame import Frame
from trayturn.tui.screens.due.rows import due_rows, name_width, next_lines, next_rows, row_key
from trayturn.tui.screens.stack import acts
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.title_row import TitleRow

NO_BINS = ("No bins yet.", "", "Esc leads back to the bins, where Space makes the first one.")
UNREADABLE = ("This bin cannot be read now.", "", "d shows all bins, Esc leads back.")

WIDE, WHY_WIDTH, MARGINS = 120, 48, 3
"""From how many columns the reason stands beside; its columns; those of the edge, the mark and the bar."""


class DueScreen(Frame):
    """What is due above, which bin is next below; from 120 columns the reason of the marked line beside."""

    PLACE = DUE
    BINDINGS = bindings(DUE)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str | None = None) -> None:
        super().__init__()
        self.key = key
        self.due: dict[str, Due] = {}
        self.next: dict[str, Next] = {}

    def compose_body(self) -> ComposeResult:
        with Horizontal(classes="body"):
            with Vertical(id="lists"):
                yield Static(id="due-head")
                yield LineList(row_height=0, id="due")
                yield Static(id="next-head")
                yield LineList(id="next")
            yield Static(id="why")

    def on_mount(self) -> None:
        self.dues.focus()

    @property
    def dues(self) -> LineList:
        return self.query_one("#due", LineList)

    @property
    def ranking(self) -> LineList:
        return self.query_one("#next", LineList)

    @property
    def stacks(self) -> list[Stack]:
        """The bins that are told of: those that can be read and written."""
        loaded = self.house.shelf.loaded
        return [
            stack
            for stack in self.house.shelf.stacks()
            if self.key in (None, stack.key) and not loaded[stack.key].read_only
        ]

    def show(self, key: str) -> None:
        if self.key is not None and key not in ("", self.key):
            return
        stacks = self.stacks
        due = sorted((one for stack in stacks for one in due_list(stack)), key=lambda one: one.order)
        self.due = {row_key(one): one for one in due}
        self.next = {one.bin: one for one in what_next(stacks)}
        self._draw()
        self.refresh_bindings()

    def _place(self, one: Next) -> Next:
        """The same with the scraps still there: they are reckoned where the reason is read, not before."""
        stack, loaded = self.house.shelf.stack(one.bin), self.house.shelf.loaded.get(one.bin)
        if stack is None or loaded is None or loaded.profile is None:
            return one
        left = uneaten_kg(stack, self.house.shelf.kept(loaded.profile, pantry_of))
        return what_next([stack], {one.bin: left})[0]

    def _draw(self) -> None:
        now, pressing = self.house.now, sum(one.pressing for one in self.due.values())
        names = name_width([one.name for one in self.next.values()]) if self.key is None else 0
        width = self._room()
        where = "all bins" if self.key is None else clean(self._shown_name(), 40)
        self.query_one(TitleRow).show(f"Due in {where}", f"{pressing} to do now" if pressing else "")
        self.put("#due-head", "Due   Enter: why" if pressing else self._nothing_presses())
        self.dues.empty = () if self.house.reading else NO_BINS if self.key is None else UNREADABLE
        self.dues.show(due_rows(list(self.due.values()), now, width, names))
        about = f"Which bin next{self._faults()}" if self.key is None else "Feeding"
        head = f"{about}   Tab, Enter: why"
        self.put("#next-head", head if self.next else self._faults().strip(" ;"))
        self.ranking.show(next_rows(list(self.next.values()), width, names))
        self._show_why()

    def _room(self) -> int:
        """How wide a line is: known before the first frame, so that nothing is wrapped anew in sight."""
        whole = self.app.size.width
        return whole - (WHY_WIDTH if whole >= WIDE else 0) - MARGINS

    def _shown_name(self) -> str:
        return next((one.name for one in self.next.values()), self.key or "")

    def _nothing_presses(self) -> str:
        """What comes next and when."""
        first = next(iter(self.due.values()), None)
        if first is None:
            return ""
        when = f" ({day(first.due, self.house.now)})" if first.due is not None else ""
        return f"Nothing presses. What comes next{when}:"

    def _faults(self) -> str:
        """How many files are left out because they cannot be read."""
        broken = [one for one in self.house.shelf.loaded.values() if one.read_only]
        told = count(len(broken), "file") if self.key is None and broken else ""
        return f"; {told} cannot be read, see the bins" if told else ""

    def on_resize(self) -> None:
        super().on_resize()
        self._draw()

    @property
    def marked(self) -> Due | None:
        """What is marked: a due thing, or the feeding of the bin marked in the ranking."""
        if self.focused is self.ranking:
            place = self.next.get(self.ranking.marked_key)
            return place.feed if place is not None else None
        return self.due.get(self.dues.marked_key)

    @property
    def marked_page(self) -> Page | None:
        """The page of the handbook behind what is marked."""
        return self.marked.page if self.marked is not None else None

    @on(LineList.Marked)
    def _mark_moved(self) -> None:
        self._show_why()
        self.refresh_bindings()

    def on_descendant_focus(self) -> None:
        self._mark_moved()

    def _show_why(self) -> None:
        """Beside the lists, in a wide window."""
        told = self._reason() if self.app.size.width >= WIDE else []
        text = Content.assemble((told[0], "bold"), "\n\n", "\n".join(told[1:])) if told else Content("")
        self.query_one("#why", Static).update(text)

    def _reason(self) -> list[str]:
        """The title and the lines of the reason of what is marked."""
        one = self.marked
        if one is None:
            return []
        if self.focused is self.ranking:
            return [clean(one.name, 60), *next_lines(self._place(self.next[one.bin]))]
        return [one.what, *(clean(line) for line in one.why)]

    @on(LineList.Opened)
    def action_open(self) -> None:
        if (one := self.marked) is None:
            return
        if self.focused is self.ranking:
            lines = next_lines(self._place(self.next[one.bin]))
            self.app.push_screen(ReasonScreen(one.name, lines, self.marked_page))
        else:
            acts.why(self.house, one)

    def action_go_on(self) -> None:
        if (one := self.marked) is not None:
            acts.do(self.house, one)

    def action_end(self) -> None:
        if (one := self.marked) is not None:
            acts.close(self.house, one)

    def action_more(self) -> None:
        """A day later."""
        if (one := self.marked) is None:
            return
        word = put_off_a_day(one, self.house.now)
        if word is not None:
            self._put_off(one, word)
        elif one.can_wait:
            self.house.say("That is a year ahead already")
        else:
            self.house.say("The worms of a separation cannot wait")

    def action_less(self) -> None:
        """A day earlier again."""
        one = self.marked
        word = take_a_day_back(one, self.house.now) if one is not None else None
        if one is not None and word is not None:
            self._put_off(one, word)
        elif one is not None:
            self.house.say("It is not put off")

    def _put_off(self, one: Due, word: Snoozed) -> None:
        now = self.house.now
        until = f"Put off until {day(word.until, now)}" if word.until > now else "No longer put off"
        self.house.save(one.bin, [word], f"{until}. u takes it back")

    def action_undo(self) -> None:
        """Of one bin, the last thing written in it; of all, what was written last since the start."""
        if self.key is not None:
            self.house.undo(self.key)
        elif self.house.written:
            self.house.undo(self.house.written[-1])

    def action_due(self) -> None:
        """Only the bin of the marked line, or all bins again."""
        one = self.marked
        self.key = None if self.key is not None else one.bin if one is not None else None
        self.show("")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """What needs a marked line is dim without one."""
        if not self.is_mounted:
            return True
        one = self.marked
        if action in ("open", "go_on", "end"):
            return True if one is not None else None
        if action == "more":
            return True if one is not None and one.can_wait else None
        if action == "less":
            return True if one is not None and one.snoozed_until is not None else None
        if action == "due":
            return True if one is not None or self.key is not None else None
        if action == "undo" and self.key is None:
            return True if self.house.written else None
        return True
