"""Where castings and worms go once a tray is done: a lot, another bin, and back again."""

from pathlib import Path

import pytest

from tests.builders import entry, moment
from tests.tui.separating import a_keeper, a_shed, marked_choices, row, settle, settled, take, to_the_skim
from tests.tui.stories import Keeper, written_elsewhere
from trayturn.domain.entries import LotStage, Step, WormsAdded, WormsRemoved


async def test_castings_that_are_weighed_become_a_lot_and_going_back_takes_it_back(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await to_the_skim(k)
        await settle(k)
        k.sees("Lot A1", "‹ hatch tub, to hatch ›", "to the end.")
        await k.press("+", "+")
        await row(k, "Lot A1")
        await k.press("right")
        k.sees("‹ drying tray, to dry ›")
        await k.press("enter")
        await k.type("by the window")
        await k.press("enter")
        k.sees("‹ by the window, to dry ›")
        await k.press("space")
        lot = k.stack("pantry").lot("A1")
        assert lot is not None
        assert (lot.kg, lot.stage, lot.place, lot.tray) == (0.2, LotStage.DRYING, "by the window", "A")
        await k.press("b")
        assert k.stack("pantry").lots == ()
        k.sees("‹ by the window, to dry ›", "-  200 g  +")
        await k.press("space", "u")
        assert (k.stack("pantry").lots, k.step("pantry").step) == ((), Step.SETTLE)
        await k.press("space")
        moved = entry("lot_moved", moment(120), lot="A1", stage="curing")
        written_elsewhere(k.app.shelf.home, "pantry", [moved])
        await k.look()
        await k.press("b")
        k.sees("Lot A1 has gone on since. Take that back", "Step 7 of 7")


async def to_the_shed(k: Keeper) -> None:
    """As far as the settling, with the worms to go to the shed."""
    await to_the_skim(k)
    await settle(k)
    await row(k, "Worms to")
    await k.press("right", "right")
    k.sees("‹ bin Shed ›", "by weight", "or number")


async def test_worms_left_over_go_to_another_bin_and_come_back_from_it(tmp_path: Path) -> None:
    a_shed(tmp_path)
    async with a_keeper(tmp_path) as k:
        await to_the_shed(k)
        await k.press("space", "space")
        k.sees("How many worms go to Shed? Step their weight or", "Step 6 of 7")
        assert not any(isinstance(e, WormsRemoved) for e in k.standing("pantry"))
        await row(k, "by weight")
        await k.press("+", "+", "+")
        here, there = k.standing("pantry"), k.standing("shed")
        for key in ("b", "u"):
            await settled(k)
            (out,) = [e for e in k.standing("pantry") if isinstance(e, WormsRemoved)]
            (into,) = [e for e in k.standing("shed") if isinstance(e, WormsAdded)]
            assert (out.went_to, out.tray, into.source) == ("Shed", "A", "Pantry")
            assert out.worms_kg == pytest.approx(0.3)
            assert (into.worms_kg, into.at) == (out.worms_kg, out.at)
            assert k.stack("shed").worms_kg == pytest.approx(0.3)
            await k.press(key)
            k.sees("Step 6 of 7", "‹ bin Shed ›", "-  300 g  +")
            assert (k.standing("pantry"), k.standing("shed")) == (here, there)
            assert k.stack("shed").worms_kg is None


async def test_worms_that_were_counted_are_weighed_by_their_number(tmp_path: Path) -> None:
    a_shed(tmp_path)
    async with a_keeper(tmp_path, size=(120, 40)) as k:
        await to_the_shed(k)
        await row(k, "or number")
        await k.press(*["+"] * 8)
        await settled(k)
        (out,) = [e for e in k.standing("pantry") if isinstance(e, WormsRemoved)]
        assert out.counted == 400
        assert 0.05 < out.worms_kg < 0.5
        await k.press("space")
        k.sees(f"Worms moved: {round(1000 * out.worms_kg)} g (400 worms) to Shed.")


async def test_a_species_of_unknown_weight_has_to_be_weighed(tmp_path: Path) -> None:
    a_shed(tmp_path)
    async with a_keeper(tmp_path, species="mixed") as k:
        await to_the_shed(k)
        await row(k, "or number")
        await k.press("+", "space", "space")
        k.sees("Weigh them.", "Step 6 of 7")


async def test_a_bin_that_cannot_be_written_leaves_both_as_they_were(tmp_path: Path) -> None:
    a_shed(tmp_path)
    async with a_keeper(tmp_path) as k:
        await to_the_shed(k)
        await row(k, "by weight")
        await k.press("+")
        here = k.standing("pantry")
        (tmp_path / "shed.toml").write_text("not a profile", encoding="utf-8")
        await k.press("space", "space")
        k.sees("Step 6 of 7", "‹ bin Shed ›", "-  100 g  +")
        assert k.standing("pantry") == here


async def test_once_the_shed_has_gone_on_it_keeps_its_worms(tmp_path: Path) -> None:
    a_shed(tmp_path)
    async with a_keeper(tmp_path) as k:
        await to_the_shed(k)
        await row(k, "by weight")
        await k.press("+", "space", "space")
        written_elsewhere(tmp_path, "shed", [entry("note", moment(120), text="fed early")])
        await k.look()
        await k.press("b")
        k.sees("Shed has gone on and keeps its worms.", "Step 6 of 7")
        assert k.stack("shed").worms_kg == pytest.approx(0.1)
        assert not any(isinstance(e, WormsRemoved) for e in k.standing("pantry"))


async def test_amounts_for_the_shed_are_kept_while_the_keeper_looks_at_other_places(tmp_path: Path) -> None:
    a_shed(tmp_path)
    async with a_keeper(tmp_path) as k:
        await to_the_shed(k)
        await row(k, "by weight")
        await k.press("+", "+", "up", "left")
        k.sees_no("by weight")
        await k.press("right")
        k.sees("-  200 g  +")


@pytest.mark.parametrize(
    ("label", "hint", "opens"),
    [
        ("Castings", "- and + change, Enter types.", "TypeIn"),
        ("Lot A1", "- and + change, Enter types another", "TypeIn"),
        ("Worms to", "- and + change, Enter picks.", "Choose"),
        ("The rest to", "- and + change, Enter picks.", "Choose"),
        ("Add a piece", "Enter picks.", "Choose"),
        ("Pieces to", "- and + change, Enter picks.", "Choose"),
    ],
)
async def test_what_the_hint_says_of_enter_is_true_of_the_marked_row(
    tmp_path: Path, label: str, hint: str, opens: str
) -> None:
    async with a_keeper(tmp_path) as k:
        await to_the_skim(k)
        await settle(k)
        await row(k, label)
        assert hint in k.reads("#hint")
        await k.press("enter")
        assert k.screen == opens


async def test_a_place_is_picked_from_its_list_which_opens_at_it(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await to_the_skim(k)
        await settle(k)
        await row(k, "Worms to")
        await k.press("right", "enter")
        assert "tray C" in marked_choices(k)[0]
        await take(k, "another bin")
        k.sees("‹ another bin ›", "Step 6 of 7")


async def test_enter_says_what_it_cannot_do_on_a_number(tmp_path: Path) -> None:
    a_shed(tmp_path)
    async with a_keeper(tmp_path) as k:
        await to_the_shed(k)
        await row(k, "or number")
        assert "Enter" not in k.reads("#hint")
        await k.press("enter")
        assert k.reads("#hint") == "- and + change it; Space goes on."


async def test_too_many_worms_are_remarked_on_beside_their_row(tmp_path: Path) -> None:
    a_shed(tmp_path)
    async with a_keeper(tmp_path) as k:
        await to_the_shed(k)
        await row(k, "by weight")
        await k.press("enter")
        k.sees("such as 250 g")
        await k.type("500 kg")
        await k.press("enter")
        k.sees("-  500 kg  +")
        assert "more than the 1 kg this bin is known to hold" in k.reads("#about")
        await k.press("enter")
        await k.type("200 g")
        await k.press("enter")
        assert "more than" not in k.reads("#about")
