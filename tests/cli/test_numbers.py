"""The commands that reckon: their JSON keys, their words, and what they refuse."""

from __future__ import annotations

import subprocess
import sys
from typing import Any

import pytest

from tests.cli.conftest import Keeper

LEAVES = "leaves=6.8 kg; moisture=35; n=0.75; c=50"
GRASS = "lawn=10 kg; moisture=77; n=2.4; c=45"
FIGURES = ["wet_kg", "dry_kg", "moisture_pct", "c_to_n", "salt_pct", "volume_l", "warnings"]


def test_a_mix_of_the_table(keeper: Keeper) -> None:
    data = keeper.asks("mix", "cabbage=500 g", "shredded cardboard=120 g")
    assert list(data) == FIGURES
    assert data["wet_kg"] == pytest.approx(0.62)
    assert data["moisture_pct"] == pytest.approx((0.5 * 92.18 + 0.12 * 8) / 0.62)
    assert data["volume_l"] > 0


def test_a_mix_given_inline_is_the_published_one(keeper: Keeper) -> None:
    """Cornell Composting (the ratio from memory): 60 % and 37 to 1."""
    data = keeper.asks("mix", GRASS, LEAVES)
    assert data["moisture_pct"] == pytest.approx(60.0, abs=0.05)
    assert data["c_to_n"] == pytest.approx(37, abs=0.5)


def test_goals_say_what_to_add_and_what_comes_of_it(keeper: Keeper) -> None:
    inline = "--add", "shredded cardboard", "--add", "water"
    data = keeper.asks("mix", GRASS, "--goal-moisture", "75", "--goal-cn", "30", *inline)
    assert list(data) == [*FIGURES, "add", "after"]
    assert [one["ingredient"] for one in data["add"]] == ["shredded cardboard", "water"]
    assert data["after"]["moisture_pct"] == pytest.approx(75)
    assert data["after"]["c_to_n"] == pytest.approx(30)
    assert "Add " in keeper.does("mix", GRASS, "--goal-moisture", "80")


def test_a_goal_that_cannot_be_reached_gives_status_one(keeper: Keeper) -> None:
    answer = keeper.types("mix", GRASS, "--goal-cn", "10", "--add", "shredded cardboard", "--json")
    assert answer.status == 1
    assert list(answer.data) == [*FIGURES, "unreachable"]
    assert "No amount of shredded cardboard" in answer.data["unreachable"]


def test_a_keepers_own_ingredient_is_found(keeper: Keeper) -> None:
    keeper.does("new", "Pantry")
    path = keeper.home / "pantry.toml"
    own = '\n[[ingredients]]\nname = "Spent hops"\nmoisture_pct = 80\nn_pct = 4\nc_pct = 48\n'
    path.write_text(path.read_text(encoding="utf-8") + own, encoding="utf-8")
    data = keeper.asks("mix", "spent hops=1 kg", "--bin", "pantry")
    assert (data["moisture_pct"], data["c_to_n"]) == (pytest.approx(80), pytest.approx(12))
    assert keeper.asks("ingredients", "hops", "--bin", "pantry")["ingredients"][0]["source"] == "your own"
    keeper.does("log", "pantry", "note", "the brewer came")
    assert keeper.types("verify", "pantry").status == 0


def test_rations(keeper: Keeper) -> None:
    data = keeper.asks("ration", "--worms-kg", "2.3", "--temperature", "20")
    assert list(data) == ["norm_kg_per_day", "optimum_kg_per_day", "ceiling_kg_per_day", "why"]
    assert data["norm_kg_per_day"] == {"low": pytest.approx(0.46), "high": pytest.approx(1.15)}
    assert data["optimum_kg_per_day"] == pytest.approx(1.725)
    assert keeper.asks("ration", "--worms-kg", "2.3", "--temperature", "68F")[
        "ceiling_kg_per_day"
    ] == pytest.approx(2.875)
    assert "a week" in keeper.does("ration", "--worms-kg", "1", "--temperature", "18", "--area", "0.16m2")


def test_hatching_and_what_is_gone(keeper: Keeper) -> None:
    data = keeper.asks("hatch", "--temperature", "18")
    assert data["half_days"]["low"] <= data["half_days"]["high"] <= data["most_days"]["high"]
    assert keeper.asks("hatch", "--temperature", "0")["half_days"] is None
    peel = keeper.asks("gone", "banana", "peel", "--temperature", "20")
    assert peel["days"]["low"] < 21 < peel["days"]["high"]
    assert "does not go" in keeper.does("gone", "apple", "--temperature", "0")


def test_ingredients_tell_their_source(keeper: Keeper) -> None:
    rows: list[dict[str, Any]] = keeper.asks("ingredients", "cabbage")["ingredients"]
    assert (rows[0]["moisture_pct"], rows[0]["source"]) == (92.18, "USDA SR28 11109")
    assert len(keeper.asks("ingredients")["ingredients"]) >= 100
    assert max(map(len, keeper.does("ingredients").splitlines())) <= 80


def test_counts(keeper: Keeper) -> None:
    """Seber 2002, example 7.4."""
    data = keeper.asks("count", "--picks", "79,28")
    assert list(data) == ["n", "se", "low", "high", "p", "method", "warnings"]
    assert (data["n"], data["method"]) == (pytest.approx(122.37, abs=0.01), "two-pass")
    assert keeper.asks("count", "--picks", "38,26,12", "--method", "carle-strub")["n"] == 91
    samples = keeper.asks("count", "--samples", "12,9,20", "--sample-g", "250", "--total-kg", "8")
    assert samples["n"] == pytest.approx(437.33, abs=0.01)
    assert samples["more_samples_to_halve"] >= 1


def test_lifts(keeper: Keeper) -> None:
    """DHHS (NIOSH) 94-110, example 4, in pounds and inches."""
    words = "--lb 26 --reach 10 --from 22 --to 59 --per-minute 3 --grip fair --us"
    data = keeper.asks("lift", *words.split())
    assert list(data) == ["origin", "destination", "advice"]
    assert list(data["origin"]) == ["hm", "vm", "dm", "am", "fm", "cm", "rwl", "li"]
    assert data["origin"]["rwl"] == pytest.approx(34.9, abs=0.15)
    assert (
        keeper.asks("lift", "--kg", "12", "--reach", "70", "--from", "55", "--to", "90")["origin"]["li"]
        is None
    )
    assert "doctor" in keeper.does("lift", "--kg", "12", "--reach", "25", "--from", "55", "--to", "150")


SLIPS = {
    "no mass": (("mix", "cabbage"), "needs a name and a mass"),
    "a mass in words": (("mix", "cabbage=much"), "is not an amount"),
    "unknown": (("mix", "cabage soup=1 kg"), "is not in the table"),
    "an odd figure": (("mix", "x=1 kg; fat=3"), "moisture=, n=, c= or salt="),
    "too wet": (("mix", "x=1 kg; moisture=120"), "needs to be from 0 to 1"),
    "an odd goal": (("mix", "cabbage=1 kg", "--goal-moisture", "0"), "The moisture wanted"),
    "nothing in it": (("mix", "cabbage=0 g"), "A mix needs something in it"),
    "worms below nothing": (("ration", "--worms-kg", "-1", "--temperature", "18"), "The mass of worms"),
    "worms that are no number": (("ration", "--worms-kg", "nan", "--temperature", "18"), "The mass of worms"),
    "a stove": (("hatch", "--temperature", "200"), "The temperature"),
    "a dragon": (("hatch", "--temperature", "18", "--species", "dragon"), "use one of"),
    "one pick": (("count", "--picks", "7"), "too few"),
    "rising picks": (("count", "--picks", "5,9"), "fewer than the first"),
    "picks and samples": (("count",), "Give either --picks"),
    "half the samples": (("count", "--samples", "1,2"), "needs --sample-g"),
    "no such method": (("count", "--picks", "9,5", "--method", "guess"), "--method needs one of"),
    "an odd grip": (
        ("lift", "--kg", "1", "--reach", "25", "--from", "5", "--to", "9", "--grip", "firm"),
        "--grip",
    ),
    "nothing like it": (("ingredients", "zzzz"), "is not in the table"),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_is_told_in_one_line(keeper: Keeper, slip: str) -> None:
    words, told = SLIPS[slip]
    answer = keeper.types(*words)
    assert answer.status == 2
    assert told in answer.err
    assert answer.err.count("\n") == 1
    assert answer.out == ""


@pytest.mark.parametrize(
    "words",
    [
        ("mix", "cabbage=500 g"),
        ("ration", "--worms-kg", "1", "--temperature", "18"),
        ("ingredients", "peel"),
        ("hatch", "--temperature", "18"),
        ("gone", "apple", "--temperature", "18"),
        ("count", "--picks", "79,28"),
        ("lift", "--kg", "5", "--reach", "25", "--from", "55", "--to", "90"),
    ],
)
def test_no_large_library_is_loaded(words: tuple[str, ...]) -> None:
    watched = "[m for m in ('textual', 'numpy', 'scipy') if m in sys.modules]"
    run = f"from trayturn.cli.main import main; main({list(words)!r})"
    code = f"import sys; {run}; print({watched}, file=sys.stderr)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "[]"
