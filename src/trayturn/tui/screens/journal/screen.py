"""The journal: everything written down, newest first."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.entry_words import entry_story
from trayturn.advice.links import page_of_entry
from trayturn.advice.pages import Page
from trayturn.domain.setup import Units
from trayturn.domain.words import clean, count
from trayturn.tui.commands import JOURNAL, bindings
from trayturn.tui.frame import Frame
from trayturn.tui.screens.journal.listing import Listing, Placed, entry_row, next_of
from trayturn.tui.widgets.line_list import LazyRows, LineList, Row
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.title_row import TitleRow

if TYPE_CHECKING:
    from trayturn.domain.profile import Profile

NOTHING_YET = (
    "",
    "Nothing is written down yet.",
    "",
    "Feedings, checks, turns and notes of this bin will stand here, the newest on top.",
    "i writes a note. Esc leads back to the stack, where f feeds and k checks.",
)
NONE_SUCH = (
    "",
    "Nothing written down is of this tray and kind.",
    "",
    "v shows another tray, g another kind.",
)


def _listing(profile: Profile) -> Listing:
    return Listing.of(profile.journal)


class JournalScreen(Frame):
    """One bin's entries that stand. Enter tells the marked one in full; from 120 columns it stands beside."""

    PLACE = JOURNAL
    BINDINGS = bindings(JOURNAL)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str) -> None:
        super().__init__()
        self.key = key
        self.tray: str | None = None
        self.group: str | None = None
        self._listing = Listing({}, (), ())
        self._chosen: Mapping[str, Placed] = {}

    def compose_body(self) -> ComposeResult:
        with Horizontal(classes="body"):
            yield LineList(id="entries")
            yield Static(id="entry")

    @property
    def profile(self) -> Profile | None:
        """The bin as it was read; None while it is not, or when its file is broken."""
        loaded = self.house.shelf.loaded.get(self.key)
        return loaded.profile if loaded is not None else None

    @property
    def units(self) -> Units:
        return self.profile.bin.units if self.profile is not None else Units.METRIC

    def show(self, key: str) -> None:
        if key not in ("", self.key):
            return
        profile = self.profile
        if profile is None:
            self._show_trouble()
        else:
            self._listing = self.house.shelf.kept(profile, _listing)
            self._show_entries(profile)
        self.refresh_bindings()

    def _show_entries(self, profile: Profile) -> None:
        listing, units = self._listing, profile.bin.units
        self._chosen = listing.chosen(self.tray, self.group)
        keys, placed = list(self._chosen), list(self._chosen.values())
        width = listing.tray_width
        entries = self.query_one(LineList)
        entries.empty = NONE_SUCH if listing.entries else NOTHING_YET
        entries.show(LazyRows(keys, lambda n: entry_row(placed[n], units, width)))
        number = count(len(placed), "entry", "entries")
        about = f"tray {self.tray}" if self.tray else ""
        title = f"Journal of {clean(profile.bin.name, 40)}"
        self.query_one(TitleRow).show(title, number, about, self.group or "")
        self._show_marked()

    def _show_trouble(self) -> None:
        loaded = self.house.shelf.loaded.get(self.key)
        problems = loaded.problems if loaded is not None else ()
        self._chosen = {}
        self.query_one(TitleRow).show(self.key, "cannot be read" if loaded is not None else "reading")
        self.query_one(LineList).show([Row((((clean(str(problem)), "error"),),)) for problem in problems])
        self._show_marked()

    @on(LineList.Marked)
    def _show_marked(self) -> None:
        self.query_one("#entry", Static).update(Content("\n".join(self._story())))

    def _story(self) -> list[str]:
        placed = self._chosen.get(self.query_one(LineList).marked_key)
        return entry_story(placed[1], self.units) if placed is not None else []

    @property
    def marked_page(self) -> Page | None:
        placed = self._chosen.get(self.query_one(LineList).marked_key)
        return page_of_entry(placed[1].kind) if placed is not None else None

    @on(LineList.Opened)
    def action_open(self) -> None:
        if story := self._story():
            self.app.push_screen(ReasonScreen(story[0], story[1:], self.marked_page))

    def action_filter_tray(self) -> None:
        self.tray = next_of(self._listing.trays, self.tray)
        self.show("")

    def action_filter_kind(self) -> None:
        self.group = next_of(self._listing.groups, self.group)
        self.show("")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if (
            action in ("note", "undo", "filter_tray", "filter_kind")
            and self.is_mounted
            and self.profile is None
        ):
            return None
        return True

    def action_note(self) -> None:
        from trayturn.tui.screens.stack import recording

        recording.note(self.house, self.key)

    def action_undo(self) -> None:
        self.house.undo(self.key)
