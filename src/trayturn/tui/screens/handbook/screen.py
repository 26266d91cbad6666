"""The handbook: its pages to find and to read, each figure with its source and how sure it is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Input, Static

from trayturn.advice.handbook import Article, article, fill, look_up
from trayturn.advice.pages import Page
from trayturn.domain.setup import Units
from trayturn.domain.words import count
from trayturn.tui.commands import HANDBOOK, bindings
from trayturn.tui.frame import Frame
from trayturn.tui.screens.handbook.find_line import FindLine
from trayturn.tui.screens.handbook.page_view import PageView
from trayturn.tui.widgets.line_list import LineList, Row
from trayturn.tui.widgets.title_row import TitleRow

if TYPE_CHECKING:
    from trayturn.tui.app import TrayturnApp

WIDE = 120
HINT = "Tab, then type: smell, flies, wet"
NOT_FOUND = (
    "",
    "No page has these words.",
    "",
    "Try another, such as smell, wet or flies.",
    "Esc takes the words back.",
)


class HandbookScreen(Frame):
    """The pages on the left, found by words; the page on the right from 120 columns, else in their place.

    A page opened from somewhere leads back there; one opened from the list leads back to the list.
    """

    PLACE = HANDBOOK
    BINDINGS = bindings(HANDBOOK)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, page: str | None = None) -> None:
        super().__init__(classes="-reading" if page else None)
        # Where the keys go first. To move them once the screen stands costs as much as a third of opening it.
        self.AUTO_FOCUS = "#reading" if page else "#pages"  # type: ignore[misc]
        self.reading = Page(page) if page else None
        """The page that is read; None while one is looked for."""
        self._before: list[Page | None] = []
        self._found = look_up("")
        self._said = ""

    def compose_body(self) -> ComposeResult:
        with Horizontal(classes="body"):
            with Vertical(id="finding"):
                yield Static(Content(HINT), id="hint")
                yield LineList(id="pages", empty=NOT_FOUND)
            yield PageView(id="reading")

    def on_mount(self) -> None:
        super().on_mount()
        self._fill()
        if self.reading is not None:
            self._mark(self.reading)
        self._turn_to(self.reading)

    @property
    def pages(self) -> LineList:
        return self.query_one("#pages", LineList)

    @property
    def words(self) -> str:
        """What was typed to search by."""
        typed = self.query(FindLine)
        return typed.first().value.strip() if typed else ""

    @property
    def wide(self) -> bool:
        """Whether the marked page stands beside the list. The screen's own class comes a moment later."""
        return self.size.width >= WIDE

    def show(self, key: str) -> None:
        """A change of a bin changes nothing here but the units it is kept in."""
        self._show_page()

    def on_resize(self) -> None:
        super().on_resize()
        if self.is_mounted:
            self._fill()
            self._show_page()

    @on(Input.Changed, "#words")
    def _find(self) -> None:
        self._found = look_up(self.words)
        self._fill()
        self.pages.mark_first()
        self._show_page()
        self.refresh_bindings()

    def _fill(self) -> None:
        units = None if self.wide else units_beneath(self.house)
        self.pages.show([_row(one, units) for one in self._found])

    def _mark(self, page: Page) -> None:
        found = [one.page for one in self._found]
        if page in found:
            self.pages.marked = found.index(page)

    @on(LineList.Marked)
    def _show_page(self) -> None:
        """Draw the page that is read, or in a wide window the marked one; and where we are."""
        marked = Page(self.pages.marked_key) if self.pages.marked_key else None
        view = self.query_one(PageView)
        page, units = self.reading or marked, units_beneath(self.house)
        if view.article is None or view.article.page is not page or view.units is not units:
            view.show(page, units)
        number = len(self._found)
        if self.reading is not None:
            facts = article(self.reading).title
        else:
            facts = f"{count(number, 'page')} found" if self.words else count(number, "page")
        if facts != self._said:
            self._said = facts
            self.query_one(TitleRow).show("Handbook", facts)

    def _turn_to(self, page: Page | None) -> None:
        """Read that page, or look for one."""
        self.reading = page
        self.set_class(page is not None, "-reading")
        self.set_focus(self.pages if page is None else self.query_one(PageView))
        self._show_page()
        self.refresh_bindings()

    @on(LineList.Opened)
    @on(Input.Submitted, "#words")
    def action_open(self) -> None:
        """Read the marked page."""
        if self.reading is None and self.pages.marked_key:
            self._before.append(None)
            self._turn_to(Page(self.pages.marked_key))

    @on(PageView.See)
    def _see(self, event: PageView.See) -> None:
        if self.reading is None:
            self._mark(event.page)
        self._before.append(self.reading)
        self._turn_to(event.page)

    @on(FindLine.Moved)
    def _move(self, event: FindLine.Moved) -> None:
        self.pages.action_move(event.by)

    @on(FindLine.GivenUp)
    def _give_up(self) -> None:
        self.pages.focus()

    async def action_search(self) -> None:
        """Into the line to type in, and out of it again."""
        if self.reading is not None:
            self.action_handbook()
        # Made when it is first needed: a page is opened faster without it.
        if not self.query(FindLine):
            await self.query_one("#finding").mount(FindLine(hint=HINT, id="words"), before="#pages")
            self.query_one("#hint").display = False
        line = self.query_one(FindLine)
        self.set_focus(self.pages if self.focused is line else line)

    def action_handbook(self) -> None:
        """The list of all pages."""
        self._before.clear()
        for typed in self.query(FindLine):
            typed.value = ""
        page, self.reading = self.reading, None
        self._find()
        if page is not None:
            self._mark(page)
        self._turn_to(None)

    def action_leave(self) -> None:
        if self._before:
            self._turn_to(self._before.pop())
        else:
            super().action_leave()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "open" and self.is_mounted:
            return True if self.reading is None and self._found else None
        return True


def _row(one: Article, units: Units | None) -> Row:
    """The page's title, and with units what it says in one sentence."""
    summary = fill(one.summary, units) if units else ""
    return Row((((f"{one.title:<25}", "strong"), (summary, "muted")),), one.page)


def units_beneath(house: TrayturnApp) -> Units:
    """The units of the bin whose screen lies beneath; else those of the first bin there is."""
    keys = [getattr(screen, "key", None) for screen in reversed(house.screen_stack)]
    for key in (*keys, *house.shelf.loaded):
        loaded = house.shelf.loaded.get(key) if key else None
        if loaded is not None and loaded.profile is not None:
            return loaded.profile.bin.units
    return Units.METRIC
