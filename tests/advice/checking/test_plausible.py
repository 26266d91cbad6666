"""Readings that cannot be are refused with a sentence, those that hardly can be are asked about."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.checking.scenes import checked, scene
from tests.builders import fed
from trayturn.advice.checking.kinds import Kind, Value
from trayturn.advice.checking.plausible import Doubt, cannot_be, doubt, doubts_of
from trayturn.domain.entries import Amount, Feel, Pest
from trayturn.domain.setup import Units


def asked(kind: Kind, value: Value, **setup: Any) -> Doubt | None:
    return doubt(kind, value, scene(fed("A", 1, {"cabbage": 2.0}), **setup))


def told(kind: Kind, value: Value, **setup: Any) -> Doubt:
    found = asked(kind, value, **setup)
    assert found is not None
    return found


BELIEVED: list[tuple[Kind, Value]] = [
    (Kind.MOISTURE, 72.0),
    (Kind.MOISTURE, Feel.WET),
    (Kind.TEMPERATURE, -1.0),
    (Kind.TEMPERATURE, 38.0),
    (Kind.PH, 4.5),
    (Kind.SUMP, 5.0),
    (Kind.SMELL, "70"),
    (Kind.STRAYS, Amount.MANY),
    (Kind.PESTS, (Pest.MICE,)),
    (Kind.WEIGHT, 0.9 + 1.9),
]


@pytest.mark.parametrize(("kind", "value"), BELIEVED)
def test_what_can_be_is_not_questioned(kind: Kind, value: Value) -> None:
    assert asked(kind, value) is None


IMPOSSIBLE: list[tuple[Kind, float, str, float | None]] = [
    (Kind.MOISTURE, 101.0, "101 % cannot be: it is from 0 to 100.", None),
    (Kind.TEMPERATURE, 95.0, "95 °C cannot be: -40 °C to 80 °C.", 35.0),
    (Kind.PH, 70.0, "pH 70 cannot be: it is from 0 to 14. Was it 7?", 7.0),
    (Kind.SUMP, 9.0, "9 l cannot be: the sump holds 5 l.", None),
    (Kind.SUMP, 250.0, "250 l cannot be: the sump holds 5 l. Was it 250 ml?", 0.25),
    (Kind.WEIGHT, 0.5, "500 g cannot be: the empty tray alone weighs 900 g.", None),
    (Kind.WEIGHT, 0.0, "0 g cannot be: the empty tray alone weighs 900 g.", None),
]


@pytest.mark.parametrize(("kind", "value", "said", "meant"), IMPOSSIBLE)
def test_what_cannot_be_is_refused(kind: Kind, value: float, said: str, meant: float | None) -> None:
    found = told(kind, value)
    assert (found.impossible, found.what) == (True, said)
    assert found.instead == (None if meant is None else pytest.approx(meant))


def test_fahrenheit_typed_in_a_metric_bin_is_asked_about() -> None:
    found = told(Kind.TEMPERATURE, 70.0)
    assert (found.impossible, found.what) == (
        False,
        "70 °C: no worm lives in that. Was it 70 °F, 21 °C?",
    )
    assert found.instead == pytest.approx((70 - 32) / 1.8)


def test_celsius_typed_in_a_us_bin_is_asked_about() -> None:
    found = told(Kind.TEMPERATURE, (18 - 32) / 1.8, units=Units.US)
    assert found.what == "At 18 °F the bin would be frozen. Was it 18 °C, 64 °F?"
    assert found.instead == pytest.approx(18)


@pytest.mark.parametrize(
    ("percent", "said"),
    [
        (0.7, "Was it 70 %?"),
        (5.0, "drier than dry cardboard"),
        (99.0, "more soup than bedding"),
    ],
)
def test_a_moisture_that_hardly_can_be_is_asked_about(percent: float, said: str) -> None:
    found = told(Kind.MOISTURE, percent)
    assert not found.impossible
    assert said in found.what


def test_a_weight_far_from_what_went_in_is_asked_about_and_a_slip_of_the_point_found() -> None:
    odd = told(Kind.WEIGHT, 0.9 + 10.0)
    assert (odd.impossible, odd.what) == (
        False,
        "10.9 kg is more than twice what was reckoned of what went in.",
    )
    grams = told(Kind.WEIGHT, 2800.0)
    assert grams.impossible
    assert grams.instead == pytest.approx(2.8)
    assert "heavier than wet sand" in grams.what
    slip = told(Kind.WEIGHT, 28.0)
    assert slip.instead == pytest.approx(2.8)
    assert slip.what == "28 kg is more than twice what was reckoned of what went in. Was it 2.8 kg?"


def test_a_weight_needs_a_tray_and_one_of_unknown_contents_is_taken() -> None:
    assert told(Kind.WEIGHT, 6.0, tray=None).what == "A weight is of one tray, not of the whole bin."


def test_a_check_about_to_be_written_is_looked_through() -> None:
    stack = scene().stack
    assert cannot_be(checked(30, sump_l=9, moisture_pct=5), stack) == "9 l cannot be: the sump holds 5 l."
    assert cannot_be(checked(30, moisture_pct=5), stack) is None
    odd = doubts_of({Kind.MOISTURE: 5.0, Kind.SUMP: 9.0}, scene())
    assert [one.kind for one in odd] == [Kind.SUMP, Kind.MOISTURE]


@given(st.sampled_from(list(Kind)), st.floats(-1e6, 1e6), st.sampled_from(Units))
def test_any_number_gets_no_answer_or_a_sentence(kind: Kind, number: float, units: Units) -> None:
    found = asked(kind, number, units=units)
    if found is not None:
        assert found.what[-1] in ".?"
        assert found.instead is None or asked(kind, found.instead, units=units) is None
