"""Readings as they are typed, stepped and picked, without a screen."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.checking.scenes import checked, scene
from tests.builders import fed
from trayturn.advice.checking.kinds import Kind, Value, said
from trayturn.advice.checking.plausible import Doubt
from trayturn.advice.checking.smells import Smell
from trayturn.domain.entries import Amount, Feel
from trayturn.domain.setup import Units
from trayturn.domain.units import CUP_L, FLUID_OUNCE_L, POUND_KG, QUART_L, UnitError
from trayturn.tui.screens.check import outcome, stepping, typed
from trayturn.tui.screens.check.draft import Draft

METRIC, US = Units.METRIC, Units.US
TYPED: list[tuple[Kind, str, Value]] = [
    (Kind.MOISTURE, "72", 72.0),
    (Kind.MOISTURE, "72,5 %", 72.5),
    (Kind.MOISTURE, "Damp", Feel.DAMP),
    (Kind.TEMPERATURE, "65 F", (65 - 32) / 1.8),
    (Kind.TEMPERATURE, "65 fahrenheit", (65 - 32) / 1.8),
    (Kind.TEMPERATURE, "-2", -2.0),
    (Kind.PH, "pH 6.5", 6.5),
    (Kind.SMELL, " like hay ", "like hay"),
    (Kind.SUMP, "8 fl oz", 8 * FLUID_OUNCE_L),
    (Kind.SUMP, "1 cup", CUP_L),
    (Kind.SUMP, "empty", 0.0),
    (Kind.STRAYS, "Few", Amount.FEW),
    (Kind.WEIGHT, "11 lb", 11 * POUND_KG),
]


@pytest.mark.parametrize(("kind", "text", "value"), TYPED)
def test_odd_units_and_words_are_understood(kind: Kind, text: str, value: Value) -> None:
    found = typed.read(kind, text, METRIC)
    assert found == (pytest.approx(value) if isinstance(value, float) else value)


def test_fluid_ounces_and_cups_are_exact_by_definition() -> None:
    # NIST Handbook 44, appendix C: 1 US cup is 236.588 236 5 ml, and 8 fluid ounces of 29.573 529 562 5 ml.
    assert pytest.approx(0.2365882365, rel=1e-12) == CUP_L
    assert pytest.approx(0.0295735295625, rel=1e-12) == FLUID_OUNCE_L


@pytest.mark.parametrize(
    ("kind", "text", "said"),
    [
        (Kind.MOISTURE, "soggy", "'soggy' is not a percentage such as 72, or dry, damp, moist or wet."),
        (Kind.TEMPERATURE, "18 kg", "'kg' is not a unit of temperature; use C or F, such as 18 C."),
        (Kind.PH, "seven", "'seven' is not a pH such as 7."),
        (Kind.STRAYS, "3", "'3' is not one of none, few or many (strays)."),
        (Kind.SUMP, "-1 l", "Volume cannot be below zero, and '-1 l' is."),
        (Kind.SMELL, "x" * 201, "That is 201 characters long; the most is 200."),
    ],
)
def test_what_cannot_be_read_is_told_in_one_sentence(kind: Kind, text: str, said: str) -> None:
    with pytest.raises(UnitError) as slip:
        typed.read(kind, text, METRIC)
    assert str(slip.value) == said


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("kind", [kind for kind in Kind if kind is not Kind.PESTS])
def test_every_example_is_there(kind: Kind, units: Units) -> None:
    assert typed.example(kind, units)


def step(kind: Kind, value: Value | None, by: int, *entries: Any, **setup: Any) -> str:
    at = scene(*entries, **setup)
    found = stepping.stepped(kind, value, by, at)
    assert found is not None
    return said(kind, found, at.units)


def test_a_number_is_stepped_from_its_last_reading() -> None:
    before = checked(5, temperature_c=17.5, sump_l=0.4, ph=6.5, gross_kg=5.2, moisture_pct=71)
    assert step(Kind.TEMPERATURE, None, 1, before) == "19 °C"
    assert step(Kind.SUMP, None, 1, before) == "500 ml"
    assert step(Kind.PH, None, -1, before) == "pH 6"
    assert step(Kind.WEIGHT, None, -1, before) == "5.1 kg"
    assert step(Kind.MOISTURE, None, 1, before) == "72 %"
    assert step(Kind.SUMP, 0.0, -1) == "empty"


def test_a_us_keeper_steps_in_degrees_fahrenheit_quarts_and_ounces() -> None:
    before = checked(5, temperature_c=(65 - 32) / 1.8, sump_l=0.5 * QUART_L, gross_kg=10 * POUND_KG)
    assert step(Kind.TEMPERATURE, None, 1, before, units=US) == "66 °F"
    assert step(Kind.SUMP, None, 1, before, units=US) == "0.6 qt"
    assert step(Kind.WEIGHT, None, 1, before, units=US) == "10.2 lb"


def test_without_a_reading_a_weight_begins_at_what_is_reckoned() -> None:
    at = scene(fed("A", 1, {"cabbage": 2.0}))
    found = stepping.stepped(Kind.WEIGHT, None, 1, at)
    reckoned = at.reckoned(at.stack.as_of)
    assert reckoned is not None
    assert found == pytest.approx(0.9 + reckoned.wet_kg.mid, abs=0.16)


def test_words_are_stepped_to_their_end_and_no_further() -> None:
    words = [stepping.stepped(Kind.STRAYS, value, 1, scene()) for value in (None, "none", "few", "many")]
    assert words == ["none", "few", "many", "many"]
    assert stepping.stepped(Kind.PESTS, None, 1, scene()) is None


@given(st.floats(0, 100), st.sampled_from(Units), st.sampled_from(sorted(stepping.NUMBERS)))
def test_a_step_up_and_down_again_comes_back_to_whole_steps(number: float, units: Units, kind: Kind) -> None:
    at = scene(units=units)
    up = stepping.stepped(kind, number, 1, at)
    back = stepping.stepped(kind, up, -1, at)
    assert isinstance(up, float)
    assert isinstance(back, float)
    assert up - back == pytest.approx(stepping.step_of(kind, units))
    assert abs(back - number) <= stepping.step_of(kind, units) / 2 + 1e-6


def test_digits_pick_words_the_last_reading_or_what_was_meant() -> None:
    at = scene(checked(5, temperature_c=17.5))
    doubted = Doubt(Kind.TEMPERATURE, False, "70 °C", 21.0)
    assert stepping.picked(Kind.MOISTURE, 2, None, at) is Feel.DAMP
    assert stepping.picked(Kind.SMELL, 4, None, at) is Smell.AMMONIA
    assert stepping.picked(Kind.WORMS, 3, None, at) is Amount.MANY
    assert stepping.picked(Kind.WORMS, 4, None, at) is None
    assert stepping.picked(Kind.TEMPERATURE, stepping.SAME, None, at) == 17.5
    assert stepping.picked(Kind.TEMPERATURE, stepping.MEANT, doubted, at) == 21.0
    assert stepping.picked(Kind.PH, stepping.SAME, None, at) is None
    assert "8 takes 21 °C  9 keeps it" in stepping.ways(Kind.TEMPERATURE, doubted, at)


def test_a_draft_keeps_what_cannot_be_read_and_takes_only_what_is_believed() -> None:
    draft, at = Draft(), scene()
    draft.type(Kind.TEMPERATURE, "18 kg", at)
    assert (draft.texts, draft.values, draft.empty) == ({Kind.TEMPERATURE: "18 kg"}, {}, False)
    draft.type(Kind.TEMPERATURE, "70", at)
    assert draft.faults == {}
    assert draft.seen_in(at).now == {}
    draft.insisted.add(Kind.TEMPERATURE)
    assert draft.seen_in(at).now == {Kind.TEMPERATURE: 70.0}
    draft.put(Kind.TEMPERATURE, None)
    assert draft.empty


def test_what_stands_in_the_way_of_saving() -> None:
    draft, at = Draft(), scene()
    nothing = outcome.obstacle(draft, {})
    assert nothing is not None
    assert nothing.words == outcome.NOTHING
    draft.type(Kind.SUMP, "9 l", at)
    draft.type(Kind.PH, "seven", at)
    refused = outcome.obstacle(draft, draft.doubts(at))
    assert refused is not None
    assert (refused.kind, refused.may_insist) == (Kind.PH, False)
    draft = Draft({Kind.MOISTURE: 5.0})
    odd = outcome.obstacle(draft, draft.doubts(at))
    assert odd is not None
    assert (odd.kind, odd.may_insist) == (Kind.MOISTURE, True)
    assert outcome.obstacle(Draft({Kind.PH: 7.0}), {}) is None


def test_what_was_saved_is_told_with_what_to_do_first() -> None:
    taken = Draft({Kind.TEMPERATURE: 34.0, Kind.SMELL: "earthy", Kind.PH: 7.0})
    assert outcome.saved_words(taken, scene()) == (
        "Saved: 34 °C, smell earthy, pH 7.",
        "First: Cool it by 4 °C at least: shade, a damp cover, the food in a thin layer.",
    )
    assert outcome.saved_words(Draft({Kind.SMELL: "earthy"}), scene())[1] == "Nothing needs doing."
