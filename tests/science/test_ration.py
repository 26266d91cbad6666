"""Rations: the worked examples, the limits, and what holds for any mass and temperature."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.science.ration import AREA_KG_M2_WEEK, STOCKING_KG_M2, area_rule, ration, stocking

POUND_KG, SQUARE_FOOT_M2 = 0.45359237, 0.09290304


def test_the_area_rule_is_a_pound_a_square_foot_a_week() -> None:
    """NC State AG-473-18; 2 by 2 feet for 3.5 lb a week and 2 by 3 for 6 lb keep to it."""
    assert pytest.approx(POUND_KG / SQUARE_FOOT_M2, rel=1e-3) == AREA_KG_M2_WEEK
    assert area_rule(4 * SQUARE_FOOT_M2) / POUND_KG == pytest.approx(4, rel=1e-3)
    assert area_rule(6 * SQUARE_FOOT_M2) / POUND_KG == pytest.approx(6, rel=1e-3)


def test_the_published_stocking_against_a_pound_a_square_foot() -> None:
    """Ndegwa, Thompson & Das 2000; computed: a pound of worms a square foot is 3.05 times as much."""
    density, times = stocking(POUND_KG, SQUARE_FOOT_M2)
    assert density == pytest.approx(4.88, abs=0.005)
    assert times == pytest.approx(3.05, abs=0.005)
    assert stocking(0.16 * STOCKING_KG_M2, 0.16)[1] == pytest.approx(1)


def test_the_area_rule_comes_to_58_percent_of_the_managed_optimum() -> None:
    """Computed: a tray of 0.16 m2 at 1.6 kg/m2 takes 1.34 kg a week, and 0.781 by the area rule."""
    week = 7 * ration(0.256, 20).optimum
    assert week == pytest.approx(1.344)
    assert area_rule(0.16) / week == pytest.approx(0.58, abs=0.005)


def test_a_household_ration_holds_the_extension_sheets() -> None:
    """A pound of worms takes 3.5 lb a week (New York City), half a pound a day (Louisiana, NC State: 2 lb of
    worms for 1 lb a day); two pounds 3 to 5 lb a week (a school sheet)."""
    low, high = ration(POUND_KG, 20).norm
    for pounds_a_day in (3.5 / 7, 0.5, 1 / 2, 3 / 7 / 2):
        assert low - 1e-9 <= pounds_a_day * POUND_KG <= high + 1e-9


def test_the_cold_takes_off_by_both_corrections() -> None:
    """Computed: 15 C against 20 C is .7135/.8471 by one correction and .6228 by the other."""
    found = ration(1, 15)
    slow, quick = 0.6228, 0.7135 / 0.8471
    assert found.norm == pytest.approx((0.2 * slow, 0.5 * quick), rel=1e-3)
    assert found.ceiling == pytest.approx(1.25 * (slow + quick) / 2, rel=1e-3)


@given(st.floats(0, 100), st.floats(-40, 80))
def test_a_ration_is_never_above_that_at_20_nor_below_nothing(worms: float, celsius: float) -> None:
    found, best = ration(worms, celsius), ration(worms, 20)
    assert 0 <= found.norm[0] <= found.norm[1] <= best.norm[1] + 1e-12
    assert 0 <= found.optimum <= found.ceiling <= best.ceiling + 1e-12


@given(st.floats(4, 20), st.floats(4, 20))
def test_warmer_takes_more_up_to_20(one: float, other: float) -> None:
    cold, warm = (ration(1, celsius) for celsius in sorted((one, other)))
    assert cold.norm[0] <= warm.norm[0] + 1e-12
    assert cold.ceiling <= warm.ceiling + 1e-12


def test_the_words_name_the_temperature_and_the_heat() -> None:
    assert "At 3.9 C do not feed" in ration(1, 3.9).why
    assert "Feed thin" in ration(1, 28).why
    assert "Feed thin" not in ration(1, 22).why
    assert "83% to 93%" in ration(1, 18).why
    assert "reckoned as at 20 C" in ration(1, 22).why
