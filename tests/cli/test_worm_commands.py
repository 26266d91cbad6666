"""`ration`, `hatch` and `gone` as a keeper and a script meet them."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Keeper

RATION = ("ration", "--worms-kg", "2.3", "--temperature")


def test_a_ration_with_an_area_tells_the_area_rule_and_the_stocking(keeper: Keeper) -> None:
    """NC State AG-473-18; Ndegwa, Thompson & Das 2000: 2.3 kg on 0.16 m2 is nine times the best."""
    data = keeper.asks(*RATION, "18", "--area", "0.16m2")
    assert data["area_rule_kg_per_week"] == pytest.approx(0.781, abs=5e-4)
    assert data["stocking_kg_per_m2"] == pytest.approx(14.375)
    assert data["stocking_against_optimum"] == pytest.approx(14.375 / 1.6)
    feet = keeper.asks(*RATION, "18", "--area", "1.722226 ft2")
    assert feet["area_rule_kg_per_week"] == pytest.approx(data["area_rule_kg_per_week"], rel=1e-5)


def test_pounds_are_for_reading_only(keeper: Keeper) -> None:
    """The answer changes its unit; the kilograms and the Celsius that were typed do not change theirs."""
    assert keeper.asks(*RATION, "18", "--us") == keeper.asks(*RATION, "18")
    text = keeper.does(*RATION, "20", "--us")
    assert "1.01 lb to 2.54 lb a day" in text
    assert "At 20 C" in text
    assert "On that area alone" in keeper.does(*RATION, "20", "--us", "--area", "0.16m2")


@pytest.mark.parametrize("typed", ["65 F", "65F", "65 °F", "18.333333 C"])
def test_fahrenheit_is_read(keeper: Keeper, typed: str) -> None:
    data = keeper.asks(*RATION, typed)
    assert data["ceiling_kg_per_day"] == pytest.approx(
        keeper.asks(*RATION, "18.333333")["ceiling_kg_per_day"]
    )
    assert "At 18.3 C" in data["why"]


@pytest.mark.parametrize("typed", ["-5", "3", "31", "65"])
def test_too_cold_and_too_hot_takes_nothing(keeper: Keeper, typed: str) -> None:
    data = keeper.asks("ration", "--worms-kg", "1", f"--temperature={typed}")
    assert data["norm_kg_per_day"] == {"low": 0, "high": 0}
    assert (data["optimum_kg_per_day"], data["ceiling_kg_per_day"]) == (0, 0)
    assert f"At {typed} C do not feed" in data["why"]


def test_hatching_as_data_and_as_text(keeper: Keeper) -> None:
    data = keeper.asks("hatch", "--temperature", "20")
    assert list(data) == ["half_days", "most_days", "share_hatching", "hatchlings_each", "why"]
    assert data["half_days"]["high"] == pytest.approx(25)
    text = keeper.does("hatch", "--temperature", "20")
    assert "Half have hatched in 23 to 25 days, 95 % in 30 to 33 days." in text
    assert "disagree" in " ".join(text.split())


def test_one_figure_is_not_told_as_a_band(keeper: Keeper) -> None:
    """Viljoen, Reinecke & Hartman 1991: few hatch, into 1.1 worms each."""
    text = keeper.does("hatch", "--temperature", "20", "--species", "dendrobaena_veneta")
    assert "About 20 % hatch at all, into 1.1 worms each." in text


def test_a_species_without_figures_says_null(keeper: Keeper) -> None:
    data = keeper.asks("hatch", "--temperature", "25", "--species", "eudrilus_eugeniae")
    assert (data["share_hatching"], data["hatchlings_each"]) == (None, None)
    assert "hatch at all" not in keeper.does("hatch", "--temperature", "25", "--species", "eudrilus_eugeniae")


@pytest.mark.parametrize("typed", ["2", "35"])
def test_too_cold_and_too_hot_hatches_nothing(keeper: Keeper, typed: str) -> None:
    assert keeper.asks("hatch", "--temperature", typed)["most_days"] is None
    assert "do not hatch" in keeper.does("hatch", "--temperature", typed)


def test_what_is_gone_names_its_class_and_what_it_rests_on(keeper: Keeper) -> None:
    """Common practice, no source: a banana peel takes about three weeks."""
    data = keeper.asks("gone", "Banana Peels", "--temperature", "20")
    assert list(data) == ["ingredient", "class", "days", "why"]
    assert (data["ingredient"], data["class"]) == ("banana peel", "medium")
    assert data["days"]["low"] < 21 < data["days"]["high"]
    assert "judgement" in data["why"]


def test_dry_takes_longer_and_is_unsure(keeper: Keeper) -> None:
    damp = keeper.asks("gone", "banana peel", "--temperature", "18", "--moisture", "75")
    dry = keeper.asks("gone", "banana peel", "--temperature", "18", "--moisture", "45")
    assert dry["days"]["low"] > damp["days"]["low"]
    assert "unsure" in dry["why"]
    assert "unsure" not in damp["why"]
    assert keeper.asks("gone", "banana peel", "--temperature", "18", "--moisture", "20")["days"] is None


@pytest.mark.parametrize("typed", ["-1", "101", "nan"])
def test_moisture_is_refused_in_percent(keeper: Keeper, typed: str) -> None:
    answer = keeper.types("gone", "banana peel", "--temperature", "18", f"--moisture={typed}")
    assert (answer.status, answer.out) == (2, "")
    assert f"--moisture is percent, from 0 to 100, and {typed} is not." in answer.err


@pytest.mark.parametrize(
    "words",
    [
        (*RATION, "18", "--area", "0.16m2"),
        ("hatch", "--temperature", "18"),
        ("gone", "apple", "--temperature", "8"),
    ],
)
def test_text_keeps_to_80_columns(keeper: Keeper, words: tuple[str, ...]) -> None:
    assert max(map(len, keeper.does(*words).splitlines())) <= 80
