"""What is picked out of a tray, and the rest that is chosen: all by keyboard, with gloves on."""

from datetime import timedelta
from pathlib import Path

import pytest

from tests.builders import entry, moment, turned
from tests.tui.house import ODD_TEXTS
from tests.tui.separating import a_keeper, add_stones, end, row, settle, take, to_the_skim
from tests.tui.stories import written_elsewhere
from trayturn.domain.entries import Contaminant, ContaminantFound, PassDone


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
        k.sees("more passes, ", "That rests on 1 pass of this tray (by sight:")


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
