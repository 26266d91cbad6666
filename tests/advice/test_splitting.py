"""How much to move to another bin, how both stand after it, and how they are fed."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import entry, stack_of, started
from trayturn.advice.splitting import half_of, split_advice, weight_of, why_no_weight, worms_remark
from trayturn.domain.setup import SPECIES
from trayturn.domain.stack import Stack
from trayturn.science.errors import OutOfRange
from trayturn.science.ration import STOCKING_KG_M2, ration


def a_stack(worms_kg: float | None = 0.8, **setup: Any) -> Stack:
    worms = () if worms_kg is None else (entry("worms_added", 1, worms_kg=worms_kg),)
    return stack_of(started("A"), *worms, as_of=50, **setup)


SHED = a_stack(0.1, name="Shed", tray_area_m2=0.2, days_between_feedings=7)


def told(*args: Any) -> str:
    return "\n".join(split_advice(*args).lines)


def test_half_by_weight_is_offered_where_a_weight_is_known() -> None:
    assert half_of(a_stack(0.84)) == pytest.approx(0.42)
    assert half_of(a_stack(None)) is None
    assert (
        half_of(stack_of(entry("worms_added", 1, worms_kg=0.5), entry("worms_removed", 2, worms_kg=1)))
        is None
    )


def test_both_bins_are_told_against_the_published_density() -> None:
    """Ndegwa, Thompson & Das 2000: 1.60 kg/m2 was the best of those tried."""
    found = split_advice(a_stack(), SHED, "Shed", 0.3)
    assert found.one is not None
    assert (found.one.worms_kg, found.other.worms_kg) == pytest.approx((0.5, 0.4))
    assert (found.one.density, found.other.density) == pytest.approx((0.5 / 0.16, 2.0))
    assert found.other.times == pytest.approx(2.0 / STOCKING_KG_M2)
    assert found.lines[:2] == (
        "Pantry then has 500 g: 3.12 kg a square metre of one tray, 2.0 times the published best.",
        "Shed then has 400 g: 2 kg a square metre of one tray, 1.2 times the published best.",
    )


def test_both_are_fed_by_the_worms_that_are_left() -> None:
    found = split_advice(a_stack(), SHED, "Shed", 0.3)
    low, high = ration(0.4, 20).norm
    assert (found.other.meal_kg.low, found.other.meal_kg.high) == pytest.approx((7 * low, 7 * high))
    words = "Feed both by their worms, less than before: Pantry 1.2 kg to 3 kg every 12 days; Shed 560 g to "
    assert words in told(a_stack(), SHED, "Shed", 0.3)


def test_a_bin_without_worms_written_down_says_what_is_not_known() -> None:
    found = split_advice(a_stack(None), None, "Attic", 0.3)
    assert found.one is None
    assert found.lines[0] == "How many worms are left in it is not known: none are written down."
    assert (found.other.worms_kg, found.other.name) == (0.3, "Attic")


def test_all_of_them_leave_none() -> None:
    assert "Pantry then has none written down." in told(a_stack(0.2), SHED, "Shed", 0.3)


def test_in_the_cold_nothing_is_fed() -> None:
    frost = stack_of(started("A"), entry("checked", 2, temperature_c=1), as_of=3, name="Shed")
    assert "Shed nothing for now" in told(a_stack(), frost, "Shed", 0.1)


def test_a_weight_is_told_as_a_number_and_a_number_as_a_weight() -> None:
    assert "300 g is 550 to 1,200 worms, at 0.25 to 0.55 g each (" in told(a_stack(), SHED, "Shed", 0.3)
    band = weight_of(400, "eisenia_fetida")
    assert band == pytest.approx((0.1, 0.16, 0.22))
    assert "400 worms are 100 g to 220 g, at 0.25" in told(a_stack(), SHED, "Shed", 0.16, 400)
    assert "160 g is written down, the middle." in told(a_stack(), SHED, "Shed", 0.16, 400)


def test_where_no_mean_mass_is_known_there_is_no_number_and_no_weight() -> None:
    assert weight_of(400, "mixed") is None
    assert why_no_weight("mixed") == "No figure was found for mixed worms. Weigh them."
    assert "worms, at" not in told(a_stack(species="mixed"), None, "Shed", 0.3)
    assert "would be mixed" in told(a_stack(species="mixed"), SHED, "Shed", 0.3)


def test_what_is_practice_and_what_is_published_is_said_in_the_keepers_units() -> None:
    words = told(a_stack(), SHED, "Shed", 0.3)
    assert words.count("ommon practice, no source") == 2
    assert "1.6 kg a square metre (Ndegwa, Thompson & Das 2000, with biosolids)" in words
    us = told(a_stack(units="us"), None, "Shed", 0.3)
    assert "5.24 oz a square foot" in us
    assert " kg" not in us


@given(
    st.sampled_from(sorted(SPECIES)),
    st.none() | st.floats(0.01, 50),
    st.floats(0.001, 50),
    st.none() | st.integers(1, 100_000),
)
def test_any_split_is_told_in_whole_sentences(
    species: str, before: float | None, moved: float, counted: int | None
) -> None:
    found = split_advice(a_stack(before, species=species), SHED, "Shed", moved, counted)
    assert all(line.endswith(".") for line in found.lines)
    assert (found.one is None) == (before is None)


def test_more_than_any_bin_holds_is_refused() -> None:
    with pytest.raises(OutOfRange):
        split_advice(a_stack(), SHED, "Shed", 5000)


def test_more_worms_than_a_bin_is_known_to_hold_are_remarked_on() -> None:
    one = a_stack(0.8)
    assert worms_remark(one, 0.8) == worms_remark(one, 0.3) == ""
    assert "more than the 800 g this bin is known to hold" in worms_remark(one, 0.9)
    assert worms_remark(one, 0.9, into=True) == ""
    assert worms_remark(a_stack(None), 0.9) == ""


def test_more_worms_than_any_such_bin_holds_are_remarked_on_whichever_way_they_go() -> None:
    """One tray of 0.1 m2 holds 0.16 kg at the published 1.6 kg/m2; 16 kg are a hundred times that."""
    one = a_stack(None, tray_area_m2=0.1)
    trays = max(1, len(one.listed_trays))
    for into in (True, False):
        assert "100 times what all trays" in worms_remark(one, 16.0 * trays, into=into)
        assert worms_remark(one, 0.4 * trays, into=into) == ""
