"""The app on a home of its own, with what it needs to be looked at from a test."""

from __future__ import annotations

from collections.abc import AsyncIterator, Iterable
from contextlib import asynccontextmanager
from datetime import datetime
from pathlib import Path
from typing import Any

from rich.cells import cell_len
from textual import events
from textual.pilot import Pilot
from textual.screen import Screen
from textual.widgets import Static

from tests.builders import a_bin, moment
from trayturn.domain.entries import Entry
from trayturn.domain.setup import Tray
from trayturn.storage import managing
from trayturn.tui import app as app_module
from trayturn.tui.app import TrayturnApp
from trayturn.tui.widgets.key_row import KeyRow

ODD_TEXTS = (
    "[/",
    "[red]",
    "{'a[0]'}",
    '"it\'s"',
    "\N{WORM} \N{SNOWFLAKE}\ufe0f",
    "דלי התולעים",
    "x" * 10_000,
)
SIZES = ((80, 24), (120, 40))
NOW = moment(70, 18)


def a_home(home: Path, entries: Iterable[Entry] = (), names: str = "ABC", **setup: Any) -> Path:
    """A home with one bin, `pantry`, of three trays unless more are named."""
    trays = [Tray(id=name) for name in names]
    managing.create(home, a_bin(**setup), trays, tuple(entries), "pantry")
    return home


class BareHouse(TrayturnApp):
    """The app without a screen of its own behind the one that is looked at."""

    CSS_PATH = str(Path(app_module.__file__).with_name("app.tcss"))

    def get_default_screen(self) -> Screen[None]:
        return Screen()


@asynccontextmanager
async def opened(
    home: Path,
    screen: Screen[Any],
    size: tuple[int, int] = SIZES[0],
    now: datetime = NOW,
    theme: str = "dark",
) -> AsyncIterator[tuple[TrayturnApp, Pilot[None]]]:
    """The app with that screen on top and every bin read."""
    app = BareHouse(home, clock=lambda: now, theme=theme)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        await app.workers.wait_for_complete()
        await app.push_screen(screen)
        await pilot.pause()
        yield app, pilot


async def type_in(app: TrayturnApp, pilot: Pilot[None], text: str) -> None:
    """Put text where the cursor is, all at once."""
    assert app.focused is not None
    app.focused.post_message(events.Paste(text))
    await pilot.pause()


def shown(app: TrayturnApp, query: str) -> str:
    """The text that a static widget of the screen on top shows."""
    return str(app.screen.query_one(query, Static).content)


def drawn(app: TrayturnApp) -> str:
    """The whole screen as text, line by line."""
    return "\n".join(
        "".join(segment.text for segment in line) for line in app.screen._compositor.render_strips()
    )


def footer_fits(app: TrayturnApp) -> bool:
    """Whether every key of the footer is in sight."""
    keys = app.screen.query_one(KeyRow)
    return cell_len(str(keys.content)) <= keys.size.width
