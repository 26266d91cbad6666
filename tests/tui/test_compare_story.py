"""Ways side by side on their screen: reckoned off its thread, by aim, and stopped by leaving."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.tui.house import a_home
from tests.tui.stories import Keeper, keeper, samples
from trayturn.tui.screens.compare.screen import CompareScreen


@pytest.fixture(autouse=True)
def few_draws(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(CompareScreen, "draws", 20)


async def answered(k: Keeper) -> Keeper:
    """Wait until what is reckoned has come back."""
    await k.app.workers.wait_for_complete()
    await k.pause()
    return k


async def test_ways_by_aim(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "stairwell"), "stairwell") as k:
        await k.press("4")
        assert k.screen == "Compare"
        await answered(k)
        k.sees("What do you want most? Most castings", "3 trays, every", "5 trays, every", "today")
        assert k.footer_fits
        await k.resize(160, 40)
        k.sees("sump full", "hatched", "3 trays, every")
        assert k.footer_fits
        await k.resize(80, 24)
        await k.press("v")
        k.sees("What do you want most? Least work", "Least work:")
        await k.press("enter")
        k.sees("All my scraps:")
        await k.press("escape", "g")
        await answered(k)
        k.sees("a week")
        await k.press("escape")
        assert k.screen == "Stack"


async def test_leaving_stops_it_and_an_empty_bin_says_so(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path / "a", "stairwell"), "stairwell") as k:
        await k.press("4", "escape")
        assert k.screen == "Stack"
        assert not [one for one in k.app.workers if one.group == "compare" and not one.is_cancelled]
    async with keeper(a_home(tmp_path / "b"), "pantry") as k:
        await k.press("4")
        k.sees("No tray is on the stack yet.")
