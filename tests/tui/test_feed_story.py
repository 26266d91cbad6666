"""Feeding: with gloves on, with clean hands, with too much in the caddy, and when things go wrong."""

from __future__ import annotations

import errno
from pathlib import Path
from typing import Any

import pytest

from tests.builders import entry, fed, moment, started
from tests.tui.house import a_home
from tests.tui.stories import Keeper, Wrist, keeper, written_elsewhere
from tests.tui.test_trouble_story import refuse
from trayturn.advice.cautions import CAUTIONS
from trayturn.advice.composing.ground import Goals
from trayturn.domain.entries import Entry, Fed, MealKept, MeasureSet, PutOff

HEEDED = entry("cautions_read", 0, work="all", codes=[one.code for one in CAUTIONS])
BIN: tuple[Entry, ...] = (
    HEEDED,
    entry("worms_added", 0, worms_kg=0.5),
    entry("supplies_added", 0, supplies_kg={"shredded cardboard": 1.5, "oats": 0.5}),
    started("A", 0, stage="feeding"),
    fed("A", 2, {"cabbage": 0.3, "coffee grounds": 0.1}, bedding_kg={"shredded cardboard": 0.1}),
)
NOW = Wrist(moment(20, 18))


def a_keeper(path: Path, *entries: Entry, **how: Any) -> Any:
    """A keeper at the usual bin, who has read the cautions."""
    setup = {"units": how.pop("units")} if "units" in how else {}
    home = a_home(path, (*BIN, *entries), **setup)
    return keeper(home, "pantry", wrist=Wrist(NOW.now), **how)


def last_fed(k: Keeper) -> Fed:
    found = [one for one in k.standing("pantry") if isinstance(one, Fed)]
    return found[-1]


async def test_with_gloves_on_a_feeding_is_arrows_more_less_and_space(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await k.press("space")
        k.sees("Meal for tray A (as last time)", "cabbage", "+ 300 g", "nothing in it yet")
        await k.press("+", "+", "-", "down", "+", "+")
        k.sees("a quarter of what they take", "425 g, 87 %, C:N 20")
        await k.press("end", "enter")
        k.sees("as proposed")
        await k.press("space")
        assert k.screen == "Stack"
        k.sees("Feeding saved. u takes it back")
        meal = last_fed(k)
        assert meal.items_kg == pytest.approx({"cabbage": 0.3, "coffee grounds": 0.125})
        assert list(meal.bedding_kg) == ["shredded cardboard"]
        stock = k.stack("pantry").supplies_kg["shredded cardboard"]
        assert stock == pytest.approx(0.9 - meal.bedding_kg["shredded cardboard"])
        await k.press("u")
        k.sees("Taken back: fed A")
        assert len(last_fed(k).items_kg) == 2


async def test_letters_find_a_name_and_the_figures_follow_the_amount(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await k.press("f", "a")
        for letter in "bana":
            await k.press(letter)
        k.sees("banana", "banana peel")
        await k.press("down", "enter")
        k.sees("How much banana peel?", "100 g", "C:N 43")
        await k.press("+")
        k.sees("125 g")
        await k.press("up", "-")
        k.sees("125 g, 80 %")
        await k.press("enter")
        k.sees("banana peel 125 g is in.")
        await k.press("enter")
        k.sees("Meal for tray A", "125 g")
        await k.press("space")
        assert last_fed(k).items_kg == pytest.approx({"banana peel": 0.125})


async def test_a_name_with_its_amount_is_added_at_once_in_any_measure(tmp_path: Path) -> None:
    async with a_keeper(tmp_path, entry("measure_set", 1, measure="bowl", kg=0.4)) as k:
        await k.press("f", "a")
        for text in ("apple 2 bowls", "lettuce=150 g", "oats 50 g"):
            await k.type(text)
            await k.press("enter")
        await k.press("escape")
        k.sees("800 g", "lettuce", "3 then")
        await k.press("space")
        assert last_fed(k).items_kg == pytest.approx({"apple": 0.8, "lettuce": 0.15, "oats": 0.05})
        assert k.stack("pantry").supplies_kg["oats"] == pytest.approx(0.45)


async def test_a_slip_in_an_amount_is_told_and_stays_to_be_mended(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await k.press("f", "a")
        await k.type("cabbage")
        await k.press("enter")
        await k.type("much")
        await k.press("enter")
        k.sees("is not an amount", "much")
        await k.press("escape")
        k.sees("Add what?", "cabbage")
        await k.press("enter")
        await k.type("300")
        await k.press("enter")
        k.sees("more than", "300")
        await k.press("escape", "escape", "space")
        k.sees("Nothing to write down yet")
        assert k.screen == "Feed"


async def test_what_nobody_knows_is_fed_as_typed_and_said_to_be_reckoned(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await k.press("f", "a")
        await k.type("zzyzx [red] 200 g")
        await k.press("enter", "escape")
        k.sees("zzyzx [red]", "reckoned as kitchen")
        await k.press("space")
        assert last_fed(k).items_kg == pytest.approx({"zzyzx [red]": 0.2})


async def test_us_units_are_read_shown_and_stepped(tmp_path: Path) -> None:
    async with a_keeper(tmp_path, units="us") as k:
        await k.press("f")
        k.sees("+ 10.6 oz")
        await k.press("a")
        await k.type("apple 1.5 lb")
        await k.press("enter", "escape")
        k.sees("1.5 lb", "in of scraps")
        await k.press("-")
        k.sees("1.38 lb")
        await k.press("space")
        assert last_fed(k).items_kg["apple"] == pytest.approx(0.45359237 * 1.375)


async def test_too_much_in_the_caddy_is_shared_out_and_taken_back_as_one(tmp_path: Path) -> None:
    caddy = entry("put_off", 18, items_kg={"potato": 2.0, "lettuce": 1.0, "cheese": 0.1})
    async with a_keeper(tmp_path, caddy) as k:
        await k.press("f")
        k.sees("(from the caddy)", "potato", "2 kg", "waits 100 g", "too much at once")
        await k.press("end", "enter")
        k.sees("Now and later", "1. lettuce, 1 kg: goes fast and leaks.", "potato, 9", "Leave it out: dairy")
        await k.press("escape", "space")
        k.sees("Feeding saved.")
        *_, meal, waits = k.standing("pantry")
        assert isinstance(meal, Fed)
        assert isinstance(waits, PutOff)
        assert meal.items_kg["lettuce"] == 1.0
        assert meal.items_kg["potato"] + waits.items_kg["potato"] == pytest.approx(2.0)
        assert waits.items_kg["cheese"] == pytest.approx(0.1)
        await k.press("u")
        assert k.stack("pantry").caddy_kg == {"potato": 2.0, "lettuce": 1.0, "cheese": 0.1}
        assert k.standing("pantry")[-1].kind == "put_off"


async def test_a_goal_out_of_reach_is_said_and_every_figure_has_its_why(tmp_path: Path) -> None:
    wet = entry("checked", 19, tray="A", moisture_pct=92)
    async with a_keeper(tmp_path, wet) as k:
        await k.press("f", "+", "end", "enter")
        k.sees("far as it fits.", "Moisture comes to about")
        await k.press("tab")
        for code, words in (
            ("meal", "carbon over all the nitrogen"),
            ("tray", "its reading of 2026-03-20"),
            ("load", "by the journal"),
            ("gone", "No table of days"),
            ("water", "0.598"),
            ("layer", "Sherman"),
        ):
            await k.press("enter")
            assert k.screen == "Reason", code
            assert words in k.reads("#reason"), code
            await k.press("escape", "down")
        await k.press("enter")
        assert "Source: " in k.reads("#reason")


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES])
async def test_a_meal_waits_for_the_disk(tmp_path: Path, number: int) -> None:
    async with a_keeper(tmp_path) as k:
        await k.press("f", "+")
        before = k.standing("pantry")
        with pytest.MonkeyPatch.context() as patch:
            refuse(patch, number)
            await k.press("space")
            assert len(k.troubles) == 1
            k.sees("300 g")
            assert k.standing("pantry") == before
        await k.press("space")
        k.sees("Feeding saved.")


async def test_an_unfinished_meal_is_kept_and_gone_on_with(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await k.press("f", "+", "escape")
        assert k.screen == "Stack"
        k.sees("Not written down. f goes on with this meal")
        await k.press("f")
        k.sees("(unfinished)", "300 g")
        await k.press("q")
        assert k.screen == "Feed"
        k.sees("Not written down yet")
        await k.press("space", "f")
        k.sees("(as last time)", "nothing in it yet")
        await k.press("escape")
        k.sees_no("Not written down")


async def test_g_goes_round_the_meals_and_keeps_what_was_changed(tmp_path: Path) -> None:
    kept = entry("meal_kept", 3, name="Sunday", items_kg={"leek": 0.4})
    async with a_keeper(tmp_path, kept) as k:
        await k.press("f", "+", "g")
        k.sees("(meal Sunday)", "leek", "400 g")
        await k.press("g")
        k.sees("(as you had it)", "300 g")
        await k.press("g")
        k.sees("(as last time)", "+ 300 g")


async def test_a_meal_is_kept_and_dropped_and_a_measure_is_set(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await k.press("f", "+")
        await k.press(*["down"] * 5, "enter", "enter")
        await k.type("Sunday")
        await k.press("enter")
        assert isinstance(k.standing("pantry")[-1], MealKept)
        k.sees("Meal kept.", "300 g")
        await k.press("enter", "down", "enter", "enter")
        assert k.standing("pantry")[-1].kind == "meal_dropped"
        await k.press("up", "up", "up", "up", "up", "2")
        k.sees("168 g")
        await k.press(*["down"] * 5, "enter", "down", "enter", "enter")
        await k.type("90 g")
        await k.press("enter")
        last = k.standing("pantry")[-1]
        assert isinstance(last, MeasureSet)
        assert (last.measure, last.of) == ("handful", "")
        assert last.kg == pytest.approx(0.09)
        await k.press("up", "up", "up", "up", "up", "3")
        k.sees("270 g", "handfuls of 90 g (yours)")
        await k.press("+")
        k.sees("360 g")


async def test_goals_and_a_note_are_set_and_amounts_typed(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await k.press("f", "+", "enter")
        await k.type("a cup")
        await k.press("enter")
        k.sees("210 g")
        await k.press("i")
        await k.type("under the [lid]")
        await k.press("enter")
        k.sees("Your note is kept")
        await k.press(*["down"] * 5, "enter", "down", "down", "enter", "ctrl+u")
        await k.type("99")
        await k.press("enter")
        k.sees("It is from 40 to 95.")
        await k.press("ctrl+u")
        await k.type("80")
        await k.press("enter", "ctrl+u")
        await k.type("30")
        await k.press("enter")
        assert k.app.left_off["goals", "pantry"] == Goals(0.8, 30)
        await k.press("space")
        assert last_fed(k).note == "under the [lid]"


async def test_the_typed_form_is_still_there_for_a_past_day(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await k.press("f", *["down"] * 5, "enter", "end", "enter")
        k.sees("Feed Pantry", "What went in.")
        await k.press("tab")
        await k.type("cabbage=700 g")
        await k.press("tab", "tab", "tab", "tab")
        await k.type("2026-03-10 10:00")
        await k.press("ctrl+s")
        assert k.screen == "Stack"
        k.sees("Feeding saved.")
        assert last_fed(k).at.date() == moment(9).date()


async def test_v_feeds_another_tray_and_x_takes_a_line_out(tmp_path: Path) -> None:
    async with a_keeper(tmp_path, started("B", 1)) as k:
        await k.press("f", "+", "v")
        k.sees("Meal for tray B", "300 g", "First meal of tray B.")
        await k.press("v")
        k.sees("Meal for tray A")
        await k.press("x")
        k.sees_no("cabbage")


async def test_grit_asks_for_its_cautions_first(tmp_path: Path) -> None:
    stock = entry("supplies_added", 1, supplies_kg={"grit": 0.2})
    async with a_keeper(tmp_path, stock) as k:
        await k.press("f", "+", "end", "enter", "space")
        assert k.screen == "CautionsSheet"
        await k.heed()
        k.sees("Feeding saved.")
        assert last_fed(k).grit_kg == pytest.approx(0.005)


async def test_a_feeding_in_another_window_is_told_before_this_one_counts(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await k.press("f", "+")
        written_elsewhere(tmp_path, "pantry", [fed("A", 20, {"leek": 0.1})])
        await k.press("space")
        k.sees("It was fed in another window", "300 g")
        await k.press("space")
        k.sees("Feeding saved.")


async def test_a_bin_without_a_tray_says_what_to_do_and_a_lost_file_loses_nothing(tmp_path: Path) -> None:
    home = a_home(tmp_path / "bare", (HEEDED,))
    async with keeper(home, "pantry", wrist=Wrist(NOW.now)) as k:
        await k.press("f")
        k.sees("There is no tray on the stack to feed.", "no tray to feed")
        await k.press("+", "a", "x", "g", "v", "space", "1", "enter", "i", "tab", "enter", "escape")
        assert k.screen == "Stack"
    async with a_keeper(tmp_path / "home") as k:
        file = tmp_path / "home" / "pantry.toml"
        await k.press("f", "+")
        file.rename(tmp_path / "away")
        await k.look()
        k.sees("cannot be read")
        await k.press("+", "a", "space", "escape", "f")
        (tmp_path / "away").rename(file)
        await k.look()
        await k.press("f")
        k.sees("(unfinished)", "300 g, 92 %")


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
@pytest.mark.parametrize("letters", [True, False])
async def test_it_fits_and_keeps_to_letters_where_asked(
    tmp_path: Path, size: tuple[int, int], letters: bool
) -> None:
    async with a_keeper(tmp_path, size=size, ascii=letters) as k:
        await k.press("f", "+", "end", "enter")
        assert k.footer_fits
        assert k.picture.isascii() is letters
        if size[0] >= 120:
            k.sees("Cover: ", "so that no")
        await k.press("a")
        await k.type("onion")
        k.sees("a little")
