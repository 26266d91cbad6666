"""What is picked out of a tray, where worms and castings go, and the rest chosen: all by keyboard."""

from contextlib import AbstractAsyncContextManager
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.builders import a_bin, a_usual_bin, entry, moment, started, turned
from tests.tui.house import ODD_TEXTS, a_home
from tests.tui.stories import Keeper, Wrist, keeper, written_elsewhere
from trayturn.domain.entries import (
    Contaminant,
    ContaminantFound,
    Entry,
    LotStage,
    PassDone,
    Step,
    WormsAdded,
    WormsRemoved,
)
from trayturn.domain.setup import Tray
from trayturn.storage import managing

BEGUN = (entry("worms_added", 1, worms_kg=1.0),)


def a_keeper(
    home: Path, *entries: Entry, size: tuple[int, int] = (80, 24), **setup: Any
) -> AbstractAsyncContextManager[Keeper]:
    """A keeper of the usual bin on day 120, when tray A has finished."""
    a_home(home, (*a_usual_bin(), *BEGUN, *entries), **setup)
    return keeper(home, "pantry", wrist=Wrist(moment(120)), size=size)


def a_shed(home: Path) -> None:
    """Another bin in the same home."""
    trays = [Tray(id=name) for name in "AB"]
    managing.create(home, a_bin(name="Shed"), trays, (started("A", 50, stage="feeding"),), "shed")


async def to_the_skim(k: Keeper) -> None:
    """Begin with the finished tray, tick every caution, and go on to the first skim."""
    await k.press("s", "space")
    await k.press(*["space"] * k.picture.count("[ ]"))
    await k.press("space", "space", "e")
    k.sees("Step 4 of 7, pass 1")


async def row(k: Keeper, label: str) -> Keeper:
    """Move the mark to the row of that name."""
    await k.press("home")
    for _ in range(20):
        if any(line.lstrip("▌ ").startswith(label) for line in marked_lines(k)):
            return k
        await k.press("down")
    raise AssertionError(f"no row {label!r} in:\n{k.picture}")


def marked_lines(k: Keeper) -> list[str]:
    return [line.split("▌")[-1] for line in k.picture.splitlines() if "▌" in line[25:]]


async def take(k: Keeper, name: str) -> Keeper:
    """Take a choice of the sheet by its name."""
    assert k.screen == "Choose"
    for _ in range(30):
        if any(line.startswith(f"{name} ") for line in marked_choices(k)):
            return await k.press("enter")
        await k.press("down")
    raise AssertionError(f"no choice {name!r} in:\n{k.picture}")


def marked_choices(k: Keeper) -> list[str]:
    return [
        line.lstrip().removeprefix("▌") for line in k.picture.splitlines() if line.lstrip().startswith("▌")
    ]


async def add_stones(k: Keeper, number: str = "2") -> None:
    await row(k, "Add a piece")
    await k.press("enter")
    await take(k, "avocado stone")
    await take(k, "4 cm")
    await k.press(number)


async def settle(k: Keeper) -> None:
    """From the skim to the settling, with few worms seen."""
    await row(k, "Worms seen")
    await k.press("2", "space", "2", "space")
    k.sees("Step 6 of 7")


async def settled(k: Keeper) -> None:
    """All has its place, without a weight unless one stands there."""
    await k.press("space")
    if "are not weighed" in k.picture:
        await k.press("space")
    k.sees("Step 7 of 7")


async def end(k: Keeper) -> None:
    """From the settling to the summary."""
    await settled(k)
    await k.press("space")
    k.sees("Summary")


async def test_pieces_that_come_out_of_two_trays_have_gone_round_twice(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await to_the_skim(k)
        await add_stones(k)
        k.sees("avocado stone", "-  2, 4 cm  +")
        await settle(k)
        k.sees("-  2, 4 cm  +", "tray B")
        await end(k)
        k.sees("On to tray B: 2 x avocado stone, 4 cm.")
        await k.press("space")
        over = k.stack("pantry").overs[0]
        assert (over.what, over.count, over.size_cm, over.tray, over.turns) == ("avocado stone", 2, 4, "B", 1)
        written_elsewhere(k.app.shelf.home, "pantry", [turned("CB", 130, C="feeding", B="finishing")])
        k.wrist.now = moment(190)
        await k.look()
        await to_the_skim(k)
        k.sees("tray B", "avocado stone", "not seen yet")
        await row(k, "avocado stone")
        k.sees("2 went in, survived 1 turn. Still there?")
        await k.press("+")
        k.sees("-  2, 4 cm  +")
        await settle(k)
        await end(k)
        assert "On to tray C: 2 x avocado stone, 4 cm (2 turns by now)." in k.reads("#reasons")
        over = k.stack("pantry").overs[0]
        assert (over.count, over.tray, over.turns, over.first_at) == (2, "C", 2, moment(120))


async def test_known_pieces_that_nobody_saw_again_are_gone_with_the_tray(tmp_path: Path) -> None:
    known = entry("overs_carried", 60, tray="C", to="A", pieces=[{"what": "mango stone", "count": 3}])
    async with a_keeper(tmp_path, known) as k:
        await to_the_skim(k)
        k.sees("mango stone", "not seen yet")
        await settle(k)
        k.sees("mango stone", "not seen yet", "there were none")
        await end(k)
        k.sees("Gone with it: mango stone, after 1 turn.")
        assert [(over.what, over.turns) for over in k.stack("pantry").overs_gone] == [("mango stone", 1)]


async def test_pieces_are_gathered_over_the_passes_and_what_was_found_has_no_row(tmp_path: Path) -> None:
    known = entry("overs_carried", 60, tray="C", to="A", pieces=[{"what": "corn cob", "count": 3}])
    async with a_keeper(tmp_path, known) as k:
        await to_the_skim(k)
        await row(k, "corn cob")
        await k.press("2")
        await row(k, "Worms seen")
        await k.press("2", "space", "1", "space", "space", "e")
        await row(k, "corn cob")
        await k.press("+")
        k.sees("-  1  +")
        await row(k, "Worms seen")
        await k.press("2", "space", "1", "space", "space", "e")
        k.sees("pass 3")
        k.sees_no("corn cob")
        await settle(k)
        k.sees("-  3  +")


async def test_what_does_not_belong_is_written_with_its_pass_and_named_again(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await to_the_skim(k)
        await row(k, "Add contaminant")
        await k.press("enter")
        await take(k, "sticker")
        k.sees("What did it come in with?", "not known", "cabbage", "shredded cardboard", "other, typed")
        await take(k, "other, typed")
        await k.type("lunch boxes")
        await k.press("enter")
        k.sees("sticker", "-  1, with lunch boxes  +")
        await k.press("+", "+")
        await row(k, "Worms seen")
        await k.press("2", "space")
        (found,) = [e for e in k.standing("pantry") if isinstance(e, ContaminantFound)]
        assert (found.what, found.count, found.source, found.tray) == (
            Contaminant.STICKER,
            3,
            "lunch boxes",
            "A",
        )
        done = next(e for e in k.standing("pantry") if isinstance(e, PassDone))
        assert found.at == done.at
        await k.press("b")
        k.sees("-  3, with lunch boxes  +", "[2 few]")
        await row(k, "sticker")
        await k.press("enter")
        await take(k, "lunch boxes")
        await k.press("space", "1", "space")
        assert len([e for e in k.standing("pantry") if isinstance(e, ContaminantFound)]) == 1


async def test_another_source_and_a_size_are_taken_on_the_row(tmp_path: Path) -> None:
    async with a_keeper(tmp_path, units="us") as k:
        await to_the_skim(k)
        await row(k, "Add a piece")
        await k.press("enter")
        await take(k, "other, typed")
        await k.press("enter")
        k.sees("Type a name, or leave with Esc.")
        await k.type("peach stone")
        await k.press("enter")
        await take(k, "1.5 in")
        await k.press("enter")
        await take(k, "not measured")
        k.sees("peach stone", "-  1  +")
        await row(k, "Add contaminant")
        await k.press("enter")
        await take(k, "tape")
        await take(k, "not known")
        k.sees("-  1, source not known  +")
        await k.press("enter")
        await take(k, "cabbage")
        k.sees("-  1, with cabbage  +")
        await row(k, "Add contaminant")
        await k.press("enter")
        await take(k, "tape")
        await take(k, "cabbage")
        k.sees("-  2, with cabbage  +")


@pytest.mark.parametrize("text", ODD_TEXTS[:6])
async def test_a_piece_of_any_name_is_drawn_and_kept(tmp_path: Path, text: str) -> None:
    async with a_keeper(tmp_path) as k:
        await to_the_skim(k)
        await row(k, "Add a piece")
        await k.press("enter")
        await take(k, "other, typed")
        await k.type(text)
        await k.press("enter", "escape", "3")
        await settle(k)
        await end(k)
        assert [(over.what, over.count) for over in k.stack("pantry").overs] == [(text, 3)]


async def test_a_name_too_long_is_said_under_the_line(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await to_the_skim(k)
        await row(k, "Add a piece")
        await k.press("enter")
        await take(k, "other, typed")
        await k.type("x" * 61)
        await k.press("enter")
        k.sees("That is too long; the most is 60 characters.")
        await k.press("backspace", "enter", "escape")
        k.sees("x" * 19)


async def test_leaving_keeps_what_was_counted_of_the_step(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await to_the_skim(k)
        await add_stones(k, "5")
        await row(k, "Worms seen")
        await k.press("3", "escape")
        assert k.screen == "Stack"
        await k.press("s")
        k.sees("[3 many]", "-  5, 4 cm  +")
        await k.press("space", "b", "escape", "s")
        k.sees("-  5, 4 cm  +")


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


async def test_the_rest_that_is_chosen_is_the_next_one(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await to_the_skim(k)
        for _ in range(3):
            await k.press("b")
            await k.wait(minutes=15)
            await k.press("space", "1", "space", "1", "space", "space", "e")
        await k.press("b")
        await k.wait(minutes=15)
        await k.press("space", "1", "space")
        assert "a shorter rest would do" in k.reads("#reasons")
        k.sees("‹ 15 min, as set ›")
        await row(k, "Next rest")
        await k.press("right")
        k.sees("min, as advised ›")
        advised = int(k.picture.split("‹ ")[1].split(" min")[0])
        assert 5 <= advised < 15
        await row(k, "Now")
        await k.press("space", "space")
        k.sees("Step 3 of 7, pass 5")
        assert k.step("pantry").planned == timedelta(minutes=advised)
        await k.press("e", "2", "space")
        k.sees(f"‹ {advised} min, as ")


async def test_the_pass_under_way_is_counted_in_while_skimming(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await to_the_skim(k)
        k.sees("passes with this one, ", "That rests on common practice, no source.")
        await k.press("2", "space")
        k.sees("more passes, ", "That rests on 1 pass of this tray, not all")


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_a_step_of_many_rows_is_answered_without_a_scrollbar(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    known = [{"what": f"piece {n}", "count": 1} for n in range(9)]
    async with a_keeper(tmp_path, entry("overs_carried", 60, tray="C", to="A", pieces=known), size=size) as k:
        await to_the_skim(k)
        await k.press("end")
        k.sees("Anything else", "In your own words.", "Space: skimmed.")
        await k.press("home")
        k.sees("Worms seen")
        assert k.footer_fits
