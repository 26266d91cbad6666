"""Numbers and weights of worms by species, against the published means."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.domain.setup import SPECIES
from trayturn.domain.units import POUND_KG
from trayturn.science.bodies import KNOWN, SAME, UNSURE, body_of, mass_of, number_in
from trayturn.science.errors import OutOfRange

NAMED = sorted((*KNOWN, *SAME))


def test_every_species_of_a_bin_has_a_band_or_a_reason_for_none() -> None:
    assert {*KNOWN, *SAME, *UNSURE} == set(SPECIES)


@pytest.mark.parametrize(("grams", "worms"), [(0.25, 1814), (0.55, 825)])
def test_worms_in_a_pound(grams: float, worms: float) -> None:
    """453.592 g over the mean mass; extension sheets teach 800 to 1000 in a pound (Louisiana)."""
    band = number_in(POUND_KG, "eisenia_fetida")
    assert band is not None
    assert worms == pytest.approx(band[1] if grams == 0.25 else band[0], abs=0.6)
    assert band[0] < 1000 < band[1]


def test_the_means_of_two_populations_on_kitchen_waste_lie_in_their_bands() -> None:
    """Podolak et al. 2020, J. Ecol. Eng. 21(1):40-45: 0.480 g and 0.912 g."""
    for species, grams in (("eisenia_fetida", 0.480), ("dendrobaena_veneta", 0.912)):
        low, high = KNOWN[species].grams
        assert low <= grams <= high


@given(st.sampled_from(NAMED), st.floats(0, 100))
def test_weighing_the_number_gives_the_weight_back(species: str, kg: float) -> None:
    band = number_in(kg, species)
    assert band is not None
    few, many = band
    assert few <= many
    light, heavy = mass_of(few, species), mass_of(many, species)
    assert light is not None
    assert heavy is not None
    assert light[1] == pytest.approx(kg)
    assert heavy[0] == pytest.approx(kg)


@pytest.mark.parametrize("species", UNSURE)
def test_what_is_not_known_stays_unknown(species: str) -> None:
    assert (body_of(species), number_in(1, species), mass_of(100, species)) == (None, None, None)
    assert UNSURE[species].endswith(".")


@pytest.mark.parametrize("wrong", [-1.0, math.nan, math.inf, 1e12])
def test_an_impossible_amount_is_refused(wrong: float) -> None:
    with pytest.raises(OutOfRange):
        number_in(wrong, "mixed")
    with pytest.raises(OutOfRange):
        mass_of(wrong, "mixed")


def test_a_species_that_is_none_is_refused_with_the_known_ones() -> None:
    with pytest.raises(OutOfRange, match="dendrobaena_veneta"):
        body_of("dragon")
