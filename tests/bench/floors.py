"""The least any program would need: what the budgets are ratios to. Each imports only what it is about."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from textual.app import App

READY = "all is painted"
OTHER = "another screen"


def parse(*files: str) -> None:
    """tomli and pydantic imported, one model built, and the files parsed."""
    import tomli
    from pydantic import BaseModel

    class Entry(BaseModel):
        note: str = ""

    Entry(note="one")
    for file in files:
        tomli.loads(Path(file).read_text("utf-8"))


def read(file: Path) -> list[object]:
    """A whole profile by tomli and by pydantic's tagged union."""
    import tomli

    from trayturn.domain.entries import JOURNAL

    return [*JOURNAL.validate_python(tomli.loads(file.read_text("utf-8"))["journal"])]


def empty_app(file: str = "") -> None:
    """An app of one line of text, which may read a profile before it paints. It ends on `q`."""
    entries = read(Path(file)) if file else []
    app = _app(READY)
    app.entries = entries  # type: ignore[attr-defined]
    app.run()


def _app(words: str) -> App[None]:
    from textual.app import App, ComposeResult
    from textual.widgets import Static

    class Empty(App[None]):
        BINDINGS = [("q", "quit", "Quit")]

        def compose(self) -> ComposeResult:
            yield Static(words)

    return Empty()


def counting_app() -> None:
    """An app whose digits change on every arrow key, and that shows another screen on `j`."""
    from textual.app import App, ComposeResult
    from textual.screen import Screen
    from textual.widgets import Digits, Static

    class Other(Screen[None]):
        BINDINGS = [("escape", "app.pop_screen", "Back")]

        def compose(self) -> ComposeResult:
            yield Static(OTHER)

    class Counting(App[None]):
        BINDINGS = [("q", "quit", "Quit"), ("up,down", "count", "Count"), ("j", "other", "Other")]
        count = 0

        def compose(self) -> ComposeResult:
            yield Static(READY)
            yield Digits("0000")

        def action_count(self) -> None:
            self.count += 1
            self.query_one(Digits).update(f"{self.count:04}")

        def action_other(self) -> None:
            self.push_screen(Other())

    Counting().run()


def ticking_app() -> None:
    """An app of digits that change once a second."""
    from textual.app import App, ComposeResult
    from textual.widgets import Digits, Static

    class Ticking(App[None]):
        BINDINGS = [("q", "quit", "Quit")]
        count = 1000

        def compose(self) -> ComposeResult:
            yield Static(READY)
            yield Digits(str(self.count))

        def on_mount(self) -> None:
            self.set_interval(1, self.tick)

        def tick(self) -> None:
            self.count += 1
            self.query_one(Digits).update(str(self.count))

    Ticking().run()


def save(file: Path, added: bytes) -> None:
    """The file's bytes and some more, so that a power cut leaves the old file or the new one."""
    temporary = file.with_suffix(".tmp")
    data = file.read_bytes() + added
    with open(temporary, "wb") as out:
        out.write(data)
        out.flush()
        os.fsync(out.fileno())
    os.replace(temporary, file)
    folder = os.open(file.parent, os.O_RDONLY)
    os.fsync(folder)
    os.close(folder)
