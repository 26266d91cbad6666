"""`feed`: the figures of a meal, what is proposed, what waits, and writing it down."""

from __future__ import annotations

from typing import Any

import pytest

from tests.cli.conftest import Keeper

KEYS = [
    "bin",
    "name",
    "tray",
    "as_of",
    "meal",
    "total_kg",
    "moisture_pct",
    "c_to_n",
    "after",
    "load",
    "gone",
    "water",
    "layer_m",
    "cover_m",
    "reckoned_as_scraps",
    "warnings",
    "order",
    "proposal",
    "shared",
    "recorded",
]
GRASS = "lawn=10 kg; moisture=77; n=2.4; c=45"
LEAVES = "raked leaves=6.8 kg; moisture=35; n=0.75; c=50"


@pytest.fixture
def due(pantry: Keeper) -> Keeper:
    """The bin of the commands' tests two weeks on, with worms and cardboard in stock."""
    pantry.it_is("2026-03-17T18:30:00+01:00")
    pantry.does("log", "pantry", "worms-added", "500 g")
    pantry.does("log", "pantry", "supplies-added", "shredded cardboard=1 kg", "oats=200 g")
    return pantry


def test_the_figures_of_a_meal_have_steady_keys(due: Keeper) -> None:
    data = due.asks("feed", "pantry", "cabbage=500 g", "apple=2 handfuls")
    assert list(data) == KEYS
    assert (data["tray"], data["recorded"]) == ("A", None)
    assert data["meal"]["items_kg"] == {"cabbage": 0.5, "apple": pytest.approx(0.168)}
    assert data["load"]["takes_kg"] == {"low": pytest.approx(1.2), "mid": pytest.approx(2.1), "high": 3.0}
    assert data["load"]["words"] == "a quarter of what they take"
    assert data["after"]["moisture_pct"]["low"] < data["after"]["moisture_pct"]["high"]
    assert due.kinds().count("fed") == 1


def test_a_meal_given_inline_is_the_published_one(due: Keeper) -> None:
    """Cornell (Richard & Trautmann 1996), its ratio from memory: 60 % and 37 to 1."""
    data = due.asks("feed", "pantry", GRASS, LEAVES)
    assert data["moisture_pct"] == pytest.approx(60.0, abs=0.05)
    assert data["c_to_n"] == pytest.approx(37, abs=0.5)
    assert data["reckoned_as_scraps"] == []


def test_a_person_reads_figures_warnings_order_and_proposal(due: Keeper) -> None:
    text = due.does("feed", "pantry", "a", "cabbage=500 g", "onion=50 g")
    for words in (
        "Pantry, tray A",
        "Meal    550 g, 92 %, C:N 21",
        "a quarter of what they take",
        "Little of onion.",
        "2  Scraps: 500 g of cabbage and 50 g of onion.",
        "Proposed: ",
        "--propose takes it",
        "Nothing is written down. With --record it is.",
    ):
        assert words in text
    assert max(map(len, text.splitlines())) <= 80


def test_what_is_proposed_is_taken_and_written_down_and_supplies_go_down(due: Keeper) -> None:
    words = ("cabbage=500 g", "oats=50 g", "--propose", "--record", "--note", "by the window")
    text = due.does("feed", "pantry", *words)
    assert "Saved: fed A: cabbage 500 g, oats 50 g; bedding shredded cardboard" in text
    fed = due.asks("journal", "pantry", "--last", "1")["entries"][0]
    assert fed["note"] == "by the window"
    stock: dict[str, Any] = due.asks("stack", "pantry")["supplies_kg"]
    assert stock["shredded cardboard"] == pytest.approx(1 - fed["bedding_kg"]["shredded cardboard"])
    assert stock["oats"] == pytest.approx(0.15)


def test_own_bedding_grit_and_water_are_fed_as_given(due: Keeper) -> None:
    words = ("--bedding", "coir=100 g", "--cover", "coir=50 g", "--grit", "5g", "--water", "0.2 l")
    data = due.asks("feed", "pantry", "leek=200 g", *words, "--record")
    (fed,) = data["recorded"]
    assert fed["bedding_kg"] == {"coir": pytest.approx(0.15)}
    assert (fed["grit_kg"], fed["water_kg"]) == (0.005, 0.2)
    assert data["meal"]["cover_kg"] == {"coir": 0.05}
    assert "its dust harms" in due.does("feed", "pantry", "leek=200 g", "--grit", "5 g", "--record")


def test_too_much_is_shared_out_and_the_rest_waits(due: Keeper) -> None:
    told = due.does("feed", "pantry", "potato=3 kg", "lettuce=1 kg")
    assert "Too much at once. --share feeds first what spoils first:" in told
    assert "Now lettuce 1 kg: goes fast and leaks." in told
    assert "Now potato 1" in told
    data = due.asks("feed", "pantry", "potato=3 kg", "lettuce=1 kg", "--share", "--record")
    fed, waits = data["recorded"]
    assert (fed["kind"], waits["kind"], fed["at"]) == ("fed", "put_off", waits["at"])
    assert fed["items_kg"]["potato"] + waits["items_kg"]["potato"] == pytest.approx(3)
    assert data["shared"]["later"][0]["day"] == "2026-03-29"
    later = due.asks("feed", "pantry")
    assert later["meal"]["items_kg"] == waits["items_kg"]
    taken = due.does("log", "pantry", "undo")
    assert (
        "Taken back in Pantry: fed A, 2026-03-17 18:30 and scraps kept in the caddy, 2026-03-17 18:30."
        in " ".join(taken.split())
    )
    assert due.types("feed", "pantry").status == 2


def test_a_goal_that_cannot_be_reached_gives_status_one(due: Keeper) -> None:
    answer = due.types("feed", "pantry", "cabbage=4 kg", "--goal-cn", "200", "--propose", "--json")
    assert answer.status == 1
    assert answer.data["proposal"]["missed"][-1]["what"].startswith("C:N comes to about ")
    assert due.types("feed", "pantry", "cabbage=400 g", "--goal-moisture", "80").status == 0


def test_as_of_a_moment_and_for_us_keepers(due: Keeper) -> None:
    data = due.asks("feed", "pantry", "leek=100 g", "--at", "2026-03-10 10:00", "--record")
    assert data["recorded"][0]["at"].startswith("2026-03-10T10:00:00")
    due.does("new", "Crate", "--units", "us", "--trays", "2")
    due.does("log", "crate", "started", "A", "--bedding", "shredded paper=1 lb")
    text = due.does("feed", "crate", "apple=1 lb", "leek=a cup")
    assert "in of scraps" in text
    assert "1 lb of apple and 7" in text


SLIPS = {
    "nothing": ((), "Name something to feed"),
    "no amount": (("A", "cabbage"), "needs a name and an amount"),
    "much": (("cabbage=much",), "cabbage: 'much' is not an amount"),
    "no such tray": (("Z", "cabbage=1 kg"), "has no tray 'Z'"),
    "a tray in the air": (("cabbage=1 kg", "--bedding", "coir"), "needs a name and an amount"),
    "too wet a goal": (("cabbage=1 kg", "--goal-moisture", "100"), "--goal-moisture needs a number"),
    "an odd figure": (("x=1 kg; fat=3",), "moisture=, n=, c= or salt="),
    "impossible figures": (("x=1 kg; moisture=120",), "needs to be from 0 to 1"),
    "a ton": (("cabbage=1000 kg",), "more than fits in the tray"),
    "not yet": (("cabbage=1 kg", "--at", "2027-01-01", "--record"), "has not come yet"),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_is_told_in_one_line_and_nothing_is_written(due: Keeper, slip: str) -> None:
    words, told = SLIPS[slip]
    before = due.kinds()
    answer = due.types("feed", "pantry", *words)
    assert answer.status == 2
    assert told in answer.err
    assert answer.err.count("\n") == 1
    assert (answer.out, due.kinds()) == ("", before)


def test_a_bin_without_a_tray_cannot_be_fed(keeper: Keeper) -> None:
    keeper.does("new", "Crate")
    answer = keeper.types("feed", "crate", "cabbage=1 kg")
    assert answer.status == 2
    assert "There is no tray on the stack" in answer.err
