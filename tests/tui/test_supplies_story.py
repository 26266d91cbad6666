"""The supplies screen: what there is and what to gather, and everything written down with gloves on."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.builders import a_usual_bin, entry, fed, moment, started
from tests.tui.house import a_home
from tests.tui.stories import Keeper, Wrist, keeper, samples
from trayturn.domain.entries import Entry, SuppliesAdded, SuppliesCounted, SuppliesUsed

CARDBOARD = "shredded cardboard"
GRIT = "grit"


def stocked(**kg: float) -> tuple[Entry, ...]:
    """The usual bin with that in stock, counted on day 62; looked at on day 63."""
    names = {"cardboard": CARDBOARD, "grit": GRIT}
    held = {names[name]: mass for name, mass in kg.items()}
    return (*a_usual_bin(), entry("supplies_counted", 62, supplies_kg=held))


def last(k: Keeper) -> Entry:
    return k.standing("pantry")[-1]


async def test_the_table_tells_each_supply_and_the_story_the_marked_one(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "school") as k:
        await k.press("p")
        assert k.screen == "Supplies"
        assert k.footer_fits
        k.sees("Supplies of Room 12", "2 supplies", "1 short", "shredded newspaper", "short", "enough")
        k.sees("! Shred about 1.1 lb of shredded newspaper by Thu 14 Jan", "Or put the turn off")
        k.sees("The next fresh tray, in 57 days, needs about 1 lb")
        await k.press("down")
        k.sees("In a week about 0.11 oz", "It lasts for more than a year.")
        await k.press("enter")
        assert k.screen == "Reason"
        k.sees("A feeding takes about 0.2 oz", "your last 15 feedings", "h opens the handbook")
        await k.press("escape", "escape")
        assert k.screen == "Stack"


async def test_the_same_words_stand_beside_the_table_in_a_wide_window(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "school", size=(120, 40)) as k:
        await k.press("p")
        k.sees("A fresh tray takes about 1 lb", "Reckoned ahead as this bin is set", "short", "enough")
        assert k.footer_fits


async def test_space_writes_down_what_came_in_and_it_goes_from_the_due_list(tmp_path: Path) -> None:
    home = a_home(tmp_path, (*stocked(cardboard=0.2), fed("B", 119)))
    async with keeper(home, "pantry", wrist=Wrist(moment(121))) as k:
        k.sees("Shred about 300 g")
        await k.press("p", "space")
        k.sees("[1 came in]", "-  300 g  +", "In stock now 200 g, then 500 g.")
        await k.press("plus", "plus", "minus", "plus")
        k.sees("-  400 g  +", "then 600 g.")
        await k.press("space")
        assert k.screen == "Supplies"
        assert last(k) == SuppliesAdded(at=moment(121), supplies_kg={CARDBOARD: 0.4})
        k.sees("What came in is saved. u takes it back", "600 g in stock", "enough")
        await k.press("escape")
        k.sees_no("Shred about")
        await k.press("p", "u", "escape")
        k.sees("Shred about 300 g")


async def test_counting_by_digit_sets_the_stock_to_nothing_too(tmp_path: Path) -> None:
    home = a_home(tmp_path, stocked(cardboard=0.2, grit=0.1))
    async with keeper(home, "pantry", wrist=Wrist(moment(63))) as k:
        await k.press("p", "space", "2")
        k.sees("[2 counted]", "By the journal there were 200 g.")
        await k.press(*["minus"] * 9)
        k.sees("-  none  +", "From then on there are none in stock.")
        await k.press("space")
        assert last(k) == SuppliesCounted(at=moment(63), supplies_kg={CARDBOARD: 0.0})
        k.sees("none left")


async def test_what_went_otherwise_is_taken_out_and_more_than_there_is_is_said(tmp_path: Path) -> None:
    home = a_home(tmp_path, stocked(cardboard=5, grit=0.1))
    async with keeper(home, "pantry", wrist=Wrist(moment(63))) as k:
        await k.press("p", "minus")
        k.sees("[3 used elsewhere]", "-  100 g  +", "then 4.9 kg.")
        await k.press("space")
        assert last(k) == SuppliesUsed(at=moment(63), supplies_kg={CARDBOARD: 0.1})
        await k.press("down", "minus", *["plus"] * 12)
        k.sees("more than the 100 g there is by the journal", "Dry grit dusts")


async def test_each_way_keeps_its_own_amount_and_nothing_is_no_coming_in(tmp_path: Path) -> None:
    home = a_home(tmp_path, stocked(cardboard=1))
    async with keeper(home, "pantry", wrist=Wrist(moment(63))) as k:
        await k.press("p", "plus", "plus", "plus")
        k.sees("-  600 g  +")
        await k.press("3", "plus", "1")
        k.sees("-  600 g  +")
        await k.press(*["minus"] * 20, "space")
        k.sees("only what was counted can be none")
        assert k.screen == "SupplySheet"
        await k.press("escape")
        assert len(k.standing("pantry")) == len(stocked(cardboard=1))


async def test_clean_hands_type_the_amount(tmp_path: Path) -> None:
    home = a_home(tmp_path, stocked(cardboard=1))
    async with keeper(home, "pantry", wrist=Wrist(moment(63))) as k:
        await k.press("p", "space", "enter")
        await k.type("two boxes")
        await k.press("enter")
        k.sees("is not an amount")
        await k.press(*["backspace"] * 9)
        await k.type("1.25 kg")
        await k.press("enter", "space")
        assert last(k) == SuppliesAdded(at=moment(63), supplies_kg={CARDBOARD: 1.25})


async def test_a_stock_nobody_counted_is_counted_first(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, a_usual_bin()), "pantry", wrist=Wrist(moment(63))) as k:
        await k.press("p")
        k.sees("count it", "1 to be counted", "was never written down. Weigh it in its bag")
        await k.press("space")
        k.sees("[2 counted]")


async def test_an_empty_store_says_what_will_stand_here_and_which_key_fills_it(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path), "pantry", wrist=Wrist(moment(0))) as k:
        await k.press("p")
        k.sees("Nothing is in stock by the journal yet.", "Space writes down the first")
        await k.press("space")
        k.sees("Supplies of Pantry", "1 came in")
        await k.type("leaf mould=2 kg, grit=300 g")
        await k.press("ctrl+s")
        assert last(k) == SuppliesAdded(at=moment(0), supplies_kg={"leaf mould": 2.0, GRIT: 0.3})
        k.sees("Supplies saved.", "leaf mould", "2 kg")


async def test_the_last_row_opens_the_form_for_any_supply(tmp_path: Path) -> None:
    home = a_home(tmp_path, stocked(cardboard=1))
    async with keeper(home, "pantry", wrist=Wrist(moment(63))) as k:
        await k.press("p", "end")
        k.sees("Space opens a form")
        await k.press("minus")
        k.sees("[3 used elsewhere]")
        await k.press("escape", "enter")
        k.sees("[1 came in]")


async def test_us_keepers_step_in_ounces(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "school") as k:
        await k.press("p", "down", "minus", "plus")
        k.sees("-  1 oz  +")


async def test_without_colour_or_signs_beyond_ascii_it_is_all_there(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "school", ascii=True) as k:
        await k.press("p")
        k.sees("###... short", "###### enough", "! Shred about")
        assert k.picture.isascii()


async def test_space_leads_here_where_a_short_supply_is_the_next_thing_due(tmp_path: Path) -> None:
    """Grit goes by the handful: 100 g in 100 days, so that the last 5 g do not see through a week."""
    went = [entry("supplies_used", 65 + 10 * n, supplies_kg={GRIT: 0.025}) for n in range(4)]
    end = (fed("B", 99), entry("checked", 99.5, feel="damp"))
    home = a_home(tmp_path, (*stocked(grit=0.105), *went, *end), days_between_checks=14)
    async with keeper(home, "pantry", wrist=Wrist(moment(100))) as k:
        k.sees("Collect about")
        await k.press("space")
        assert k.screen == "Supplies"


TURNING: tuple[Entry, ...] = (
    *a_usual_bin(),
    fed("B", 119),
    entry("supplies_counted", 119, supplies_kg={CARDBOARD: 0.3}),
)


def four_trays(home: Path, *entries: Entry) -> Path:
    """A bin of four trays, so that tray D is free to come in."""
    from tests.builders import a_bin
    from trayturn.advice.cautions import CAUTIONS
    from trayturn.domain.setup import Tray
    from trayturn.storage import managing

    read = entry("cautions_read", 120.9, work="all", codes=[caution.code for caution in CAUTIONS])
    trays = [Tray(id=name) for name in "ABCD"]
    managing.create(home, a_bin(), trays, (*entries, read), "pantry")
    return home


async def test_a_turn_the_stock_cannot_fill_is_said_and_made_with_one_tray_fewer(tmp_path: Path) -> None:
    async with keeper(four_trays(tmp_path, *TURNING), "pantry", wrist=Wrist(moment(121))) as k:
        await k.press("t")
        k.sees("Tray D takes about 500 g of shredded cardboard, and about 300 g is in stock.")
        k.sees("D gets shredded cardboard", "-  300 g  +", "3 trays, as usual", "comes in fresh")
        await k.press("x")
        k.sees("No fresh tray comes in.", "2 trays, 1 fewer")
        k.sees_no("D gets", "comes in fresh")
        await k.press("x")
        k.sees("comes in fresh")
        await k.press("minus")
        k.sees("2 trays, 1 fewer")
        await k.press("e")
        k.sees("Turn saved. u takes it back")
        assert [one.id for one in k.stack("pantry").trays] == ["B", "C", "A"]
        assert {one.id: str(one.stage) for one in k.stack("pantry").trays} == {
            "B": "finishing",
            "C": "feeding",
            "A": "finishing",
        }
        k.sees_no("There is room for tray")
        await k.press("u")
        assert [one.id for one in k.stack("pantry").trays] == ["C", "A", "B"]


async def test_a_tall_window_tells_all_that_can_be_done_about_it(tmp_path: Path) -> None:
    home = four_trays(tmp_path, *TURNING)
    async with keeper(home, "pantry", wrist=Wrist(moment(121)), size=(120, 40)) as k:
        await k.press("t")
        k.sees("Shred about 200 g more first.", "Or turn without tray D: 2 trays stand instead of 3")
        k.sees("Or fill tray D thinner, with the 300 g there is")


async def test_a_turn_whose_only_tray_to_feed_is_fresh_cannot_leave_it_out(tmp_path: Path) -> None:
    few: tuple[Entry, ...] = (started("A", 0, stage="feeding"), *(fed("A", day) for day in (2, 14, 26)))
    short = entry("supplies_counted", 50, supplies_kg={CARDBOARD: 0.1})
    async with keeper(four_trays(tmp_path, *few, short), "pantry", wrist=Wrist(moment(121))) as k:
        await k.press("t")
        k.sees_no("1 fewer")
        await k.press("x")
        k.sees("Without the fresh tray no tray could be fed.", "comes in fresh")


@pytest.mark.parametrize("name", ["[/", "\u202eright\u202c", "箱" * 30, "\N{WORM} [red]", "x" * 200])
async def test_a_supply_of_any_name_keeps_its_columns(tmp_path: Path, name: str) -> None:
    home = a_home(tmp_path, (*a_usual_bin(), entry("supplies_counted", 62, supplies_kg={name: 2.0})))
    async with keeper(home, "pantry", wrist=Wrist(moment(63))) as k:
        await k.press("p")
        k.sees("2 kg", "enough", "In a week" if name == CARDBOARD else "How much goes in a week is not known")
        await k.press("space", "space")
        k.sees("What came in is saved. u takes it back")
        assert name in k.stack("pantry").supplies_kg
