"""`readings` and `moisture`: the check screen's twin for the eye and for a script, and refusals in `log`."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Keeper

KEYS = ["kind", "value", "at", "range", "history", "verdict"]


@pytest.fixture
def checked(pantry: Keeper) -> Keeper:
    """The bin of three trays with two checks of A a week apart, the later one too dry."""
    pantry.it_is("2026-03-10T10:00:00+01:00")
    pantry.does("log", "pantry", "checked", "A", "--moisture", "76", "--temperature", "16", "--sump", "0.2l")
    pantry.it_is("2026-03-17T10:00:00+01:00")
    pantry.does("log", "pantry", "checked", "A", "--moisture", "52%", "--smell", "sour", "--strays", "few")
    pantry.does("log", "pantry", "checked", "--pests", "ants", "--temperature", "19")
    return pantry


def test_each_reading_is_told_with_its_verdict_its_amount_and_its_sources(checked: Keeper) -> None:
    text = " ".join(checked.does("readings", "pantry").split())
    assert "Moisture Too dry: 52 %; worms need 60 % at least. Read today." in text
    assert "of water in all, for 75 %" in text
    assert "Before: 76 % Tue 10 Mar." in text
    assert "Falling: 24 points in 7 days, by 2 readings." in text
    assert "Temperature Fine: 19 °C. Read today. Before: 16 °C Tue 10 Mar." in text
    assert "Ants: to act on." in text
    assert "Tray A, feeding" in text
    assert "Tray weighs not read yet" in text
    assert text.count("Limits 60 to 90 % of the fresh mass") == 1


def test_one_tray_may_be_asked_for(checked: Keeper) -> None:
    text = checked.does("readings", "pantry", "--tray", "b")
    assert "Tray B, bedding" in text
    assert "Tray A" not in text
    answer = checked.types("readings", "pantry", "--tray", "Z")
    assert answer.status == 2
    assert "Pantry has no tray 'Z' by then. Its trays are" in answer.err


def test_a_script_gets_numbers_ranges_histories_and_amounts(checked: Keeper) -> None:
    data = checked.asks("readings", "pantry")
    assert list(data) == ["bin", "name", "as_of", "whole_bin", "trays"]
    assert [one["kind"] for one in data["whole_bin"]] == ["temperature", "sump", "strays"]
    assert [one["tray"] for one in data["trays"]] == ["A", "B", "C"]
    of_a = next(one for one in data["trays"] if one["tray"] == "A")
    assert all(list(one) == KEYS for one in of_a["readings"])
    moisture = next(one for one in of_a["readings"] if one["kind"] == "moisture")
    assert moisture["value"] == 52
    assert moisture["range"]["limits"] == [60, 90]
    assert [point["value"] for point in moisture["history"]] == [76, 52]
    verdict = moisture["verdict"]
    assert (verdict["level"], verdict["word"]) == ("act", "too dry")
    assert verdict["trend"] == {"word": "falling", "change": -24, "days": 7, "readings": 2}
    assert verdict["add"]["what"] == "water"
    assert 0 < verdict["add"]["low_kg"] < verdict["add"]["high_kg"]
    unread = next(one for one in of_a["readings"] if one["kind"] == "weight")
    assert (unread["value"], unread["verdict"], unread["history"]) == (None, None, [])


def test_an_earlier_moment_may_be_asked_about(checked: Keeper) -> None:
    data = checked.asks("readings", "pantry", "--tray", "A", "--at", "2026-03-12")
    moisture = data["trays"][0]["readings"][0]
    assert (moisture["value"], moisture["verdict"]["word"]) == (76, "fine")


def test_a_bin_without_a_tray_has_its_readings_too(keeper: Keeper) -> None:
    keeper.does("new", "Bare")
    assert "Temperature not read yet" in " ".join(keeper.does("readings", "bare").split())
    assert keeper.asks("readings", "bare")["trays"][0]["tray"] is None


def test_plain_signs_when_asked_for(checked: Keeper) -> None:
    assert checked.does("readings", "pantry", "--ascii").isascii()


def test_the_published_moisture_example(keeper: Keeper) -> None:
    """Richard & Trautmann, Moisture Content, Cornell 1996: 77 %."""
    assert keeper.does("moisture", "4g", "14 g", "6.3g").startswith("Moisture 77 %.")
    assert keeper.asks("moisture", "4g", "14g", "6.3g")["moisture_pct"] == pytest.approx(77)
    answer = keeper.types("moisture", "4g", "14g", "15g")
    assert (answer.status, answer.out) == (2, "")
    assert "less than the wet one" in answer.err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--sump", "9l"], "9 l cannot be: the sump holds 5 l."),
        (["A", "--weight", "200g"], "200 g cannot be: the empty tray alone weighs 900 g."),
        (["--weight", "6kg"], "A weight is of one tray"),
    ],
)
def test_log_refuses_a_reading_that_cannot_be(pantry: Keeper, words: list[str], said: str) -> None:
    before = pantry.kinds()
    answer = pantry.types("log", "pantry", "checked", *words)
    assert answer.status == 2
    assert said in answer.err
    assert pantry.kinds() == before


def test_log_saves_a_reading_that_hardly_can_be_and_asks(pantry: Keeper) -> None:
    text = pantry.does("log", "pantry", "checked", "A", "--temperature", "70")
    assert "warning: 70 °C: no worm lives in that. Was it 70 °F, 21 °C?" in text
    assert "To take it back: trayturn log pantry undo" in text
    data = pantry.asks("log", "pantry", "checked", "A", "--moisture", "5")
    assert [one["code"] for one in data["findings"]] == ["unlikely-reading"]
