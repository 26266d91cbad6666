"""What was found: pieces that go round, and what does not belong, with what it came in with."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.found.sources import Noted, Source, State
from trayturn.advice.found.words import NOTHING_YET
from trayturn.advice.pages import Page
from trayturn.advice.pantry import pantry_of
from trayturn.domain.entries import SourceStopped
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, count
from trayturn.tui.commands import FOUND, bindings
from trayturn.tui.frame import Frame
from trayturn.tui.screens.found.rows import Item, found_rows, in_order, items
from trayturn.tui.screens.stack import recording
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.title_row import TitleRow

UNREAD = "Its file cannot be read; the bin's own screen says what is wrong with it."
HOW_TO_LOG = "a writes down what was found."
ASIDE = 40
"""Columns that the story takes in a wide window."""
KEYS = "   Space: it is stopped"


class FoundScreen(Frame):
    """One list, sources first; Space marks a source stopped, a writes down one found."""

    PLACE = FOUND
    BINDINGS = bindings(FOUND)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str | None = None) -> None:
        super().__init__()
        self.key = key
        self.items: dict[str, Item] = {}

    def compose_body(self) -> ComposeResult:
        """The list, and the story of what is marked."""
        with Container(classes="body"):
            yield LineList(row_height=0, id="rows")
            with Vertical(id="aside"):
                yield Static(id="name")
                yield Static(id="story")

    def on_mount(self) -> None:
        """The keys go to the list."""
        self.query_one(LineList).focus()

    @property
    def stacks(self) -> list[Stack]:
        """The bins shown, by name: those that can be read and written."""
        loaded = self.house.shelf.loaded
        stacks = self.house.shelf.stacks()
        return [one for one in stacks if self.key in (None, one.key) and not loaded[one.key].read_only]

    def show(self, key: str) -> None:
        """Draw what was found, as the journals have it."""
        if self.key is not None and key not in ("", self.key):
            return
        stacks, shelf = self.stacks, self.house.shelf
        found: list[Item] = []
        for stack in stacks:
            profile = shelf.loaded[stack.key].profile
            if profile is not None:
                found += items(stack, shelf.kept(profile, pantry_of))
        found = in_order(found)
        self.items = {item.key: item for item in found}
        rows = self.query_one(LineList)
        rows.show(found_rows(found, self._room, named=self.key is None and len(stacks) > 1))
        rows.display = bool(found)
        self._show_title(stacks)
        self._show_marked()
        self.refresh_bindings()

    @property
    def _room(self) -> int:
        """Columns of a row: of the whole window, or beside the story, without mark and scrollbar."""
        return self.app.size.width - 2 - (ASIDE if self.wide else 0)

    def on_resize(self) -> None:
        """Other widths wrap otherwise."""
        super().on_resize()
        self.show("")

    def _show_title(self, stacks: list[Stack]) -> None:
        if self.key is None:
            name = f"Found in {count(len(stacks), 'bin')}" if stacks else "Found"
        else:
            name = f"Found in {clean(stacks[0].setup.name if stacks else self.key, 40)}"
        unread = "reading" if self.house.reading else "" if stacks or not self.key else "cannot be read"
        about = [item.about for item in self.items.values()]
        still = sum(isinstance(one, Source) and one.state in (State.OPEN, State.AGAIN) for one in about)
        facts = f"{count(still, 'source')} to stop" if still else ""
        self.query_one(TitleRow).show(name, unread, facts)

    @property
    def marked(self) -> Item | None:
        """The marked row."""
        return self.items.get(self.query_one(LineList).marked_key)

    @property
    def marked_source(self) -> Source | None:
        """The marked source, where it can be stopped."""
        about = self.marked.about if self.marked is not None else None
        can = isinstance(about, Source) and about.state in (State.OPEN, State.AGAIN)
        return about if isinstance(about, Source) and can else None

    @property
    def marked_page(self) -> Page | None:
        """One page tells of all of it."""
        return Page.FOUND

    @on(LineList.Marked)
    def _mark_moved(self) -> None:
        self._show_marked()
        self.refresh_bindings()

    def _show_marked(self) -> None:
        item = self.marked
        keys = KEYS if self.marked_source is not None else ""
        name = f"{item.title[:1].upper()}{item.title[1:]}" if item is not None else "Found"
        self.query_one("#name", Static).update(Content.assemble(name, (keys, "not bold")))
        self.query_one("#story", Static).update(Content("\n".join(self._told(item))))

    def _told(self, item: Item | None) -> list[str]:
        if item is not None:
            return item.story
        if self.stacks or self.house.reading:
            return [*NOTHING_YET, "", HOW_TO_LOG]
        return [UNREAD] if self.key else list(NOTHING_YET)

    @on(LineList.Opened)
    def action_open(self) -> None:
        """Enter: the whole story of the marked row."""
        item = self.marked
        if item is not None:
            lines = [line for told in item.story for line in (told, "")][:-1]
            title = f"{item.title[:1].upper()}{item.title[1:]}"
            self.app.push_screen(ReasonScreen(title, lines, self.marked_page))

    def action_go_on(self) -> None:
        """Space: nothing more comes in with the marked source."""
        item, source = self.marked, self.marked_source
        if item is not None and source is not None:
            stopped = SourceStopped(at=self.house.now, source=clean(source.name, 60))
            self.house.save(item.stack.key, [stopped], "Marked as stopped. u takes it back")

    def action_start(self) -> None:
        """Write down one found, in the bin of the marked row; its source stands in the form."""
        item, stacks = self.marked, self.stacks
        if not stacks:
            return
        bin_key = item.stack.key if item is not None else stacks[0].key
        about = item.about if item is not None and not isinstance(item.about, Noted) else None
        recording.found(self.house, bin_key, about.name if isinstance(about, Source) else "")

    def action_undo(self) -> None:
        """Of one bin, the last thing written in it; of all, what was written last since the start."""
        if self.key is not None:
            self.house.undo(self.key)
        elif self.house.written:
            self.house.undo(self.house.written[-1])

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """What needs a marked row or a bin is dim without one."""
        if not self.is_mounted:
            return True
        if action == "go_on":
            return True if self.marked_source is not None else None
        if action == "open":
            return True if self.marked is not None else None
        if action == "start":
            return True if self.stacks else None
        if action == "undo":
            return True if self.stacks and (self.key is not None or self.house.written) else None
        return True
