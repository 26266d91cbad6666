"""The outlook and its score on the command line."""

from __future__ import annotations

import shutil

import pytest

from tests.cli.conftest import Keeper
from tests.test_sample_profiles import FOLDER, SCENARIO

FEW = ("--draws", "40")


@pytest.fixture
def stairwell(keeper: Keeper) -> Keeper:
    """A keeper of the sample with five harvests, at the demo's moment."""
    keeper.home.mkdir()
    shutil.copy(FOLDER / "stairwell.toml", keeper.home)
    shutil.copy(FOLDER / "school.toml", keeper.home)
    keeper.it_is(SCENARIO.isoformat())
    return keeper


def test_the_outlook_as_text(stairwell: Keeper) -> None:
    text = stairwell.does("outlook", "stairwell", *FEW)
    assert text.startswith("The outlook of Stairwell")
    assert "Tray B, separated tomorrow: about" in text
    assert "kg of castings (" in text
    assert "Rests on 87 measurements of yours." in text
    assert "As planned: " in text
    assert "trayturn handbook outlook" in text.replace("\n  ", " ")
    assert all(len(line) <= 80 for line in text.splitlines())


def test_the_outlook_as_data(stairwell: Keeper) -> None:
    data = stairwell.asks("outlook", "stairwell", "--days", "100", *FEW)
    first, *_ = data["harvests"]
    assert (first["tray"], first["date"][:10]) == ("B", "2026-11-22")
    assert list(first["castings_kg"]) == ["p10", "p25", "p50", "p75", "p90"]
    assert sorted(first["castings_kg"].values()) == list(first["castings_kg"].values())
    assert data["rests_on"]["measurements"] == 87
    assert data["rests_on"]["skill"]["harvests"] == 5
    assert (data["seed"], data["draws"], data["used"]) == (1, 40, "model")
    assert (
        set(data["worms_kg"])
        == set(data["scraps_kg_per_week"])
        == set(data["sump_l"])
        == set(first["castings_kg"])
    )
    assert set(data["bottom_tray_soaked_on"]) == {"early", "mid", "late"}
    assert data["series"]["worms"]["days"][-1] == 100
    assert len(data["past"]) == 5
    assert data["plan"]["trays"] == 4
    assert len(data["points"]) == 87
    assert data["sump_full_on"] is None


def test_a_seed_gives_the_same_again_and_another_does_not(stairwell: Keeper) -> None:
    one, again, other = (
        stairwell.asks("outlook", "school", "--seed", seed, *FEW)["harvests"] for seed in ("3", "3", "4")
    )
    assert one == again != other


def test_us_keepers_read_pounds(stairwell: Keeper) -> None:
    text = stairwell.does("outlook", "school", *FEW)
    assert "lb of castings" in text
    assert " kg" not in text.replace("kg-", "")


def test_what_if_beside_today(stairwell: Keeper) -> None:
    text = stairwell.does("outlook", "stairwell", "--what-if", "holiday=14", *FEW)
    assert text.startswith("What if: 14 days away.")
    assert "What to do" in text
    assert "As planned now" in text
    assert all(len(line) <= 80 for line in text.splitlines())
    data = stairwell.asks("outlook", "stairwell", "--what-if", "cold=5C:14", *FEW)
    assert (data["what_if"]["kind"], data["what_if"]["celsius"]) == ("cold", 5)
    assert data["what_if"]["do"]
    assert data["what_if"]["outlook"]["plan"]["spell"]["days"] == 14


def test_as_of_an_earlier_moment(stairwell: Keeper) -> None:
    data = stairwell.asks("outlook", "stairwell", "--at", "2025-12-01T10:00:00+01:00", *FEW)
    assert data["as_of"] == "2025-12-01T10:00:00+01:00"
    assert data["rests_on"]["measurements"] < 30
    assert data["past"] == []


@pytest.mark.parametrize(
    "slip",
    [
        ("--what-if", "sauna"),
        ("--days", "0"),
        ("--draws", "3"),
        ("--seed", "-1"),
        ("--days", "soon"),
        ("--at", "soon"),
    ],
)
def test_a_slip_is_refused_in_a_sentence(stairwell: Keeper, slip: tuple[str, str]) -> None:
    answer = stairwell.types("outlook", "stairwell", *slip)
    assert (answer.status, answer.out) == (2, "")
    assert answer.err.startswith("trayturn: ")
    assert answer.err.count("\n") == 1


def test_a_bin_without_trays_is_no_error(keeper: Keeper) -> None:
    keeper.does("new", "Pantry")
    assert "No tray is on the stack" in keeper.does("outlook", "pantry")
    data = keeper.asks("outlook", "pantry")
    assert (data["harvests"], data["worms_kg"], data["series"]) == ([], None, {})
    assert "No castings are weighed yet" in keeper.does("score", "pantry")
    assert keeper.asks("score", "pantry")["past"] == []


def test_a_new_bin_rests_on_a_rule_of_thumb(pantry: Keeper) -> None:
    data = pantry.asks("outlook", "pantry", *FEW)
    assert data["rests_on"]["measurements"] == 0
    assert "rule of thumb" in data["rests_on"]["words"]
    assert data["assumed"]


def test_what_was_counted_and_seen_counts(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "checked", "A", "--worms-weigh", "0.4kg", "--food-left", "30%")
    assert "worms in all 400 g; 30 % of the food left" in pantry.does("journal", "pantry")
    points = pantry.asks("outlook", "pantry", *FEW)["points"]
    assert [(one["kind"], one["value"]) for one in points] == [("worms", 0.4), ("food left", 0.3)]


def test_the_score_as_text_and_data(stairwell: Keeper) -> None:
    text = stairwell.does("score", "stairwell")
    assert text.startswith("The forecasts of Stairwell")
    assert "Of 5 past forecasts the band held" in text
    assert "4.91 kg" in text
    assert all(len(line) <= 80 for line in text.splitlines())
    data = stairwell.asks("score", "stairwell")
    assert [one["came_kg"] for one in data["past"]] == [3.99, 4.26, 4.33, 4.93, 4.91]
    assert all(one["castings_kg"]["p10"] < one["castings_kg"]["p90"] for one in data["past"])
    assert data["skill"]["harvests"] == 5
    assert data["used"] == "model"


def test_plain_signs(stairwell: Keeper) -> None:
    assert stairwell.does("outlook", "school", "--ascii", *FEW).isascii()
