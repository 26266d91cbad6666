"""The app: it composes the screens, keeps the time, rings the bell, and is the one way to write."""

from __future__ import annotations

import gc
import time
from collections.abc import Callable, Iterable, Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from textual import work
from textual.app import App, SystemCommand
from textual.binding import Binding
from textual.screen import Screen
from textual.signal import Signal

from trayturn.clock import Clock, system_clock
from trayturn.storage.errors import StorageError
from trayturn.tui import themes
from trayturn.tui.commands import commands_of
from trayturn.tui.frame_colours import frame_colours
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
        self.bin_path = bin_path
        self.changed: Signal[str] = Signal(self, "changed")
        self.rests: list[RunningRest] = []
        self.reading = True
        self.archived: list[Path] = []
        self._hushed: set[object] = set()
        self._rung: dict[object, float] = {}
        self._wanted_theme = theme
        self.animation_level = "none"

    def get_theme_variable_defaults(self) -> dict[str, str]:
        dark = self.current_theme.dark
        return {**themes.drawing_defaults(dark), **frame_colours(dark)}

    @property
    def now(self) -> datetime:
        """The moment, by the keeper's clock."""
        return self.shelf.clock()

    def on_mount(self) -> None:
        themes.register(self)
        self.theme = THEMES[self._wanted_theme or "dark"]
        self._ticking = self.set_interval(1.0, self.tick, pause=True)
        self.call_after_refresh(self._begin)

    def _begin(self) -> None:
        if self.bin_path is not None:
            self.open_bin(self.bin_path.stem)
        self.read_bins(self.bin_path)
        self.set_interval(LOOK_AGAIN, self._look_again)

    @work(thread=True, exclusive=True, group="reading", exit_on_error=True)
    def read_bins(self, first: Path | None = None) -> None:
        """Read every profile, the wanted one first, telling the screens after each."""
        paths = self.shelf.paths()
        for path in [p for p in (first,) if p] + [p for p in paths if p != first]:
            for _ in self.shelf.read(path):
                pass
            self.call_from_thread(self.tell, path.stem)
        self.call_from_thread(self._all_read)

    def _all_read(self) -> None:
        # A long journal is many small objects that stay: sorting through them again would hold up a key.
        gc.collect()
        gc.freeze()
        self.reading = False
        self.tell("")

    def _look_again(self) -> None:
        """Another window or an editor may have written: read what changed."""
        if not self.reading and (changed := self.shelf.changed()):
            for path in changed:
                for _ in self.shelf.read(path):
                    pass
            self.tell("")

    def tell(self, key: str) -> None:
        """A bin changed: what rests is looked up anew, and the screens draw."""
        self._look_at_rests()
        self.changed.publish(key)

    def _look_at_rests(self) -> None:
        self.rests = self.shelf.rests()
        if self.rests:
            self._ticking.resume()
        else:
            self._ticking.pause()
        self._ring()
        self._name_terminal()

    def tick(self) -> None:
        """A second has passed while something rests."""
        self._look_at_rests()
        if hasattr(self.screen, "tick"):
            self.screen.tick()

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
        self.tell(key)
        if said:
            self.say(said)
        return True

    def undo(self, key: str) -> None:
        """Take back the last thing done to the bin, and say what that was."""
        try:
            taken = self.shelf.undo(key)
        except StorageError as trouble:
            self.warn(str(trouble))
            return
        self.tell(key)
        what = taken[0].entry_kind.replace("_", " ") if taken else ""
        self.say(f"Taken back: {what}" if taken else "Nothing to take back")

    def say(self, words: str) -> None:
        """What was just done, in the title row of the screen beneath."""
        from trayturn.tui.frame import Frame

        frames = [screen for screen in self.screen_stack if isinstance(screen, Frame)]
        frames[-1].query_one(TitleRow).say(words)

    def warn(self, words: str) -> None:
        """Trouble, in the corner and for longer."""
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
        self.screen.refresh(recompose=False, layout=True)


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
