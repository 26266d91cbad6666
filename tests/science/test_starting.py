"""What a new bin begins with, against the published figures and the mass balance."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.domain.units import POUND_KG, SQUARE_FOOT_M2
from trayturn.science.blend import WATER, Blend, Part, Stuff
from trayturn.science.errors import OutOfRange
from trayturn.science.goals import moisture_goal, solve
from trayturn.science.ration import stocking
from trayturn.science.starting import (
    DRY_KG_M3,
    bedding_to_start,
    filled_m,
    water_to_soak,
    worms_to_start,
)
from trayturn.science.water import HOLDS

AREAS = st.floats(0.01, 4)
DEPTHS = st.floats(0.03, 1)
DRY = Stuff("dry bedding", 0.0)


def test_a_cubic_foot_of_box_takes_a_pound_to_a_pound_and_a_half() -> None:
    """Solomon 1993: 1 to 1.5 lb of dry bedding per cubic foot; the handbook figure in kg is rounded."""
    cubic_foot = SQUARE_FOOT_M2 * 0.3048
    assert [POUND_KG * lb / cubic_foot for lb in (1.0, 1.5)] == pytest.approx(DRY_KG_M3, rel=0.002)


def test_a_usual_tray() -> None:
    """0.16 m2 by 15 cm is 24 litres: 0.384 to 0.576 kg of bedding."""
    assert bedding_to_start(0.16, 0.15) == pytest.approx((0.384, 0.576))
    assert worms_to_start(0.16) == pytest.approx((0.256, 0.8))


def test_the_worms_are_the_published_density() -> None:
    """Ndegwa, Thompson & Das 2000: 1.60 kg/m2. Sherman: 0.5 kg on 0.09 m2, told as about 5 kg/m2."""
    best, most = worms_to_start(0.16)
    assert stocking(best, 0.16)[0] == pytest.approx(1.60)
    assert most / 0.16 == pytest.approx(0.5 / 0.09, rel=0.11)


def test_a_deep_tray_is_not_filled_to_its_rim() -> None:
    assert filled_m(0.15) == 0.15
    assert filled_m(0.6) == 0.20
    assert bedding_to_start(0.16, 0.6) == bedding_to_start(0.16, 0.20)


@given(st.floats(0.001, 100))
def test_the_water_is_what_the_mass_balance_asks_for(kg: float) -> None:
    """Solomon 1993: three times its weight gives about 75 %; so does the balance (Richard & Trautmann)."""
    water = water_to_soak(kg)
    assert Blend((Part(DRY, kg), Part(WATER, water))).moisture == pytest.approx(0.75)
    (asked,) = solve(Blend((Part(DRY, kg),)), [moisture_goal(0.75)], [WATER])
    assert asked.kg == pytest.approx(water)


def test_what_is_poured_on_is_within_what_shreds_hold() -> None:
    held = HOLDS["cardboard"]
    assert held.low < water_to_soak(1.0) < held.high


@given(AREAS, DEPTHS, st.floats(1, 3))
def test_a_larger_tray_never_takes_less(area: float, depth: float, times: float) -> None:
    assert bedding_to_start(area, depth) <= bedding_to_start(area * times, depth)
    assert bedding_to_start(area, depth) <= bedding_to_start(area, min(depth * times, 1))
    assert worms_to_start(area) <= worms_to_start(area * times)


@pytest.mark.parametrize("wrong", [0.0, -1.0, math.nan, math.inf])
def test_no_tray_is_refused(wrong: float) -> None:
    for attempt in (
        lambda: bedding_to_start(wrong, 0.15),
        lambda: worms_to_start(wrong),
        lambda: filled_m(wrong),
    ):
        with pytest.raises(OutOfRange):
            attempt()
