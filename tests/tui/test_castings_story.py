"""Castings from the tub to the pot, on their screen."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.builders import a_usual_bin, entry, moment
from tests.tui.house import a_home
from tests.tui.stories import Keeper, Wrist, keeper
from trayturn.domain.entries import LotStage
from trayturn.domain.lots import Lot

LOT = entry("lot_begun", 90, lot="A1", tray="A", kg=4.0, place="the cellar")
SEPARATED = (
    entry("separation_begun", 90, tray="A"),
    entry("settled", 90.1, tray="A", castings_kg=3.0),
    entry("separation_ended", 90.2, tray="A"),
)
ACTS = ["lure", "look", "dry", "sieve", "cure", "ready", "pack", "use", "give", "close"]


def home_of(folder: Path, **setup: str) -> Path:
    return a_home(folder, (*a_usual_bin(), LOT), **setup)


def ready_home(folder: Path, *more: object, **setup: str) -> Path:
    ready = entry("lot_moved", 110, lot="A1", stage="ready", kg=2.0)
    return a_home(folder, (*a_usual_bin(), LOT, ready, *more), **setup)  # type: ignore[arg-type]


def lot_of(k: Keeper) -> Lot:
    return k.stack("pantry").lots[0]


async def other(k: Keeper, act: str) -> None:
    """Choose what was done from the whole list."""
    await k.press("g", *["down"] * ACTS.index(act), "enter")


async def test_a_lot_from_the_tub_to_the_pot(tmp_path: Path) -> None:
    wrist = Wrist(moment(115))
    async with keeper(home_of(tmp_path), "pantry", wrist=wrist) as k:
        await k.press("1")
        assert k.screen == "Castings"
        k.sees("A1", "hatching", "4 kg", "lay a bait now", "Cocoons in it when taken")
        await k.press("space")
        k.sees("Bait laid. u takes it back", "lift hatchlings in 7 days")
        wrist.forward(days=7)
        await k.look()
        # Forty young go back into tray B, which is fed; a new bait is laid in the same act.
        await k.press("space", "plus", "plus", "plus", "plus", "space")
        (lifted,) = lot_of(k).hatchlings
        assert (lifted.counted, lifted.tray) == (40, "B")
        assert len(lot_of(k).lures) == 2
        k.sees("40 hatchlings lifted out", "% of the young to be expected")
        wrist.forward(days=20)
        await k.look()
        k.sees("has hatched out: let it dry")
        await k.press("space")
        assert lot_of(k).stage is LotStage.DRYING
        wrist.forward(days=14)
        await k.look()
        await k.press("space", "enter")
        await k.type("3.2 kg")
        await k.press("enter", "down", "enter")
        await k.type("800 g")
        await k.press("enter")
        k.sees("80 % passes.")
        await k.press("space")
        assert (lot_of(k).stage, lot_of(k).kg) == (LotStage.CURING, 3.2)
        k.sees("Sieved at 6.4 mm", "80 % passed")
        wrist.forward(days=14)
        await k.look()
        await k.press("space", "space", "plus", "plus", "space")
        assert lot_of(k).jars["jar 1"].count == 3
        assert lot_of(k).jars["jar 1"].kg == pytest.approx(1.5)
        k.sees("use first", "3 x jar 1")
        await k.press("minus")
        k.sees("10 l of mix at 15 % takes 1.5 l of castings", "By 0.7 to 0.9 kg a litre")
        await k.press("space")
        (used,) = lot_of(k).used
        assert (used.label, used.kg, used.share_pct) == ("jar 1", 1.2, 15)


async def test_one_undo_takes_one_act_back(tmp_path: Path) -> None:
    wrist = Wrist(moment(115))
    async with keeper(home_of(tmp_path), "pantry", wrist=wrist) as k:
        await k.press("1", "space")
        wrist.forward(days=7)
        await k.look()
        await k.press("space", "space")
        assert (len(lot_of(k).hatchlings), len(lot_of(k).lures)) == (1, 2)
        await k.press("u")
        assert (len(lot_of(k).hatchlings), len(lot_of(k).lures)) == (0, 1)
        await other(k, "dry")
        await k.press("ctrl+s")
        await other(k, "sieve")
        await k.press("ctrl+s")
        assert (lot_of(k).stage, len(lot_of(k).sieved)) == (LotStage.CURING, 1)
        await k.press("u")
        assert (lot_of(k).stage, len(lot_of(k).sieved)) == (LotStage.DRYING, 0)


async def test_nothing_is_taken_as_weighed_that_was_not(tmp_path: Path) -> None:
    dries = entry("lot_moved", 100, lot="A1", stage="drying")
    async with keeper(
        a_home(tmp_path, (*a_usual_bin(), LOT, dries)), "pantry", wrist=Wrist(moment(115))
    ) as k:
        await k.press("1", "space")
        k.sees("not weighed")
        await k.press("space")
        (sieved,) = lot_of(k).sieved
        assert (sieved.passed_kg, sieved.oversize_kg) == (None, None)
        assert lot_of(k).kg == 4.0


async def test_a_drying_lot_is_weighed(tmp_path: Path) -> None:
    wet = entry("lot_moved", 100, lot="A1", stage="drying", kg=4.0, moisture_pct=75)
    async with keeper(a_home(tmp_path, (*a_usual_bin(), LOT, wet)), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1")
        k.sees("read or weigh now", "75 %", "it weighs 2.5 kg")
        await k.press("space", "space")
        k.sees("Say what it weighs, or its moisture.")
        await k.press("enter")
        await k.type("2.4 kg")
        await k.press("enter", "space")
        k.sees("58 %", "by its weight", "At 58 % lot A1 is dry enough: sieve it now.")


async def test_enter_tells_why_with_its_page(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "enter")
        assert k.screen == "Reason"
        k.sees("Lay a bait on lot A1.", "23 to 25 days", "Reckoned at 20 °C")
        await k.press("h")
        k.sees("Cocoons and hatching")


async def test_in_a_wide_window_the_reason_stands_open(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(moment(115)), size=(120, 40)) as k:
        await k.press("1")
        k.sees("23 to 25 days", "Taken on")


async def test_given_away_once_the_caution_was_read(tmp_path: Path) -> None:
    async with keeper(ready_home(tmp_path), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1")
        await other(k, "give")
        k.sees("local authority")
        await k.press("escape")
        assert not lot_of(k).given
        assert k.screen == "Castings"
        await other(k, "give")
        await k.heed()
        k.sees("To whom", "local authority")
        # Two steps less than is offered, to a neighbour whom clean hands typed, and sold.
        await k.press("minus", "minus", "down", "enter")
        await k.type("Ida next door")
        await k.press("enter", "down", "plus", "space")
        (given,) = lot_of(k).given
        assert (given.to, given.sold, given.rules_read) == ("Ida next door", True, True)
        assert given.kg == pytest.approx(0.3)
        await other(k, "close")
        await k.press("ctrl+s")
        assert lot_of(k).closed_at is not None
        k.sees("No castings are kept here yet.")


async def test_more_than_half_of_a_mix_needs_a_yes(tmp_path: Path) -> None:
    async with keeper(ready_home(tmp_path), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "minus", "down", "enter")
        await k.type("40")
        await k.press("enter")
        k.sees("more than is advised", "salts")
        k.sees_no("All the same")
        await k.press("enter")
        await k.type("60 %")
        await k.press("enter")
        k.sees("leaves too little air", "All the same")
        await k.press("space")
        assert not lot_of(k).used
        k.sees("Say yes below")
        await k.press("down", "down", "down", "plus", "space")
        (used,) = lot_of(k).used
        assert (used.share_pct, used.despite) == (60, True)
        k.sees("more than advised")


async def test_the_typed_form_minds_the_share_too(tmp_path: Path) -> None:
    async with keeper(ready_home(tmp_path), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1")
        await other(k, "use")
        await k.press("tab", "tab")
        await k.type("25")
        k.sees("Above 20 % their salts harmed tomato")
        await k.type("0")
        await k.press("ctrl+s")
        assert not lot_of(k).used


async def test_what_cannot_be_typed_is_said_beside_it(tmp_path: Path) -> None:
    async with keeper(ready_home(tmp_path), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "plus", "enter")
        await k.type("many")
        await k.press("enter")
        k.sees("not a whole number")
        await k.press("escape", "down", "down", "enter")
        await k.press(*["backspace"] * 5, "enter", "space")
        k.sees("Give it a label")
        assert not lot_of(k).jars


async def test_more_than_there_is_is_said_before(tmp_path: Path) -> None:
    async with keeper(ready_home(tmp_path), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "plus", *["plus"] * 4)
        k.sees("more than the 2 kg of it by weight")


async def test_a_us_keeper_sees_quarts_and_pounds(tmp_path: Path) -> None:
    async with keeper(ready_home(tmp_path, units="us"), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1")
        k.sees("4.41 lb")
        await k.press("minus")
        k.sees("10 qt", "By 1.5 to 1.9 lb a quart")
        await k.press("plus")
        k.sees("11 qt")


async def test_used_up_it_is_closed_by_space(tmp_path: Path) -> None:
    all_of_it = entry("castings_used", 112, lot="A1", kg=2.0)
    async with keeper(ready_home(tmp_path, all_of_it), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1")
        k.sees("close now", "is used up: close it now")
        await k.press("space")
        assert lot_of(k).closed_at is not None


async def test_a_due_thing_opens_at_its_lot(tmp_path: Path) -> None:
    second = entry("lot_begun", 91, lot="B7", tray="B", kg=1.0)
    async with keeper(ready_home(tmp_path, second), "pantry", wrist=Wrist(moment(120))) as k:
        await k.press("d")
        rows = [line for line in k.picture.splitlines() if "Lay a bait on lot B7" in line]
        assert rows
        while "▌" not in next(line for line in k.picture.splitlines() if "Lay a bait on lot B7" in line):
            await k.press("down")
        await k.press("space")
        assert k.screen == "Castings"
        assert k.reads("#name") == "Lot B7"


async def test_the_empty_screen_and_a_lot_begun_by_hand(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, a_usual_bin()), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1")
        k.sees("No castings are kept here yet.", "begins one by hand")
        await k.press("space", "enter", "g", "plus", "minus")
        assert k.screen == "Castings"
        await k.press("a", "ctrl+s")
        assert [lot.code for lot in k.stack("pantry").lots] == ["L1"]


async def test_a_tub_from_before_is_taken_up_by_one_key(tmp_path: Path) -> None:
    home = a_home(tmp_path, (*a_usual_bin(), *SEPARATED))
    async with keeper(home, "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1")
        k.sees("Space takes it up: Tray A, no lot yet: 3 kg taken 25 days ago.", "kept as no lot yet")
        await k.press("space")
        lot = lot_of(k)
        assert (lot.code, lot.kg, lot.begun_at) == ("A1", 3.0, moment(90.1))
        k.sees("Taken up as lot A1", "lay a bait now")
        k.sees_no("no lot yet")
        await k.press("u")
        assert k.stack("pantry").lots == ()
        k.sees("no lot yet")
        await k.press("a")
        k.sees("Taken from tray A, and not kept as a lot yet.", "3 kg")


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
@pytest.mark.parametrize("ascii_only", [True, False])
async def test_it_fits(tmp_path: Path, size: tuple[int, int], ascii_only: bool) -> None:
    home = ready_home(tmp_path, *SEPARATED)
    async with keeper(home, "pantry", wrist=Wrist(moment(115)), size=size, ascii=ascii_only) as k:
        await k.press("1")
        assert k.footer_fits
        assert not ascii_only or k.picture.replace("°", "").isascii()


async def test_no_more_is_used_by_one_press_than_there_is(tmp_path: Path) -> None:
    little = entry("lot_moved", 111, lot="A1", stage="ready", kg=0.35)
    async with keeper(ready_home(tmp_path, little), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "minus")
        k.sees("Only 350 g is there: enough for less of that mix.")
        await k.press("down", "down", "plus")
        k.sees("That is more than the 350 g there is by weight.")
        await k.press("minus", "space")
        (used,) = lot_of(k).used
        assert used.kg == pytest.approx(0.35)
        assert k.stack("pantry").findings == ()


async def test_no_more_falls_through_the_sieve_than_was_laid_on_it(tmp_path: Path) -> None:
    dry = entry("lot_moved", 111, lot="A1", stage="drying", kg=0.5, moisture_pct=50)
    async with keeper(ready_home(tmp_path, dry), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "space", "enter")
        await k.type("9 kg")
        await k.press("enter", "space")
        k.sees("is more than the lot, which holds 500 g")
        assert lot_of(k).sieved == ()


@pytest.mark.parametrize(
    ("before", "now", "said", "act"),
    [
        ((), 90, "Not yet: in 23 days (few hatch earlier). g does it anyway", "lure"),
        ((entry("lure_set", 113, lot="A1"),), 115, "Not yet: in 5 days (bait needs a week)", "look"),
        ((entry("lot_moved", 110, lot="A1", stage="drying"),), 115, "Not yet: in 9 days (it is", "sieve"),
        ((entry("lot_moved", 110, lot="A1", stage="curing"),), 123, "Not yet: tomorrow (it still", "ready"),
    ],
)
async def test_space_does_nothing_before_its_time_and_g_does(
    tmp_path: Path, before: tuple[Any, ...], now: float, said: str, act: str
) -> None:
    home = a_home(tmp_path, (*a_usual_bin(), LOT, *before))
    async with keeper(home, "pantry", wrist=Wrist(moment(now))) as k:
        written = len(k.standing("pantry"))
        await k.press("1", "space")
        k.sees(said)
        assert (k.screen, len(k.standing("pantry"))) == ("Castings", written)
        await other(k, act)
        await k.press("ctrl+s")
        assert len(k.standing("pantry")) > written


async def test_a_reading_may_be_taken_any_day(tmp_path: Path) -> None:
    wet = entry("lot_moved", 114, lot="A1", stage="drying", kg=4.0, moisture_pct=75)
    async with keeper(a_home(tmp_path, (*a_usual_bin(), LOT, wet)), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "space")
        k.sees("Moisture", "not read")


@pytest.mark.parametrize(
    ("before", "said"),
    [
        ((), "! It still hatches: cocoons and young would go with it ("),
        ((entry("lot_moved", 110, lot="A1", stage="drying"),), "! It still dries: to be sieved from"),
        ((entry("lot_moved", 110, lot="A1", stage="curing"),), "! It still cures: ready from Fri 3 Jul"),
    ],
)
@pytest.mark.parametrize("act", ["pack", "use"])
async def test_what_is_not_ready_is_said_before_any_of_it_goes(
    tmp_path: Path, before: tuple[Any, ...], said: str, act: str
) -> None:
    home = a_home(tmp_path, (*a_usual_bin(), LOT, *before))
    async with keeper(home, "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "plus" if act == "pack" else "minus")
        k.sees(said)
        await k.press("escape")
        await other(k, act)
        k.sees(said[2:40])
        await k.press("escape", "minus", "space")
        assert len(lot_of(k).used) == 1


async def test_of_what_is_ready_nothing_is_said(tmp_path: Path) -> None:
    async with keeper(ready_home(tmp_path), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "minus")
        k.sees_no("! It still")


async def test_the_mark_stays_at_its_lot_whatever_is_written(tmp_path: Path) -> None:
    more = (
        entry("lot_begun", 91, lot="B1", kg=1.0),
        entry("lot_begun", 92, lot="C1", kg=1.0),
        entry("lot_moved", 112, lot="C1", stage="ready"),
    )
    async with keeper(ready_home(tmp_path, *more), "pantry", wrist=Wrist(moment(125))) as k:
        await k.press("1", "down")
        assert k.reads("#name") == "Lot C1"
        await k.press("plus", "space")
        assert k.reads("#name") == "Lot C1"
        await k.press("u")
        assert k.reads("#name") == "Lot C1"
        # Closed it is gone from the list; taken back, it is here again and marked.
        await other(k, "close")
        await k.press("ctrl+s")
        assert k.reads("#name") == "Lot B1"
        await k.press("u")
        assert k.reads("#name") == "Lot C1"


async def test_only_what_stayed_on_the_mesh_was_weighed(tmp_path: Path) -> None:
    dries = entry("lot_moved", 100, lot="A1", stage="drying")
    home = a_home(tmp_path, (*a_usual_bin(), LOT, dries))
    async with keeper(home, "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "space", "down", "enter")
        await k.type("2.5 kg")
        await k.press("enter")
        k.sees("Without that, 1.5 kg of it is left.")
        await k.press("space")
        assert lot_of(k).kg == pytest.approx(1.5)


async def test_given_out_of_a_jar_no_more_than_it_holds(tmp_path: Path) -> None:
    jar = entry("packed", 111, lot="A1", label="small", kg=0.2)
    async with keeper(ready_home(tmp_path, jar), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1")
        await other(k, "give")
        await k.heed()
        k.sees("small", "200 g")
        await k.press("plus")
        k.sees("That is more than the 200 g there is by weight.")
        await k.press("minus", "space")
        (given,) = lot_of(k).given
        assert given.label == "small"
        assert given.kg == pytest.approx(0.2)
        assert k.stack("pantry").findings == ()


async def test_what_still_hatches_is_said_before_it_is_given(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(moment(95))) as k:
        await k.press("1")
        await other(k, "give")
        await k.heed()
        k.sees("! It still hatches: cocoons and young would go with it")


async def test_undo_says_bait(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "space", "u")
        k.sees("Taken back: bait laid")


async def test_more_than_there_is_is_not_written_down_as_used_or_given(tmp_path: Path) -> None:
    little = entry("lot_moved", 111, lot="A1", stage="ready", kg=0.35)
    async with keeper(ready_home(tmp_path, little), "pantry", wrist=Wrist(moment(115))) as k:
        await k.press("1", "minus", "down", "down", "enter")
        await k.type("50 kg")
        await k.press("enter", "space")
        k.sees("That is more than the 350 g there is.")
        assert lot_of(k).used == ()
