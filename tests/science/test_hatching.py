"""Hatching: each published incubation lies in the band of its temperature."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.science.hatching import KNOWN, SAME, Hatch, hatch

SPECIES = st.sampled_from(sorted(KNOWN))
PUBLISHED = (
    ("eisenia_fetida", 20, 25.0),  # DEB data file of Eisenia fetida
    ("eisenia_fetida", 25, 21.0),  # Neuhauser, Hartenstein & Kaplan 1980, Oikos 35:93-98: about three weeks
    ("eisenia_fetida", 15, 29.7),  # computed: 25 days at 20 C by Johnston et al. 2014
    ("eisenia_fetida", 15, 40.0),  # computed: the same by the energy-budget set
    ("dendrobaena_veneta", 25, 42.0),  # Viljoen, Reinecke & Hartman 1991, S. Afr. J. Zool. 26:41-45
    ("dendrobaena_veneta", 15, 71.0),  # Viljoen 1992
    ("dendrobaena_veneta", 20, 21.0),  # Kovacevic 2023
    ("eudrilus_eugeniae", 25, 13.0),  # a table after Edwards & Bohlen 1996, 13 to 27 days
    ("eudrilus_eugeniae", 25, 27.0),
    ("perionyx_excavatus", 25, 18.7),  # Hallatt, Reinecke & Viljoen 1990, S. Afr. J. Zool. 25:41-45
    ("perionyx_excavatus", 25, 20.4),
)


def hatched(species: str, celsius: float) -> Hatch:
    found = hatch(celsius, species)
    assert found is not None
    return found


@pytest.mark.parametrize(("species", "celsius", "days"), PUBLISHED)
def test_a_published_incubation_is_in_the_band(species: str, celsius: float, days: float) -> None:
    low, high = hatched(species, celsius).half
    assert low - 1e-9 <= days <= high + 1e-9


def test_most_have_hatched_a_month_after_laying() -> None:
    """Computed: 24 +- 4.69 days (Eurasian J. Soil Sci. 2025) taken as normal is 31.7 days for 95 %."""
    low, high = hatched("eisenia_fetida", 20).most
    assert low < 31.7 < high


@pytest.mark.parametrize(
    ("species", "share", "each"),
    [
        ("eisenia_fetida", 0.866, 3.3),  # Ali & Kashem 2018
        ("eisenia_fetida", 0.825, 2.4),  # Eurasian J. Soil Sci. 2025, winter
        ("dendrobaena_veneta", 0.20, 1.1),  # Dominguez 2004, Viljoen 1991
        ("perionyx_excavatus", 0.634, 1.0),  # Hallatt 1990, worms in batches
        ("perionyx_excavatus", 0.404, 1.0),  # the same, single worms
    ],
)
def test_what_share_hatches_and_into_how_many(species: str, share: float, each: float) -> None:
    found = hatched(species, 20)
    assert found.share is not None
    assert found.each is not None
    assert found.share[0] <= share <= found.share[1]
    assert found.each[0] <= each <= found.each[1]


def test_what_was_not_read_is_not_told() -> None:
    found = hatched("eudrilus_eugeniae", 25)
    assert (found.share, found.each) == (None, None)
    assert "is assumed" in found.why


@given(SPECIES, st.floats(9, 30), st.floats(9, 30))
def test_warmer_hatches_sooner(species: str, one: float, other: float) -> None:
    cold, warm = (hatched(species, celsius) for celsius in sorted((one, other)))
    assert warm.half[0] <= cold.half[0] * (1 + 1e-9)
    assert warm.half[1] <= cold.half[1] * (1 + 1e-9)


@given(SPECIES, st.one_of(st.floats(-40, 2.9), st.floats(35, 80)))
def test_nothing_hatches_outside_the_limits(species: str, celsius: float) -> None:
    assert hatch(celsius, species) is None


@pytest.mark.parametrize("species", SAME)
def test_a_species_reckoned_as_another(species: str) -> None:
    assert hatch(20, species) == hatch(20, SAME[species])


@pytest.mark.parametrize("species", KNOWN)
def test_the_words_say_what_the_band_rests_on(species: str) -> None:
    why = hatched(species, 65 / 1.8 - 32 / 1.8).why
    assert KNOWN[species].source in why
    assert "to 18.3 C by two published corrections for Eisenia fetida that disagree" in why
