"""What every screen shares: its title, the running rest, its keys, and how it hears of changes."""

from __future__ import annotations

from contextlib import suppress
from pathlib import PurePath
from typing import TYPE_CHECKING, ClassVar, cast

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from trayturn.tui.commands import commands_of
from trayturn.tui.ways import go
from trayturn.tui.widgets.key_row import KeyRow
from trayturn.tui.widgets.rest_bar import RestBar
from trayturn.tui.widgets.title_row import TitleRow

if TYPE_CHECKING:
    from trayturn.advice.pages import Page
    from trayturn.domain.stack import Stack
    from trayturn.procedure.rests import RunningRest
    from trayturn.tui.app import TrayturnApp

LEAST = (60, 18)
WIDE = 120
"""Columns from which the reasons stand open beside what they are about."""


class Frame(Screen[None]):
    """A screen of the house. In too small a window it says what size it needs, and still shows a rest."""

    PLACE: ClassVar[str] = ""
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (WIDE, "-wide")]
    CSS_PATH: ClassVar[str | PurePath | list[str | PurePath] | None] = "frame.tcss"
    _held: Widget | None = None
    """What had the keys before the window grew too small to show it."""

    def compose(self) -> ComposeResult:
        yield TitleRow()
        yield Static(id="too-small")
        yield from self.compose_body()
        with Vertical(id="foot"):
            yield RestBar()
            yield KeyRow()

    def compose_body(self) -> ComposeResult:
        """The screen's own part, between the title and the keys."""
        yield from ()

    @property
    def house(self) -> TrayturnApp:
        """The app, by its own type."""
        return cast("TrayturnApp", self.app)

    @property
    def wide(self) -> bool:
        """Whether the window has room for the reasons; true before the class that says so is set."""
        return self.house.size.width >= WIDE

    def on_mount(self) -> None:
        self.house.changed.subscribe(self, self._on_changed)

    def on_unmount(self) -> None:
        # A closed screen must leave nothing behind: what piles up is sorted through for waste, and a key
        # then waits 100 ms. Listening keeps the screen alive, and a cache of Textual's own all that it drew.
        self.house.changed.unsubscribe(self)
        with suppress(ImportError, AttributeError):
            from textual._styles_cache import StylesCache

            StylesCache.get_inner_outer.cache_clear()

    def _on_changed(self, key: str) -> None:
        """Draw what changed where it is in sight, if beneath a sheet; the others are drawn once they are."""
        if self.is_mounted and self._in_sight:
            self.show(key)
            self.tick()

    @property
    def _in_sight(self) -> bool:
        frames = [screen for screen in self.house.screen_stack if isinstance(screen, Frame)]
        return bool(frames) and frames[-1] is self

    def on_screen_resume(self) -> None:
        self.show("")
        self.tick()

    def on_resize(self) -> None:
        small = self.size.width < LEAST[0] or self.size.height < LEAST[1]
        if small and self.focused is not None:
            self._held = self.focused
        self.set_class(small, "-too-small")
        if not small and self._held is not None:
            self.call_after_refresh(self._held.focus)
            self._held = None
        needed, now = f"{LEAST[0]} by {LEAST[1]}", f"{self.size.width} by {self.size.height}"
        words = f"trayturn needs a window of {needed} characters; this one is {now}."
        self.query_one("#too-small", Static).update(Content(words))
        self.tick()

    def show(self, key: str) -> None:
        """Draw what stands now. `key` names the bin that changed, or is empty for any."""

    def put(self, where: str, words: str) -> Static:
        """Put words into one of the screen's texts. The same words again would lay it all out for nothing."""
        text = self.query_one(where, Static)
        if str(text.content) != words:
            text.update(Content(words))
        return text

    def tick(self) -> None:
        """One second has passed while something rests: redraw what counts down, and nothing else."""
        small = self.has_class("-too-small")
        self.query_one(RestBar).show(
            [rest for rest in self.house.rests if small or not self.is_about(rest)], self.house.now
        )

    def is_about(self, rest: RunningRest) -> bool:
        """Whether this screen's own body shows that rest already."""
        return False

    def action_leave(self) -> None:
        self.house.pop_screen()

    def action_quit(self) -> None:
        self.house.exit()

    def action_hush(self) -> None:
        self.house.hush()

    def action_help(self) -> None:
        from trayturn.tui.screens.help import HelpScreen

        self.house.push_screen(HelpScreen(self.PLACE, list(commands_of(self.PLACE))))

    @property
    def marked_page(self) -> Page | None:
        """The page of the handbook behind what is marked; None where there is nothing of the kind."""
        return None

    def action_handbook(self) -> None:
        go(self.house, "handbook", self.marked_page)

    def action_cautions(self) -> None:
        from trayturn.tui.screens.cautions.screen import CautionsScreen

        self.house.push_screen(CautionsScreen(getattr(self, "key", None)))


class BinFrame(Frame):
    """A screen of one bin, by its key."""

    def __init__(self, key: str) -> None:
        super().__init__()
        self.key = key

    @property
    def stack(self) -> Stack | None:
        """The bin as it stands; None while it is unread, cannot be read or is gone."""
        return self.house.shelf.stack(self.key)

    def action_undo(self) -> None:
        self.house.undo(self.key)

    def action_journal(self) -> None:
        from trayturn.tui.screens.journal.screen import JournalScreen

        self.house.push_screen(JournalScreen(self.key))
