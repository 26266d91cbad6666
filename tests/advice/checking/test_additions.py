"""Water and dry bedding: what is told to be added brings the tray to its goal by plain mass balance."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.checking.scenes import checked, scene
from tests.builders import entry, fed
from trayturn.advice.bands import Band, rough_mass, rough_volume
from trayturn.advice.checking.additions import (
    Addition,
    bedding_for,
    bedding_for_c_to_n,
    dry_bedding,
    mass_to,
    stock_words,
    water_for,
)
from trayturn.advice.checking.kinds import Kind
from trayturn.advice.checking.scene import Scene
from trayturn.advice.contents import SHREDS
from trayturn.domain.setup import Units
from trayturn.domain.units import POUND_KG, QUART_L, two_figures
from trayturn.science.blend import WATER, Blend, Part, Stuff

SHARES = st.floats(0.05, 0.95)
MASSES = st.floats(0.1, 30)


def test_leaves_for_grass_as_published() -> None:
    """Richard & Trautmann, Moisture Content, Cornell 1996: 6.8 kg of leaves at 35 % bring 10 kg of grass at
    77 % to 60 %."""
    assert mass_to(10, 0.77, 0.60, Stuff("leaves", 0.35)) == pytest.approx(6.8, abs=0.05)


def test_three_times_its_weight_of_water_makes_75_percent() -> None:
    """Solomon, Organic Gardener's Composting, 1993, ch. 8: three times its weight of water on dry bedding."""
    assert mass_to(1, 0.0, 0.75, WATER) == pytest.approx(3.0)


@given(MASSES, SHARES, SHARES, st.sampled_from([WATER, SHREDS]))
def test_what_is_added_reaches_the_goal(kg: float, moisture: float, goal: float, addend: Stuff) -> None:
    added = mass_to(kg, moisture, goal, addend)
    after = Blend((Part(Stuff("tray", moisture), kg), Part(addend, added)))
    if added > 0:
        assert after.moisture == pytest.approx(goal, abs=1e-6)
    else:
        wetter_already = moisture >= goal - 1e-9
        reachable = (addend.moisture or 0) > goal
        assert wetter_already if addend is WATER else (moisture <= goal + 1e-9 or not goal > 0.08)
        assert addend is SHREDS or reachable


@given(MASSES, SHARES, SHARES, SHARES)
def test_a_drier_tray_is_given_more_water(kg: float, goal: float, one: float, other: float) -> None:
    dry, damp = sorted((one, other))
    assert mass_to(kg, dry, goal, WATER) >= mass_to(kg, damp, goal, WATER) - 1e-9


def found(read: float, *entries: Any, **setup: Any) -> Scene:
    return scene(fed("A", 1, {"cabbage": 2.0}), *entries, now={Kind.MOISTURE: read}, **setup)


def water(read: float, **setup: Any) -> Addition:
    at = found(read, **setup)
    assert at.contents is not None
    added = water_for(at.contents, 75, at.stack.setup)
    assert added is not None
    return added


@pytest.mark.parametrize("read", [30.0, 52.0, 64.0])
def test_each_end_of_the_band_is_a_tray_as_it_may_be(read: float) -> None:
    at = found(read)
    assert at.contents is not None
    added = water_for(at.contents, 75, at.stack.setup)
    assert added is not None
    assert added.kg.low <= added.kg.mid <= added.kg.high
    driest = Blend(
        (Part(Stuff("tray", at.contents.moisture.low), at.contents.wet_kg.low), Part(WATER, added.kg.high))
    )
    assert driest.moisture == pytest.approx(0.75)


def test_a_weighed_tray_is_reckoned_by_its_weight() -> None:
    at = scene(checked(29, gross_kg=0.9 + 4.0), now={Kind.MOISTURE: 50.0})
    assert at.contents is not None
    added = water_for(at.contents, 75, at.stack.setup)
    assert added is not None
    assert added.kg.mid == pytest.approx(4.0 * (0.75 - 0.5) / (1 - 0.75))


def test_at_its_goal_nothing_is_added() -> None:
    at = found(75.0)
    assert at.contents is not None
    assert water_for(at.contents, 75, at.stack.setup) is None
    assert bedding_for(at.contents, 80, at.stack.setup, SHREDS) is None


def test_no_more_is_reckoned_than_a_tray_can_hold() -> None:
    at = scene(fed("A", 29, {"cabbage": 60.0}), now={Kind.MOISTURE: 95.0})
    assert at.contents is not None
    added = bedding_for(at.contents, 80, at.stack.setup, SHREDS)
    assert added is not None
    rim_kg = 1000 * 0.16 * 0.15
    assert added.kg.high <= rim_kg * (0.95 - 0.80) / (0.80 - 0.08) + 1e-9


def test_a_soaked_tray_is_reckoned_as_drained() -> None:
    """Coir, which holds most of all beddings, holds 11 kg/kg, 92 % (Evans, Konduru & Stamps 1996)."""
    at = found(90.0)
    assert at.contents is not None
    added = bedding_for(at.contents, 80, at.stack.setup, SHREDS)
    assert added is not None
    solids = at.contents.wet_kg.mid * (1 - at.contents.moisture.mid)
    assert added.kg.high == pytest.approx(mass_to(solids / (1 - 0.92), 0.92, 0.80, SHREDS))
    assert added.kg.mid == pytest.approx(mass_to(solids / (1 - 0.90), 0.90, 0.80, SHREDS))


def test_it_is_told_in_parts_and_to_two_figures() -> None:
    added = Addition(WATER, Band(0.4567, 0.5, 0.7123), "75 %", 0.25)
    assert added.words(Units.METRIC) == "460 ml to 710 ml of water"
    assert added.at_once(Units.METRIC) == "at most 250 ml at once, so in 2 to 3 parts"
    little = Addition(SHREDS, Band(0.1, 0.1, 0.1), "80 %", 0.16)
    assert little.words(Units.METRIC) == "about 100 g of dry bedding"
    assert little.at_once(Units.METRIC) == "all at once"
    much = Addition(WATER, Band(2, 3, 4), "75 %", 0.48)
    assert much.at_once(Units.US) == "at most 0.51 qt at once, over some days"


def test_estimates_are_said_to_two_figures_of_the_keepers_unit() -> None:
    assert [two_figures(value) for value in (0, 0.0456, 45.67, 4567)] == [0, 0.046, 46, 4600]
    assert rough_mass(1.234, Units.METRIC) == "1.2 kg"
    assert rough_mass(1.234 * POUND_KG, Units.US) == "1.2 lb"
    assert rough_volume(1.234 * QUART_L, Units.US) == "1.2 qt"


def test_the_bedding_is_what_is_most_in_stock_and_its_handfuls_are_told() -> None:
    stock = entry("supplies_added", 2, supplies_kg={"straw": 0.3, "shredded newspaper": 1.2, "grit": 5.0})
    handful = entry("measure_set", 3, measure="handful", kg=0.02, of="shredded newspaper")
    at = scene(stock, handful)
    assert at.tray is not None
    stuff = dry_bedding(at.stack, at.tray, at.pantry)
    assert stuff.name == "shredded newspaper"
    assert stock_words(at.stack, stuff, at.pantry) == "In stock: 1.2 kg of it, about 60 handfuls of yours."


def test_without_stock_it_is_what_the_tray_began_with() -> None:
    at = scene()
    assert at.tray is not None
    stuff = dry_bedding(at.stack, at.tray, at.pantry)
    assert stuff.name == "shredded cardboard"
    assert stock_words(at.stack, stuff, at.pantry) == ""
    bare = scene(entry("supplies_added", 2, supplies_kg={"zzyzx": 1.0}))
    assert bare.tray is not None
    assert dry_bedding(bare.stack, bare.tray, bare.pantry).name == "shredded cardboard"


def test_bedding_brings_the_c_to_n_to_what_was_best() -> None:
    at = scene(fed("A", 29, {"cabbage": 12.0}))
    assert at.contents is not None
    assert at.tray is not None
    stuff = dry_bedding(at.stack, at.tray, at.pantry)
    ratio = at.contents.blend.c_to_n
    assert ratio is not None
    added = bedding_for_c_to_n(at.contents, ratio + 5, at.stack.setup, stuff)
    assert added is not None
    after = at.contents.blend.plus(Part(stuff, added.kg.mid))
    assert after.c_to_n == pytest.approx(ratio + 5)
    assert bedding_for_c_to_n(at.contents, ratio - 5, at.stack.setup, stuff) is None
