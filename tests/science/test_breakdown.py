"""Breakdown by class: the windows it was set to, and what holds at any temperature and moisture."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.science.breakdown import RATES, days_until_gone, left, moisture_factor, rate
from trayturn.science.errors import OutOfRange
from trayturn.science.materials import load_materials

WINDOWS = {"fast": (4, 14), "medium": (14, 35), "slow": (30, 90), "very slow": (180, 600)}
"""Days at room temperature: an assumption of ours, not published."""


def gone(speed: str, celsius: float = 20, moisture: float = 0.75) -> tuple[float, float]:
    days = days_until_gone(speed, celsius, moisture)
    assert days is not None
    return days


@pytest.mark.parametrize(("speed", "window"), WINDOWS.items())
def test_each_class_keeps_to_its_window(speed: str, window: tuple[float, float]) -> None:
    low, high = gone(speed)
    assert 0.8 * window[0] < low < high < window[1]


def test_the_classes_follow_each_other_without_a_gap() -> None:
    bands = [gone(speed) for speed in RATES]
    assert all(one[1] <= other[0] + 1e-9 for one, other in pairwise(bands))


@pytest.mark.parametrize("celsius", [18, 20, 22])
def test_a_banana_peel_takes_three_weeks_indoors(celsius: float) -> None:
    """Common practice, no source."""
    low, high = gone(load_materials().find("banana peel").breakdown, celsius)
    assert low < 21 < high


@pytest.mark.parametrize("name", ["corn cobs", "avocado skin", "mango stone"])
def test_what_outlasts_several_turns(name: str) -> None:
    """Common practice, no source; cobs after 6 to 8 months in a tub: Solomon 1993, after Appelhof."""
    assert gone(load_materials().find(name).breakdown)[0] > 2 * 60


def test_what_is_left_of_a_worked_example() -> None:
    """Computed: 0.02 a day at 20 C, .7071 for cold, .8557 for damp: 69.56 g of 100 after 30 days."""
    assert 100 * left(30, 0.02 * 0.7071 * 0.8557) == pytest.approx(69.56, abs=0.01)
    assert left(0, 0.3) == 1


def test_a_derived_rate_of_food_waste() -> None:
    """Kumar 2010: 33 % of the volatile solids in 12 days is 0.0334 a day, half in 20.8 days (computed)."""
    assert left(12, 0.0334) == pytest.approx(0.67, abs=0.001)
    assert left(20.8, 0.0334) == pytest.approx(0.5, abs=0.002)


SPEEDS = st.sampled_from(list(RATES))


@given(SPEEDS, st.floats(0.5, 34), st.floats(0.5, 34), st.floats(0.35, 1))
def test_colder_takes_longer(speed: str, one: float, other: float, moisture: float) -> None:
    cold, warm = (gone(speed, celsius, moisture) for celsius in sorted((one, other)))
    assert warm[0] <= cold[0] * (1 + 1e-9)
    assert warm[1] <= cold[1] * (1 + 1e-9)
    assert cold[0] <= cold[1]


@given(st.floats(0, 1), st.floats(0, 1))
def test_drier_is_never_quicker(one: float, other: float) -> None:
    dry, damp = sorted((one, other))
    assert 0 <= moisture_factor(dry) <= moisture_factor(damp) <= 1


HAUG = {0.2: 0.0286, 0.3: 0.1472, 0.4: 0.5028, 0.5: 0.8557, 0.6: 0.972, 0.7: 0.9951}


@pytest.mark.parametrize(("moisture", "factor"), HAUG.items())
def test_the_line_runs_near_the_curve_it_stands_for(moisture: float, factor: float) -> None:
    """Haug 1993, computed from the formula as remembered: not a published check."""
    assert moisture_factor(moisture) == pytest.approx(factor, abs=0.16)


@given(SPEEDS, st.one_of(st.floats(-40, 0), st.floats(35, 80)))
def test_nothing_goes_outside_the_limits_of_life(speed: str, celsius: float) -> None:
    assert rate(speed, celsius) == (0, 0)
    assert days_until_gone(speed, celsius) is None


@pytest.mark.parametrize("wrong", [-0.1, 1.1, math.nan, math.inf])
def test_odd_moisture_is_refused(wrong: float) -> None:
    with pytest.raises(OutOfRange, match="moisture needs to be from 0 to 1"):
        rate("fast", 20, wrong)


@pytest.mark.parametrize(("days", "per_day"), [(-1, 0.1), (1, -0.1), (math.nan, 0.1), (1, math.inf)])
def test_odd_decay_is_refused(days: float, per_day: float) -> None:
    with pytest.raises(OutOfRange):
        left(days, per_day)
