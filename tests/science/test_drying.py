"""Moisture by drying a sample, against a published worked example."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.science.blend import WATER, Blend, Part, Stuff
from trayturn.science.drying import mass_at, moisture_at, moisture_by_drying
from trayturn.science.errors import OutOfRange


def test_the_published_example() -> None:
    """Richard & Trautmann, Moisture Content, Cornell 1996: a 10 g sample in a 4 g container, which with the
    dried sample weighs 6.3 g, is 77 % water."""
    assert moisture_by_drying(4.0, 4.0 + 10.0, 6.3) == pytest.approx(0.77, abs=0.0005)


@given(st.floats(0, 50), st.floats(0.01, 50), st.floats(0, 50))
def test_it_is_the_moisture_of_a_mix_of_the_solids_and_the_water(
    container: float, solids: float, water: float
) -> None:
    found = moisture_by_drying(container, container + solids + water, container + solids)
    mixed = Blend((Part(Stuff("solids", 0.0), solids), Part(WATER, water))).moisture
    assert found == pytest.approx(mixed, abs=1e-6)


@pytest.mark.parametrize(
    ("container", "wet", "dry", "said"),
    [
        (4, 4, 4, "weigh more than empty"),
        (4, 14, 15, "less than the wet one"),
        (4, 14, 3, "not less than nothing"),
        (-1, 14, 6, "The container needs"),
    ],
)
def test_weights_that_cannot_be_are_refused(container: float, wet: float, dry: float, said: str) -> None:
    with pytest.raises(OutOfRange, match=said):
        moisture_by_drying(container, wet, dry)


def test_four_kilograms_at_three_quarters_water_are_two_and_a_half_at_sixty_percent() -> None:
    """By the definition of Richard & Trautmann 1996: one kilogram of solids in both."""
    assert mass_at(4.0, 0.75, 0.60) == pytest.approx(2.5)
    assert moisture_at(4.0, 0.75, 2.5) == pytest.approx(0.60)


@given(st.floats(0.1, 100), st.floats(0, 0.99), st.floats(0, 0.99))
def test_weight_and_moisture_lead_back_to_each_other(kg: float, moisture: float, then: float) -> None:
    assert moisture_at(kg, moisture, mass_at(kg, moisture, then)) == pytest.approx(then, abs=1e-6)


def test_less_than_its_solids_nothing_can_weigh() -> None:
    with pytest.raises(OutOfRange):
        moisture_at(4.0, 0.75, 0.9)
