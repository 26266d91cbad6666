"""Castings from the tub to the pot, on their screen."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.builders import a_usual_bin, entry, moment
from tests.tui.house import a_home
from tests.tui.stories import Wrist, keeper
from trayturn.domain.entries import LotStage

LOT = entry("lot_begun", 90, lot="A1", tray="A", kg=4.0, place="the cellar")


def home_of(folder: Path) -> Path:
    return a_home(folder, (*a_usual_bin(), LOT))


async def test_a_lot_from_the_tub_to_the_pot(tmp_path: Path) -> None:
    wrist = Wrist(moment(115))
    async with keeper(home_of(tmp_path), "pantry", wrist=wrist) as k:
        await k.press("1")
        assert k.screen == "Castings"
        k.sees("A1: hatching", "Lay a bait on lot A1. Now.", "Cocoons in it when taken")
        await k.press("space")
        await k.type("melon")
        await k.press("ctrl+s")
        k.sees("Lift hatchlings out of lot A1", "Bait (melon) laid")
        wrist.forward(days=7)
        await k.look()
        await k.press("space")
        await k.type("40")
        await k.press("ctrl+s")
        lot = k.stack("pantry").lots[0]
        assert [one.counted for one in lot.hatchlings] == [40]
        wrist.forward(days=20)
        await k.look()
        k.sees("has hatched out: let it dry")
        await k.press("space", "ctrl+s")
        assert k.stack("pantry").lots[0].stage is LotStage.DRYING
        await k.press("space", "ctrl+s")
        assert k.stack("pantry").lots[0].stage is LotStage.CURING
        k.sees("Sieved at 6.4 mm")
        await k.press("u")
        assert k.stack("pantry").lots[0].stage is LotStage.DRYING


async def test_used_given_away_and_closed(tmp_path: Path) -> None:
    home = home_of(tmp_path)
    async with keeper(home, "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "enter")
        k.sees("What was done with lot A1?", "Given away or sold")
        await k.press(*["down"] * 8, "enter")
        await k.heed()
        k.sees("To whom")
        await k.press("ctrl+s")
        (given,) = k.stack("pantry").lots[0].given
        assert given.rules_read is True
        await k.press("enter", *["down"] * 7, "enter")
        k.sees("Share of mix")
        await k.press("tab", "tab")
        await k.type("60")
        await k.press("ctrl+s")
        k.sees("leaves too little air")
        assert not k.stack("pantry").lots[0].used
        k.sees("More than half")
        await k.press("escape", "escape", "enter", *["down"] * 9, "enter", "ctrl+s")
        assert k.stack("pantry").lots[0].closed_at is not None
        k.sees("No castings are kept here yet.")


async def test_a_lot_begun_by_hand_and_the_empty_screen(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, a_usual_bin()), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1")
        k.sees("No castings are kept here yet.", "begins one by hand")
        await k.press("space", "enter")
        assert k.screen == "Castings"
        await k.press("a", "ctrl+s")
        assert [lot.code for lot in k.stack("pantry").lots] == ["L1"]


async def test_a_tub_from_before_is_taken_up_as_a_lot(tmp_path: Path) -> None:
    separated = (
        entry("separation_begun", 90, tray="A"),
        entry("settled", 90.1, tray="A", castings_kg=3.0),
        entry("separation_ended", 90.2, tray="A"),
    )
    home = a_home(tmp_path, (*a_usual_bin(), *separated))
    async with keeper(home, "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "a")
        k.sees("Taken from tray A, and not kept as a lot yet.", "3 kg")
        await k.press("ctrl+s")
        (lot,) = k.stack("pantry").lots
        assert (lot.code, lot.kg) == ("A1", 3.0)
        assert abs(lot.begun_at - moment(90.1)).total_seconds() < 60
        k.sees("Lay a bait on lot A1. Now.")


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_it_fits(tmp_path: Path, size: tuple[int, int]) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(moment(115)), size=size) as k:
        await k.press("1")
        assert k.footer_fits
