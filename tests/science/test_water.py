"""Water of a feeding and the bedding that takes it up."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.science.errors import OutOfRange
from trayturn.science.water import HOLDS, METABOLIC, SOAKED, bedding_for, days_dry, surplus


def test_the_water_of_oxidation_is_that_of_stoichiometry() -> None:
    """C16H27O8N + 16.5 O2 gives 16 CO2, 12 H2O and NH3."""
    formula = 16 * 12.011 + 27 * 1.008 + 8 * 15.999 + 14.007
    assert 12 * 18.015 / formula == pytest.approx(METABOLIC, abs=5e-4)


@pytest.mark.parametrize(
    ("name", "factor"),
    [
        ("newspaper", 2.0),  # Iowa State A.S. Leaflet R2153, about twice
        ("newspaper", 4.0),  # Ward et al. 2000, over four times
        ("oat straw", 3.0),  # Iowa State R2153, about three times
        ("oat straw", 2.28),  # Deherain in Whisenand 1918
        ("wheat straw", 2.2),  # Deherain in Whisenand 1918
        ("barley straw", 2.85),  # the same
        ("leaves", 1.62),  # the same, oak leaves
        ("peat", 6.0),  # the same, 5 to 7
        ("sawdust", 4.35),  # the same, poplar
        ("coir", 7.5),  # Evans, Konduru & Stamps 1996, 7.5 to 11
        ("wheat straw", 3.6),  # Spiehs 2013
    ],
)
def test_what_beddings_hold_is_what_was_measured(name: str, factor: float) -> None:
    assert HOLDS[name].low <= factor <= HOLDS[name].high


def test_every_bedding_names_who_measured_it() -> None:
    assert all(held.source and 0 < held.low <= held.high for held in HOLDS.values())
    assert HOLDS["cardboard"].source.startswith("no figure found; assumed")


def test_newspaper_takes_a_feeding_up_and_a_bottom_tray_a_whole_turn() -> None:
    """Computed: 0.36 kg of newspaper at twice its weight for 1 kg at 85 %; 0.3 kg holds 0.6 kg of water."""
    assert bedding_for(surplus(1, 0.85, 0.7), HOLDS["newspaper"].low) == pytest.approx(0.36, abs=1e-3)
    lasts = days_dry(0.3, 0.01, (HOLDS["newspaper"].low, HOLDS["newspaper"].high))
    assert lasts == pytest.approx((60, 120))


def test_the_working_value_is_three_times_the_weight() -> None:
    """Solomon 1993: dry bedding and three times its weight of water is 75 % moist."""
    assert pytest.approx(0.75) == SOAKED / (1 + SOAKED)
    assert bedding_for(3) == pytest.approx(1)


@given(st.floats(0.01, 100), st.floats(0, 1), st.floats(0, 0.9), st.floats(0, 0.9), st.floats(0, 1))
def test_wetter_castings_leave_less_and_twice_the_food_twice_as_much(
    kg: float, moisture: float, one: float, other: float, lost: float
) -> None:
    dry, wet = sorted((one, other))
    assert surplus(kg, moisture, wet, lost) <= surplus(kg, moisture, dry, lost) + 1e-9
    assert surplus(2 * kg, moisture, dry, lost) == pytest.approx(2 * surplus(kg, moisture, dry, lost))


@pytest.mark.parametrize("wrong", [-1.0, math.nan, math.inf, 1e9])
def test_odd_water_is_refused(wrong: float) -> None:
    for call in (
        lambda: surplus(1, wrong),
        lambda: surplus(1, 0.8, wrong),
        lambda: surplus(1, 0.8, 0.7, wrong),
        lambda: bedding_for(1, wrong),
        lambda: days_dry(wrong, 1, (2, 4)),
        lambda: days_dry(1, wrong, (2, 4)),
        lambda: days_dry(1, 1, (wrong, 4)),
    ):
        with pytest.raises(OutOfRange):
            call()
