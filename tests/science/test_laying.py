"""Cocoons laid and not yet hatched, against published counts and the arithmetic of a cohort."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.science.errors import OutOfRange
from trayturn.science.laying import KNOWN, laying_of, unhatched
from trayturn.science.temperature import johnston

COCOONS = (30, 31, 39, 36, 41, 36, 48, 40, 44, 42, 38, 36, 42, 41, 34, 40, 36, 40)
"""Reinecke & Viljoen 1990, Biol. Fertil. Soils 10:184-187: ten worms, ten days each, 25 C, fed afresh."""
GRAMS = (0.31, 0.34, 0.35, 0.43, 0.5, 0.54, 0.61, 0.69, 0.69, 0.67, 0.69, 0.64, 0.68, 0.66, 0.66, 0.68)
"""The same worms' mean mass every ten days."""


def test_with_room_and_food_worms_lay_as_published() -> None:
    per_worm = sum(COCOONS) / len(COCOONS) / 100
    assert per_worm == pytest.approx(0.386, rel=0.005)
    per_kg_at_20 = per_worm / (sum(GRAMS) / len(GRAMS) / 1000) * johnston(20) / johnston(25)
    laying = laying_of("eisenia_fetida")
    assert laying is not None
    assert laying.high == pytest.approx(per_kg_at_20, rel=0.03)


def test_a_crowded_bin_lays_a_tenth_of_a_cocoon_a_worm_and_day() -> None:
    """0.1 a day by worms of 0.5 g: the life table of a crowded home bin, whose inputs are our choice."""
    laying = laying_of("eisenia_andrei")
    assert laying is not None
    assert laying.low == pytest.approx(0.1 / 0.0005, rel=0.01)


def test_dendrobaena_lays_less_by_its_mass() -> None:
    laying, fetida = laying_of("dendrobaena_veneta"), laying_of("eisenia_fetida")
    assert laying is not None
    assert fetida is not None
    # Viljoen, Reinecke & Hartman 1991: 0.28 a day at 25 C; Viljoen 1992: 2.2 g at 200 days.
    assert laying.low < 0.28 / 0.0022 * johnston(20) / johnston(25) < laying.high
    assert laying.high < fetida.high


@pytest.mark.parametrize("species", ["eudrilus_eugeniae", "perionyx_excavatus"])
def test_where_no_mass_fits_nothing_is_reckoned(species: str) -> None:
    assert laying_of(species) is None
    assert unhatched(25, 60, species) is None


@pytest.mark.parametrize(("days", "share"), [(12, 0.5), (24, 1.0), (60, 1.0)])
def test_what_was_laid_longer_ago_than_a_cocoon_takes_has_hatched(days: float, share: float) -> None:
    """At 20 C both corrections are 1 and a cocoon takes 24 days in the middle of 23 to 25."""
    found, laying = unhatched(20, days), laying_of("eisenia_fetida")
    assert found is not None
    assert laying is not None
    assert found[1] == pytest.approx(laying.middle * 24 * share)


def test_a_cooler_bin_lays_as_much_slower_as_its_cocoons_hatch() -> None:
    assert unhatched(12, 365) == pytest.approx(unhatched(20, 365))


@pytest.mark.parametrize("celsius", [-5.0, 1.0, 36.0])
def test_where_none_hatch_nothing_is_reckoned(celsius: float) -> None:
    assert unhatched(celsius, 60) is None


@given(st.floats(4, 30), st.floats(0, 400), st.sampled_from(sorted(KNOWN)))
def test_the_band_is_in_order_and_grows_with_time(celsius: float, days: float, species: str) -> None:
    found, later = unhatched(celsius, days, species), unhatched(celsius, days + 10, species)
    assert found is not None
    assert later is not None
    assert 0 <= found[0] <= found[1] <= found[2]
    assert all(after >= before - 1e-9 for before, after in zip(found, later, strict=True))


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(OutOfRange):
        unhatched(20, -1)
    with pytest.raises(OutOfRange):
        unhatched(200, 60)
    with pytest.raises(OutOfRange):
        laying_of("lumbricus")
