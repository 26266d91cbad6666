"""What was read before, of whom, and whether it rises by more than readings err."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from tests.advice.checking.scenes import checked, scene
from tests.builders import moment, started, turned, undone
from trayturn.advice.checking.history import Point
from trayturn.advice.checking.kinds import Kind, Value, fields_of, said, value_of
from trayturn.advice.checking.smells import Smell, smell_of
from trayturn.advice.checking.trend import LATEST, MAY_BE_OFF, Trend, trend
from trayturn.domain.entries import Amount, Checked, Feel, Pest
from trayturn.domain.setup import Units


def values(found: tuple[Point, ...]) -> list[Value]:
    return [point.value for point in found]


def test_a_trays_moisture_is_its_own_and_a_feel_stands_beside_a_percentage() -> None:
    journal = (
        checked(3, moisture_pct=70),
        checked(5, None, moisture_pct=99),
        checked(6, "B", moisture_pct=98),
        checked(8, feel="moist"),
        checked(9, ph=7),
    )
    found = scene(started("B", 1), *journal).past(Kind.MOISTURE)
    assert values(found) == [70.0, Feel.MOIST]
    assert [(point.number, point.by_feel) for point in found] == [(70, False), (80, True)]


def test_the_bins_warmth_counts_whichever_tray_was_looked_at() -> None:
    bin_wide = (checked(3, temperature_c=18), checked(4, "B", temperature_c=19), checked(5, None, sump_l=1.0))
    assert values(scene(started("B", 1), *bin_wide).past(Kind.TEMPERATURE)) == [18.0, 19.0]
    assert values(scene(started("B", 1), *bin_wide).past(Kind.SUMP)) == [1.0]


def test_what_was_taken_back_is_left_out_and_what_is_still_to_come() -> None:
    slip, later = checked(3, moisture_pct=7), checked(29, moisture_pct=71)
    found = scene(slip, undone(slip, 3), checked(4, moisture_pct=70), later, day=20)
    assert values(found.past(Kind.MOISTURE)) == [70.0]


def test_fresh_bedding_forgets_what_the_tray_held_before() -> None:
    again = (turned("B", 10), started("A", 12))
    found = scene(started("B", 1), checked(3, moisture_pct=88), *again, checked(13, moisture_pct=60))
    assert values(found.past(Kind.MOISTURE)) == [60.0]


def test_only_the_latest_dozen_are_shown_and_the_one_being_taken_is_last() -> None:
    weekly = [checked(day, smell="earthy", temperature_c=10 + day) for day in range(1, 20)]
    found = scene(*weekly, now={Kind.TEMPERATURE: 20.0})
    assert values(found.past(Kind.TEMPERATURE)) == [float(10 + day) for day in range(8, 20)]
    assert found.points(Kind.TEMPERATURE)[-1] == Point(moment(30), Kind.TEMPERATURE, 20.0)


READ: list[tuple[Kind, Value, dict[str, Any], str]] = [
    (Kind.MOISTURE, 72.4, {"moisture_pct": 72.4}, "72.4 %"),
    (Kind.MOISTURE, Feel.DAMP, {"feel": Feel.DAMP}, "damp by the squeeze"),
    (Kind.TEMPERATURE, 18.0, {"temperature_c": 18.0}, "18 °C"),
    (Kind.PH, 6.5, {"ph": 6.5}, "pH 6.5"),
    (Kind.SMELL, "sour\n", {"smell": "sour\n"}, "sour "),
    (Kind.SUMP, 0.0, {"sump_l": 0.0}, "empty"),
    (Kind.STRAYS, Amount.FEW, {"strays": Amount.FEW}, "few"),
    (Kind.PESTS, (Pest.ANTS, Pest.MICE), {"pests": (Pest.ANTS, Pest.MICE)}, "ants and mice"),
    (Kind.WORMS, Amount.NONE, {"worms": Amount.NONE}, "none"),
    (Kind.WEIGHT, 5.2, {"gross_kg": 5.2}, "5.2 kg"),
]


@pytest.mark.parametrize(("kind", "value", "fields", "words"), READ)
def test_every_reading_has_its_field_and_its_words(
    kind: Kind, value: Value, fields: dict[str, Any], words: str
) -> None:
    assert fields_of({kind: value}) == fields
    check = Checked(at=moment(1), **fields)
    assert {k: v for k in Kind if (v := value_of(check, k)) is not None} == {kind: value}
    assert said(kind, value, Units.METRIC) == words


@pytest.mark.parametrize(
    ("words", "smell"),
    [
        ("earthy", Smell.EARTHY),
        ("like a forest", Smell.EARTHY),
        ("none", Smell.EARTHY),
        ("ammonia, fainter", Smell.AMMONIA),
        ("a little sour", Smell.SOUR),
        ("rotten eggs", Smell.ROTTEN),
        ("sour and rotting", Smell.ROTTEN),
        ("no ammonia any more", Smell.OTHER),
        ("carrots", Smell.OTHER),
        ("", Smell.OTHER),
    ],
)
def test_a_smell_in_the_keepers_words(words: str, smell: Smell) -> None:
    assert smell_of(words) is smell


def series(kind: Kind, numbers: list[float], every: float = 7) -> tuple[Point, ...]:
    return tuple(Point(moment(every * n), kind, number) for n, number in enumerate(numbers))


@pytest.mark.parametrize(
    ("numbers", "word"),
    [
        ([70, 75, 80], "rising"),
        ([80, 74, 69], "falling"),
        ([70, 79], "steady"),
        ([70, 80], "rising"),
        ([70, 95, 71, 72, 71], "steady"),
    ],
)
def test_rising_is_said_from_twice_the_error_of_a_reading_on(numbers: list[float], word: str) -> None:
    found = trend(series(Kind.MOISTURE, numbers))
    assert found is not None
    assert found.word == word


def test_one_reading_has_no_trend_nor_have_words() -> None:
    assert trend(()) is None
    assert trend(series(Kind.TEMPERATURE, [18.0])) is None
    assert trend(series(Kind.TEMPERATURE, [18.0, 25.0], every=0)) is None
    assert trend((Point(moment(1), Kind.SMELL, "sour"), Point(moment(2), Kind.SMELL, "earthy"))) is None


def test_a_trend_says_over_how_many_days_and_by_how_many_readings() -> None:
    rising = trend(series(Kind.TEMPERATURE, [15.0, 16.0, 18.0]))
    steady = trend(series(Kind.PH, [7.0, 7.2]))
    assert rising is not None
    assert steady is not None
    assert rising.words(Units.METRIC) == "Rising: 3 °C in 14 days, by 3 readings."
    assert rising.words(Units.US) == "Rising: 5.4 °F in 14 days, by 3 readings."
    assert steady.words(Units.METRIC) == "Steady over 7 days, by 2 readings: less than 1 is reading error."


def test_a_sump_is_followed_since_it_was_last_emptied() -> None:
    found = trend(series(Kind.SUMP, [0.5, 1.4, 0.1, 0.4, 0.7]))
    assert found is not None
    assert (found.word, round(found.change, 6), found.days, found.readings) == ("rising", 0.6, 14, 3)


def test_readings_of_last_season_are_no_trend() -> None:
    old = Point(moment(0), Kind.TEMPERATURE, 5.0)
    found = trend((old, *(Point(moment(day), Kind.TEMPERATURE, 20.0) for day in (90, 97))))
    assert found is not None
    assert (found.word, found.readings) == ("steady", 2)


NUMBERS = st.lists(st.floats(40, 95), min_size=2, max_size=LATEST)


@given(NUMBERS)
def test_the_slope_is_that_of_theil_and_sen(numbers: list[float]) -> None:
    """Against SciPy's Theil-Sen estimator, an independent implementation."""
    found = trend(series(Kind.MOISTURE, numbers))
    slope = stats.theilslopes(numbers, [7 * n for n in range(len(numbers))])[0]
    assert found is not None
    assert found.change / found.days == pytest.approx(slope, abs=1e-9)


@given(NUMBERS)
def test_a_mirrored_history_has_the_mirrored_trend(numbers: list[float]) -> None:
    there = trend(series(Kind.MOISTURE, numbers))
    back = trend(series(Kind.MOISTURE, [135 - number for number in numbers]))
    assert isinstance(there, Trend)
    assert isinstance(back, Trend)
    assert there.direction == -back.direction
    assert (there.direction == 0) == (abs(there.change) < 2 * MAY_BE_OFF[Kind.MOISTURE] - 1e-9)
