"""The app: it composes the screens, keeps the time, rings the bell, and is the one way to write."""

from __future__ import annotations

import gc
import time
from collections.abc import Callable, Iterable, Sequence
from datetime import datetime
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

from textual import work
from textual.app import App, SystemCommand
from textual.binding import Binding
from textual.command import CommandPalette
from textual.filter import LineFilter
from textual.screen import Screen
from textual.signal import Signal

from trayturn.clock import Clock, system_clock
from trayturn.storage.errors import StorageError
from trayturn.tui import themes
from trayturn.tui.commands import commands_of
from trayturn.tui.frame_colours import frame_colours
from trayturn.tui.letters_only import LettersOnly
from trayturn.tui.shelf import Shelf
from trayturn.tui.widgets.title_row import TitleRow

if TYPE_CHECKING:
    from trayturn.domain.entries import Entry
    from trayturn.procedure.rests import RunningRest

THEMES = {"dark": themes.LOAM.name, "light": themes.STRAW.name}
RING_AGAIN = 20
"""Seconds between two rings of a rest that is over."""
LOOK_AGAIN = 2.0
"""Seconds between two looks at whether another window has written."""


def _bins_screen() -> Screen[None]:
    from trayturn.tui.screens.bins.screen import BinsScreen

    return BinsScreen()


def _as_at_home(path: Path, home: Path) -> Path:
    """A path to one of the home's own files as the home lists it, so that it is not taken for another."""
    listed = home / path.name
    return listed if listed.exists() and path.exists() and listed.samefile(path) else path


class TrayturnApp(App[None]):
    """A companion for keepers of stacked-tray worm bins."""

    TITLE = "trayturn"
    ENABLE_COMMAND_PALETTE = True
    BINDINGS = [Binding("slash", "command_palette", "Any command by name", show=False, key_display="/")]
    CSS_PATH = "app.tcss"
    MODES = {"bins": _bins_screen}
    DEFAULT_MODE = "bins"

    def __init__(
        self,
        home: Path,
        bin_path: Path | None = None,
        clock: Clock = system_clock,
        *,
        ascii: bool = False,  # noqa: A002
        theme: str | None = None,
    ) -> None:
        super().__init__()
        self.shelf = Shelf(home, clock)
        self.ascii = ascii
        self.bin_path = _as_at_home(bin_path, home) if bin_path is not None else None
        self.changed: Signal[str] = Signal(self, "changed")
        self.rests: list[RunningRest] = []
        self.reading = True
        self.archived: list[Path] = []
        self.written: list[str] = []
        self.left_off: dict[tuple[str, str], object] = {}
        self._day = clock().date()
        self._hushed: set[object] = set()
        self._rung: dict[object, float] = {}
        # Worn before the first frame: to change clothes after it costs as much as the frame itself.
        themes.register(self)
        self.theme = THEMES[theme or "dark"]
        self.animation_level = "none"

    def get_line_filters(self) -> Sequence[LineFilter]:
        filters = super().get_line_filters()
        return [*filters, LettersOnly()] if self.ascii else filters

    def get_theme_variable_defaults(self) -> dict[str, str]:
        dark = self.current_theme.dark
        return {**themes.drawing_defaults(dark), **frame_colours(dark)}

    @property
    def now(self) -> datetime:
        """The moment, by the keeper's clock."""
        return self.shelf.clock()

    def on_mount(self) -> None:
        self._ticking = self.set_interval(1.0, self.tick, pause=True)
        self.call_after_refresh(self._begin)

    def _begin(self) -> None:
        if self.bin_path is not None:
            self.open_bin(self.bin_path.stem)
        self.read_bins(self.bin_path)
        self.set_interval(LOOK_AGAIN, self.look_again)

    @work(thread=True, exclusive=True, group="reading", exit_on_error=True)
    def read_bins(self, first: Path | None = None) -> None:
        """Read every profile, the wanted one first, telling the screens after each."""
        # What draws a stack is imported here, beside the screens, so that no key waits for it.
        import_module("trayturn.tui.screens.stack.screen")
        paths = self.shelf.paths()
        others = [path for path in paths if first is None or path.stem != first.stem]
        for path in [*((first,) if first else ()), *others]:
            for _ in self.shelf.read(path):
                pass
            self.call_from_thread(self.tell, path.stem)
        self._add_up()
        import_module("trayturn.tui.screens.outlook.screen")
        self.call_from_thread(self._all_read)

    def _add_up(self) -> None:
        """The past of every bin, week by week: a long journal takes longer than a key may wait."""
        import_module("trayturn.tui.screens.past.screen")
        from trayturn.advice.past import tally_of

        for loaded in list(self.shelf.loaded.values()):
            if loaded.profile is not None:
                self.shelf.kept(loaded.profile, tally_of)

    def _all_read(self) -> None:
        # A long journal is many small objects that stay: sorting through them for waste would hold up a key.
        gc.freeze()
        gc.enable()
        self.reading = False
        self.tell("")

    def look_again(self) -> None:
        """Another window or an editor may have written, or a new day begun: read and draw what changed."""
        if self.reading:
            return
        if self.now.date() != self._day:
            self._day = self.now.date()
            self.shelf.drop_stacks()
            self.tell("")
        known = set(self.shelf.loaded)
        changed = self.shelf.changed()
        for path in changed:
            for _ in self.shelf.read(path):
                pass
        if changed or known != set(self.shelf.loaded):
            self.tell("")

    def tell(self, key: str) -> None:
        """A bin changed: what rests is looked up anew, and the screens draw."""
        self._look_at_rests()
        self.changed.publish(key)
        self._count_down()

    def _look_at_rests(self) -> None:
        self.rests = self.shelf.rests()
        if self.rests:
            self._ticking.resume()
        else:
            self._ticking.pause()
        self._ring()
        self._name_terminal()

    def tick(self) -> None:
        """A second has passed while something rests. When a rest has just ended, what is due has changed."""
        before = {rest.mark for rest in self.rests if rest.over}
        self._look_at_rests()
        if {rest.mark for rest in self.rests if rest.over} != before:
            self.shelf.drop_stacks()
            self.changed.publish("")
        self._count_down()

    def _count_down(self) -> None:
        from trayturn.tui.frame import Frame
        from trayturn.tui.widgets.rest_bar import RestBar

        # A sheet leaves the screen beneath in sight, with its own rest.
        for screen in reversed(self.screen_stack):
            # A screen that is being closed has lost its parts already.
            if hasattr(screen, "tick") and screen.is_mounted and screen.query(RestBar):
                screen.tick()
            if isinstance(screen, Frame):
                break

    def _ring(self) -> None:
        """The bell at the end of a rest, again and again until it is acknowledged."""
        moment = time.monotonic()
        for rest in self.rests:
            if not rest.over or rest.mark in self._hushed:
                continue
            if moment - self._rung.get(rest.mark, -RING_AGAIN) >= RING_AGAIN:
                self._rung[rest.mark] = moment
                self.bell()

    def hush(self) -> None:
        """Acknowledge every rest that is over: the words stay, the bell stops."""
        self._hushed |= {rest.mark for rest in self.rests if rest.over}

    def _name_terminal(self) -> None:
        first = self.rests[0] if self.rests else None
        text = "trayturn" if first is None else ("(!) rest over" if first.over else "resting") + " - trayturn"
        if text != self.title:
            self.title = text
            if self._driver is not None and not self.is_headless:
                self._driver.write(f"\x1b]2;{text}\x07")

    def action_command_palette(self) -> None:
        """The palette, once: a second press while it stands somewhere beneath does nothing."""
        if not any(isinstance(screen, CommandPalette) for screen in self.screen_stack):
            super().action_command_palette()

    def open_bin(self, key: str) -> None:
        """Show a bin's stack."""
        from trayturn.tui.screens.stack.screen import StackScreen

        self.push_screen(StackScreen(key))

    def save(self, key: str, entries: Sequence[Entry], said: str = "") -> bool:
        """Write entries to a bin's file, and only then say so. On trouble say what; all stays as it was."""
        try:
            self.shelf.save(key, entries)
        except StorageError as trouble:
            self.warn(str(trouble))
            return False
        self.written.append(key)
        self.tell(key)
        if said:
            self.say(said)
        return True

    def undo(self, key: str) -> None:
        """Take back the last thing done to the bin, and say what that was.

        It no longer counts among what was written since the program was opened.
        """
        try:
            taken = self.shelf.undo(key)
        except StorageError as trouble:
            self.warn(str(trouble))
            return
        if key in self.written:
            del self.written[len(self.written) - 1 - self.written[::-1].index(key)]
        self.tell(key)
        self.say(f"Taken back: {taken}" if taken else "Nothing to take back")

    def say(self, words: str) -> None:
        """What was just done, in the title row of the screen beneath."""
        from trayturn.tui.frame import Frame

        frames = [screen for screen in self.screen_stack if isinstance(screen, Frame)]
        frames[-1].query_one(TitleRow).say(words)

    def warn(self, words: str) -> None:
        """Trouble, in the corner and for longer. What was said before goes: it would hide what is beneath."""
        self.clear_notifications()
        self.notify(words, severity="error", timeout=12, markup=False)

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        place = getattr(screen, "PLACE", "")
        for command in commands_of(place):
            if screen.check_action(command.id, ()):
                yield SystemCommand(command.label, command.help, self._runner(command.id))
        yield SystemCommand("Dark theme", "Earth tones on dark", lambda: self._wear("dark"))
        yield SystemCommand("Light theme", "Earth tones on light", lambda: self._wear("light"))
        yield SystemCommand(
            "Letters only", "Draw with plain ASCII signs, or stop doing so", self._toggle_ascii
        )

    def _runner(self, action: str) -> Callable[[], None]:
        def run() -> None:
            self.call_later(self.screen.run_action, action)

        return run

    def _wear(self, theme: str) -> None:
        self.theme = THEMES[theme]

    def _toggle_ascii(self) -> None:
        self.ascii = not self.ascii
        self.tell("")
        self.refresh_css(animate=False)


def run(
    home: Path,
    bin_path: Path | None,
    clock: Clock,
    *,
    ascii: bool = False,  # noqa: A002
    theme: str | None = None,
) -> int:
    """Open the screens, and stay until the keeper leaves. Returns the exit status."""
    app = TrayturnApp(home, bin_path, clock, ascii=ascii, theme=theme)
    app.run()
    return app.return_code or 0
