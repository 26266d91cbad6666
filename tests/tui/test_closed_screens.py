"""A screen that was left leaves nothing behind."""

import gc
import weakref
from pathlib import Path

from tests.tui.house import a_home, opened
from trayturn.tui.screens.cautions.screen import CautionsScreen
from trayturn.tui.screens.journal.screen import JournalScreen
from trayturn.tui.widgets.line_list import LineList


async def test_a_closed_screen_is_gone_with_all_it_drew(tmp_path: Path) -> None:
    async with opened(a_home(tmp_path), CautionsScreen("pantry")) as (app, pilot):
        await app.push_screen(JournalScreen("pantry"))
        await pilot.pause()
        screen = weakref.ref(app.screen)
        drawn = weakref.ref(app.screen.query_one(LineList)._styles_cache)
        await pilot.press("escape")
        await pilot.pause()
        gc.collect()
        assert (screen(), drawn()) == (None, None)
