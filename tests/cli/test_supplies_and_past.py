"""Supplies and the past year on the command line, as text and as data."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Keeper


@pytest.fixture
def stocked(pantry: Keeper) -> Keeper:
    """The pantry with a little cardboard counted: two feedings are due within the month."""
    pantry.does("log", "pantry", "supplies-counted", "cardboard=100 g", "grit=100 g")
    return pantry


def test_supplies_tell_each_one_and_what_it_rests_on(stocked: Keeper) -> None:
    text = stocked.does("supplies", "pantry")
    assert "cardboard: short" in text
    assert "Shred about 60 g of cardboard by Fri 27 Mar, in 24 days." in text
    assert "100 g in stock: counted today, and reckoned on from then." in text
    assert "The next 30 days need about 160 g (130 g to 190 g): 2 feedings." in text
    assert "grit: enough" in text


def test_supplies_as_data(stocked: Keeper) -> None:
    data = stocked.asks("supplies", "pantry")
    cardboard, grit = data["supplies"]
    assert (data["bin"], cardboard["name"], cardboard["code"]) == ("pantry", "cardboard", "cardboard")
    assert cardboard["stock_kg"] == 0.1
    assert cardboard["counted_at"] == "2026-03-03T18:30:00+01:00"
    assert set(cardboard["used_kg_per_week"]) == {"low", "mid", "high"}
    assert cardboard["next_turn_needs_kg"] is None, "the next turn of three trays brings none in"
    assert cardboard["next_tray_needs_kg"]["mid"] == 0.5
    assert cardboard["runs_out_on"]["mid"] == cardboard["gather_by"]
    assert cardboard["gather_kg"] == pytest.approx(2 * 0.08 - 0.1)
    assert data["turn"] is None
    assert any("rule of thumb" in line for line in grit["rests_on"])
    assert grit["next_turn_needs_kg"] is None
    assert grit["by_own_record"] is False


def test_what_is_not_known_is_null(pantry: Keeper) -> None:
    (cardboard, *_) = pantry.asks("supplies", "pantry")["supplies"]
    assert (cardboard["stock_kg"], cardboard["runs_out_on"], cardboard["gather_kg"]) == (None, None, None)
    assert "was never written down" in pantry.does("supplies", "pantry")


def test_an_empty_bin_says_how_to_begin(keeper: Keeper) -> None:
    keeper.does("new", "Pantry")
    assert "trayturn log pantry supplies-counted" in keeper.does("supplies", "pantry")
    assert keeper.asks("supplies", "pantry")["supplies"] == []


def test_all_bins_are_added_up_in_the_last_line(stocked: Keeper) -> None:
    stocked.does("new", "Shed", "--units", "us")
    stocked.does("log", "shed", "supplies-added", "Cardboard=2 lb", "leaves=1 lb")
    text = stocked.does("supplies")
    assert "In all bins: cardboard 1 kg (60 g to gather), grit 100 g and leaves 450 g." in text
    data = stocked.asks("supplies")
    assert [one["bin"] for one in data["bins"]] == ["pantry", "shed"]
    (total,) = [one for one in data["in_all"] if one["name"] == "cardboard"]
    assert total["stock_kg"] == pytest.approx(0.1 + 2 * 0.45359237)
    assert total["unknown_in"] == []


def test_as_of_an_earlier_moment(stocked: Keeper) -> None:
    data = stocked.asks("supplies", "pantry", "--at", "2026-03-02T10:00:00+01:00")
    assert data["supplies"][0]["stock_kg"] is None


def test_a_broken_bin_is_named_and_the_others_told(stocked: Keeper) -> None:
    (stocked.home / "shed.toml").write_text("format = 1\n", encoding="utf-8")
    for command in ("supplies", "past"):
        answer = stocked.types(command)
        assert answer.status == 1
        assert "shed cannot be read. See why with: trayturn verify shed" in answer.out
        assert stocked.types(command, "shed").status == 1


def test_a_turn_without_a_fresh_tray(keeper: Keeper) -> None:
    keeper.does("new", "Pantry", "--trays", "4")
    keeper.does("log", "pantry", "started", "A", "--bedding", "cardboard=500 g", "--stage", "feeding")
    keeper.does("log", "pantry", "started", "B", "--bedding", "cardboard=500 g")
    keeper.it_is("2026-05-01T10:00:00+02:00")
    refused = keeper.types("log", "pantry", "turned", "--no-fresh", "--bedding", "cardboard=1kg")
    assert (refused.status, "--no-fresh" in refused.err) == (2, True)
    text = keeper.does("log", "pantry", "turned", "--no-fresh")
    assert "no fresh tray, for want of bedding" in text
    assert "The stack from the bottom up: A finishing, B feeding." in text
    assert keeper.kinds()[-1] == "turned"
    assert "There is room for tray" not in keeper.does("today")


def test_a_fresh_tray_that_would_be_fed_cannot_be_left_out(keeper: Keeper) -> None:
    keeper.does("new", "Pantry", "--trays", "2")
    keeper.does("log", "pantry", "started", "A", "--bedding", "cardboard=500 g", "--stage", "feeding")
    keeper.it_is("2026-05-01T10:00:00+02:00")
    refused = keeper.types("log", "pantry", "turned", "--no-fresh")
    assert refused.status == 2
    assert "Put the turn off until there is bedding for it." in refused.err


def test_the_past_year_tells_sums_and_weeks(pantry: Keeper) -> None:
    text = pantry.does("past", "pantry")
    assert "The past year of Pantry" in text
    assert "scraps diverted  800 g in 1 feeding" in text
    assert "bedding used     1.5 kg" in text
    assert "Week 10, Mon 2 to Sun 8 Mar 2026 so far: 1 feeding with 800 g of" in text
    assert "Week 9, Mon 23 Feb to Sun 1 Mar 2026: 1.5 kg of bedding." in text


def test_the_past_year_as_data(pantry: Keeper) -> None:
    data = pantry.asks("past", "pantry")
    assert len(data["weeks"]) == 53
    assert data["weeks"][-1]["week"] == "2026-W10"
    assert data["weeks"][-1]["monday"] == "2026-03-02"
    assert data["weeks"][-1]["scraps_kg"] == pytest.approx(0.8)
    assert data["year"]["feedings"] == data["ever"]["feedings"] == 1
    assert data["ever"]["castings_per_kg_of_scraps"] is None
    assert data["ever"]["longest_without_check"]["bin"] == "pantry"
    assert data["bins"] == ["pantry"]


def test_the_first_of_january_2027_is_in_the_last_week_of_2026(pantry: Keeper) -> None:
    """ISO 8601: 2027-01-01 is 2026-W53-5."""
    data = pantry.asks("past", "--at", "2027-01-01T12:00:00+01:00")
    assert data["weeks"][-1]["week"] == "2026-W53"
    assert data["weeks"][0]["week"] == "2026-W01"


def test_what_came_after_the_moment_is_not_told(pantry: Keeper) -> None:
    data = pantry.asks("past", "pantry", "--at", "2026-03-02T10:00:00+01:00")
    assert (data["ever"]["feedings"], data["ever"]["bedding_kg"]) == (0, 1.5)


def test_the_past_of_nothing(keeper: Keeper) -> None:
    assert "There are no bins here yet" in keeper.does("past")
    assert keeper.asks("past")["weeks"] == []
    assert "There are no bins here yet" in keeper.does("supplies")
    keeper.does("new", "Pantry")
    assert "Nothing was fed, checked or turned by then." in keeper.does("past", "pantry")


def test_separated_castings_are_told(separating: Keeper) -> None:
    separating.does("log", "pantry", "pass-done", "--worms", "many", "--skimmed", "1.2kg")
    separating.does("log", "pantry", "separation-ended")
    data = separating.asks("past", "pantry")
    assert data["ever"]["castings_kg"] == pytest.approx(1.2)
    assert "150 % of the scraps" in separating.does("past")
