"""The two published corrections and the activity curve, over their whole range."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.science.errors import OutOfRange
from trayturn.science.temperature import (
    activity,
    activity_against,
    correction_band,
    energy_budget,
    johnston,
    speed_band,
)

ALIVE = st.floats(0.5, 34.5)
# Computed from the parameters of Johnston et al. 2014, Ecological Modelling 280:5-17.
JOHNSTON = {
    5: 0.4969,
    10: 0.5973,
    15: 0.7135,
    18: 0.7915,
    20: 0.8471,
    22: 0.9059,
    25: 1.0,
    28: 1.1018,
    30: 1.1740,
}
# Computed from the parameters of the Eisenia fetida energy-budget set (8000 K against 293.15 K).
ENERGY_BUDGET = {5: 0.2295, 10: 0.3814, 15: 0.6228, 20: 1.0, 25: 1.5804, 30: 2.4601}
# Computed from the cardinal formula with 0, 25 and 35 C; the formula is from memory, after Rosso et al. 1993.
CARDINAL = {5: 0.0857, 10: 0.3077, 15: 0.6, 20: 0.8727, 25: 1.0, 28: 0.9341, 30: 0.8, 33: 0.4149}


@pytest.mark.parametrize(("celsius", "factor"), JOHNSTON.items())
def test_the_gentler_correction(celsius: float, factor: float) -> None:
    assert johnston(celsius) == pytest.approx(factor, abs=1e-4)


@pytest.mark.parametrize(("celsius", "factor"), ENERGY_BUDGET.items())
def test_the_steeper_correction(celsius: float, factor: float) -> None:
    assert energy_budget(celsius) == pytest.approx(factor, abs=1e-4)


def test_they_disagree_and_the_band_holds_both() -> None:
    """Computed: ten degrees from 15 to 25 C speed things up by 1.40 or by 2.54."""
    assert speed_band(25, 15) == pytest.approx((1.40, 2.54), abs=0.005)
    assert correction_band(25, 15) == speed_band(25, 15)


@pytest.mark.parametrize("celsius", [-40, -0.1, 0, 35, 36, 80])
def test_life_stands_still_outside_its_limits(celsius: float) -> None:
    assert correction_band(celsius, 20) == (0, 0)
    assert activity(celsius) == 0
    assert activity_against(celsius) == 0


@given(ALIVE, ALIVE)
def test_the_band_is_above_one_above_the_reference(celsius: float, reference: float) -> None:
    low, high = correction_band(celsius, reference)
    assert 0 < low <= high
    assert (low >= 1) == (celsius >= reference) or math.isclose(celsius, reference)
    assert correction_band(reference, reference) == pytest.approx((1, 1))


@pytest.mark.parametrize(("celsius", "share"), CARDINAL.items())
def test_the_activity_curve_whole_and_against_20(celsius: float, share: float) -> None:
    assert activity(celsius) == pytest.approx(share, abs=1e-4)
    assert activity_against(celsius) == pytest.approx(share / 0.8727, abs=3e-4)


@given(st.floats(0.1, 25), st.floats(0.1, 25))
def test_activity_rises_up_to_the_best(one: float, other: float) -> None:
    cold, warm = sorted((one, other))
    assert activity(cold) <= activity(warm) + 1e-12
    assert 0 <= activity(cold) <= 1


@pytest.mark.parametrize("wrong", [math.nan, math.inf, -math.inf, -300.0, 500.0])
def test_no_temperature_of_a_bin_is_refused(wrong: float) -> None:
    for call in (johnston, energy_budget, activity, activity_against):
        with pytest.raises(OutOfRange, match="The temperature needs to be from -40 to 80 C"):
            call(wrong)
    with pytest.raises(OutOfRange):
        correction_band(20, wrong)
    with pytest.raises(OutOfRange, match="to compare with"):
        activity_against(20, wrong)
