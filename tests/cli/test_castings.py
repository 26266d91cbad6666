"""`castings`: lots with what comes next, and potting mixes."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Keeper


def test_lots_in_words_and_as_data(pantry: Keeper) -> None:
    assert "No castings are kept here yet." in pantry.does("castings", "pantry")
    pantry.does("log", "pantry", "lot-begun", "A1", "--tray", "a", "--weight", "4kg")
    told = pantry.does("castings", "pantry")
    assert "A1: hatching" in told
    assert "Lay a bait on lot A1." in told
    (lot,) = pantry.asks("castings", "pantry")["lots"]
    assert (lot["lot"], lot["stage"], lot["next"], lot["left_kg"]) == ("A1", "hatching", "lure", 4.0)
    assert lot["cocoons"]["low"] < lot["cocoons"]["high"]
    pantry.does("log", "pantry", "packed", "A1", "jar", "1kg")
    (lot,) = pantry.asks("castings", "pantry")["lots"]
    assert lot["jars"][0]["left_kg"] == 1.0
    assert lot["jars"][0]["use_by"].startswith("2026-05-02")


def test_a_mix_is_reckoned_and_too_much_refused(pantry: Keeper) -> None:
    told = pantry.does("castings", "pantry", "--mix", "20l", "--share", "15")
    assert "For 20 l of mix at 15 %: 3 l of castings, about 2.1 kg to 2.7 kg." in told
    assert "Mota" in pantry.types("castings", "pantry", "--mix", "20l", "--share", "60").err
    data = pantry.asks("castings", "pantry", "--mix", "10l", "--share", "60", "--despite")
    assert data["castings_l"] == pytest.approx(6.0)
    assert "--share needs" in pantry.types("castings", "pantry", "--mix", "10l", "--share", "0").err


def test_nothing_is_given_away_before_the_caution(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "lot-begun", "A1", "--weight", "4kg")
    assert "local authority" in pantry.types("log", "pantry", "castings-given", "A1").err
    assert "--despite" in pantry.types("log", "pantry", "castings-used", "A1", "--share", "70").err
    pantry.does("log", "pantry", "castings-used", "A1", "--share", "70", "--despite")
