"""What a tray holds by now: from its meals, its weight and its readings."""

from __future__ import annotations

from typing import Any

import pytest

from tests.builders import a_profile, entry, fed, moment, started
from trayturn.advice.bands import Band, day_band, exactly, mass_band, percent_band
from trayturn.advice.contents import ASSUMED, Contents, tray_contents
from trayturn.advice.pantry import pantry_of
from trayturn.domain.replay import replay
from trayturn.domain.setup import Units


def contents(*entries: Any, day: float = 10, **setup: Any) -> Contents:
    """What tray A holds ten days in."""
    profile = a_profile(started("A", 0, stage="feeding"), *entries, **setup)
    stack = replay(profile, moment(day))
    return tray_contents(stack.trays[0], stack, pantry_of(profile))


def test_fresh_bedding_is_dry_solids_and_no_scraps() -> None:
    found = contents(day=0)
    assert found.uneaten_kg == exactly(0)
    assert found.stuff.c == pytest.approx(0.563)
    assert (found.moisture, found.basis) == (ASSUMED, "assumed: nobody has read its moisture")


def test_scraps_grow_less_with_time_and_warmth() -> None:
    meal = fed("A", 0, {"cabbage": 1.0})
    early, late = contents(meal, day=2), contents(meal, day=20)
    assert 0 < late.uneaten_kg.mid < early.uneaten_kg.mid < 1
    cold = contents(meal, entry("checked", 0, temperature_c=8), day=20)
    assert (cold.celsius, cold.celsius_read) == (8, True)
    assert cold.uneaten_kg.mid > late.uneaten_kg.mid
    assert late.celsius_read is False


def test_the_last_reading_counts_and_later_meals_can_only_raise_it() -> None:
    read = entry("checked", 5, tray="A", moisture_pct=70)
    at_rest = contents(fed("A", 1), read)
    assert at_rest.moisture == pytest.approx((0.65, 0.70, 0.75))
    after = contents(fed("A", 1), read, fed("A", 6, {"watermelon": 2.0}))
    assert after.moisture.low == pytest.approx(0.65)
    assert 0.70 < after.moisture.mid < after.moisture.high <= 0.95
    assert after.basis == "its reading of 2026-03-06, and meals since"


def test_a_weight_counts_until_the_next_meal() -> None:
    weighed = entry("checked", 5, tray="A", gross_kg=5.9)
    assert contents(fed("A", 1), weighed, tray_empty_kg=0.9).wet_kg == pytest.approx((5, 5, 5))
    assert contents(fed("A", 1), weighed, fed("A", 6), tray_empty_kg=0.9).wet_kg.mid < 4


def test_unknown_scraps_are_reckoned_as_mixed_ones_and_named() -> None:
    assert contents(fed("A", 1, {"zzyzx": 1.0})).stand_ins == ("zzyzx",)
    assert contents(fed("A", 1, {"cabbage": 1.0})).stand_ins == ()


def test_bedding_given_with_meals_is_counted_once() -> None:
    both = contents(fed("A", 0, {"cabbage": 0.1}, bedding_kg={"shredded cardboard": 0.5}), day=0.1)
    alone = contents(fed("A", 0, {"cabbage": 0.1}), day=0.1)
    extra = both.wet_kg.mid - alone.wet_kg.mid
    assert extra * (1 - ASSUMED.mid) == pytest.approx(0.5 * 0.92, rel=0.02)


def test_an_empty_tray_holds_nothing() -> None:
    profile = a_profile(started("A", 0, bedding_kg={}))
    stack = replay(profile, moment(3))
    found = tray_contents(stack.trays[0], stack, pantry_of(profile))
    assert (found.wet_kg, found.blend.parts) == (exactly(0), ())


def test_bands_are_said_as_a_person_would() -> None:
    assert mass_band(Band(0.8, 1, 1.2), Units.METRIC) == "800 g to 1.2 kg"
    assert mass_band(exactly(1), Units.US) == "about 2.2 lb"
    assert percent_band(Band(0.65, 0.75, 0.85)) == "65 to 85 %"
    assert day_band(Band(12.2, 13, 15.4)) == "12 to 15 days"
    assert Band(1, 2, 3).times(-1) == (-3, -2, -1)
    assert Band(1, 2, 3).plus(exactly(1)) == (2, 3, 4)


def test_a_thing_of_which_nobody_says_how_fast_it_goes_keeps_its_own_figures() -> None:
    """Dill pickles are 2.06 % salt by USDA SR28 11937 (its sodium counted as salt)."""
    found = contents(fed("A", 1, {"pickles": 2.0}), started("A", 0, bedding_kg={}, stage="feeding"))
    assert found.stand_ins == ()
    assert (found.stuff.salt or 0) * found.wet_kg.mid == pytest.approx(2.0 * 0.0206, rel=0.01)
