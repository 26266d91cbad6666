"""A screen that was left leaves nothing behind."""

import gc
import weakref
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.tui.house import a_home, opened
from trayturn.tui.frame import Frame
from trayturn.tui.screens.cautions.screen import CautionsScreen
from trayturn.tui.screens.due.screen import DueScreen
from trayturn.tui.screens.found.screen import FoundScreen
from trayturn.tui.screens.journal.screen import JournalScreen
from trayturn.tui.screens.ledger.screen import LedgerScreen
from trayturn.tui.screens.outlook.screen import OutlookScreen
from trayturn.tui.widgets.line_list import LineList


@pytest.mark.parametrize("made", [JournalScreen, DueScreen, LedgerScreen, FoundScreen, OutlookScreen])
async def test_a_closed_screen_is_gone_with_all_it_drew(tmp_path: Path, made: Callable[[str], Frame]) -> None:
    async with opened(a_home(tmp_path), CautionsScreen("pantry")) as (app, pilot):
        await app.push_screen(made("pantry"))
        await pilot.pause()
        screen = weakref.ref(app.screen)
        drawn = weakref.ref(app.screen.query(LineList).first()._styles_cache)
        await pilot.press("escape")
        await pilot.pause()
        gc.collect()
        assert (screen(), drawn()) == (None, None)
