"""The published ranges, against the tables they are from."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import a_bin
from trayturn.advice.checking.kinds import Kind
from trayturn.advice.checking.ranges import GOAL_PCT, Range, Standing, range_of, stands
from trayturn.domain.setup import SPECIES, Units


def known(kind: Kind, **setup: object) -> Range:
    found = range_of(kind, a_bin(**setup))
    assert found is not None
    return found


def test_the_limits_of_table_18_3() -> None:
    """Earthworm Ecology, 2nd ed. 2004, table 18.3 (after Edwards 1988), Eisenia fetida: temperature best 15
    to 20 and limits 4 to 30 C, moisture limits 60 to 90 %, pH above 5 and below 9."""
    warmth, wetness, acid = known(Kind.TEMPERATURE), known(Kind.MOISTURE), known(Kind.PH)
    assert (warmth.best, warmth.limits) == ((15, 20), (4, 30))
    assert wetness.limits == (60, 90)
    assert [stands(ph, acid) for ph in (5, 5.1, 8.9, 9)] == [-2, -1, 1, 2]
    assert [stands(pct, wetness) for pct in (59.9, 60, 90, 90.1)] == [-2, -1, 1, 2]


def test_the_best_moisture_and_the_household_goal() -> None:
    """Kaplan et al. 1980: best weight gain at 70 to 85 %. Solomon 1993: about 75 % in a household box."""
    assert known(Kind.MOISTURE).best == (70, 85)
    assert GOAL_PCT == 75


def test_species_have_their_own_warmth_only_where_a_figure_was_read() -> None:
    """Domínguez 2004: Dendrobaena veneta 15 to 25 C. An agriculture portal: the tropical two 9 to 30 C."""
    assert known(Kind.TEMPERATURE, species="dendrobaena_veneta").best == (15, 25)
    for tropical in ("eudrilus_eugeniae", "perionyx_excavatus"):
        assert known(Kind.TEMPERATURE, species=tropical).limits == (9, 30)
    assert known(Kind.TEMPERATURE, species="mixed") == known(Kind.TEMPERATURE)


@pytest.mark.parametrize("species", sorted(set(SPECIES) - {"eisenia_fetida", "eisenia_andrei", "mixed"}))
def test_other_species_are_told_that_the_figures_are_of_another(species: str) -> None:
    assert "no figure of" in known(Kind.MOISTURE, species=species).lines[-1]
    assert known(Kind.MOISTURE, species=species).limits == (60, 90)


def test_figures_are_in_the_units_of_the_keeper() -> None:
    assert "59 to 68 °F, limits 39 to 86 °F" in known(Kind.TEMPERATURE, units=Units.US).lines[0]
    assert "15 to 20 °C, limits 4 to 30 °C" in known(Kind.TEMPERATURE).lines[0]


def test_a_sump_is_held_against_its_own_capacity() -> None:
    sump = known(Kind.SUMP, sump_capacity_l=4.0)
    assert [stands(litres, sump) for litres in (0, 0.4, 0.5, 2.0, 2.1)] == [0, 0, 1, 1, 2]
    assert range_of(Kind.SMELL, a_bin()) is None


@pytest.mark.parametrize("kind", [Kind.MOISTURE, Kind.TEMPERATURE, Kind.PH, Kind.SUMP])
@given(st.floats(-40, 100), st.floats(0, 60))
def test_more_never_stands_lower(kind: Kind, number: float, more: float) -> None:
    for species in SPECIES:
        found = known(kind, species=species)
        assert stands(number, found) <= stands(number + more, found)


@pytest.mark.parametrize("species", SPECIES)
@pytest.mark.parametrize("kind", [Kind.MOISTURE, Kind.TEMPERATURE, Kind.PH])
def test_what_is_best_is_fine_and_each_range_names_its_source(kind: Kind, species: str) -> None:
    found = known(kind, species=species)
    assert {stands(number, found) for number in found.best} == {Standing.FINE}
    least, most = found.limits
    assert found.shown[0] <= least < most <= found.shown[1]
    assert all(line.endswith(".") for line in found.lines)
