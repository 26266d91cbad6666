"""Blends and goals: published worked examples, mass balance, and what cannot be reached."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from trayturn.science.blend import WATER, Blend, Part, Stuff, layer_depth_m
from trayturn.science.errors import OutOfRange
from trayturn.science.goals import Unreachable, c_to_n_goal, moisture_goal, solve
from trayturn.science.limits import warnings

GRASS = Stuff("grass", 0.77, 0.024, 0.45)
LEAVES = Stuff("leaves", 0.35, 0.0075, 0.50)
LAWN = Blend((Part(GRASS, 10),))
SHARES = st.floats(0.02, 0.97)
STUFFS = st.builds(
    Stuff, st.just("x"), SHARES, st.floats(0.001, 0.08), st.floats(0.2, 0.6), st.floats(0, 0.05)
)
PARTS = st.builds(Part, STUFFS, st.floats(0.01, 50))
BLENDS = st.lists(PARTS, min_size=1, max_size=8).map(lambda parts: Blend(tuple(parts)))


def test_moisture_by_drying() -> None:
    """Richard & Trautmann, Moisture content, Cornell 1996: 10 g wet, 2.3 g dry is 77 %."""
    assert Blend((Part(Stuff("dry", 0.0), 2.3), Part(WATER, 7.7))).moisture == pytest.approx(0.77)


def test_leaves_that_bring_grass_to_60_percent() -> None:
    """Richard & Trautmann, Cornell 1996: 6.8 kg."""
    [leaves] = solve(LAWN, [moisture_goal(0.60)], [LEAVES])
    assert leaves.kg == pytest.approx(6.8, abs=0.05)


def test_bedding_soaked_with_three_times_its_weight() -> None:
    """Solomon, Organic Gardener's Composting, 1993, ch. 8: about 75 %."""
    assert Blend((Part(Stuff("dry", 0.0), 1), Part(WATER, 3))).moisture == pytest.approx(0.75, abs=0.005)


def test_leaves_that_bring_grass_to_30_to_1() -> None:
    """Cornell Composting, C/N Ratio (from memory): 3.5 kg; with 6.8 kg the ratio is 37."""
    [leaves] = solve(LAWN, [c_to_n_goal(30)], [LEAVES])
    assert leaves.kg == pytest.approx(3.5, abs=0.05)
    assert LAWN.plus(Part(LEAVES, 6.8)).c_to_n == pytest.approx(37, abs=0.5)


def test_two_goals_fix_two_masses() -> None:
    """Richard & Trautmann: water leaves the ratio alone, so that leaves set it and water the moisture."""
    added = solve(LAWN, [moisture_goal(0.75), c_to_n_goal(30)], [LEAVES, WATER])
    after = LAWN.plus(*added)
    assert [part.stuff.name for part in added] == ["leaves", "water"]
    assert added[0].kg == pytest.approx(3.474, abs=0.001)
    assert (after.moisture, after.c_to_n) == pytest.approx((0.75, 30))


@given(BLENDS)
def test_mass_is_kept_and_a_blend_lies_between_its_parts(blend: Blend) -> None:
    parts = blend.parts
    assert blend.wet_kg == pytest.approx(sum(part.kg for part in parts))
    assert blend.dry_kg == pytest.approx(blend.wet_kg * (1 - blend.moisture))
    moistures = [part.stuff.moisture or 0 for part in parts]
    assert min(moistures) - 1e-9 <= blend.moisture <= max(moistures) + 1e-9
    ratios = [(part.stuff.c or 0) / (part.stuff.n or 1) for part in parts]
    assert blend.c_to_n is not None
    assert min(ratios) * (1 - 1e-9) <= blend.c_to_n <= max(ratios) * (1 + 1e-9)
    assert Blend(parts[::-1]).moisture == pytest.approx(blend.moisture)


@given(BLENDS, STUFFS, st.floats(0.1, 0.9))
def test_a_moisture_goal_that_is_reached_is_reached_exactly(blend: Blend, addend: Stuff, goal: float) -> None:
    try:
        added = solve(blend, [moisture_goal(goal)], [addend])
    except Unreachable:
        assume(addend.moisture is not None)
        assert (blend.moisture - goal) * ((addend.moisture or 0) - goal) >= -1e-4
        return
    assert blend.plus(*added).moisture == pytest.approx(goal, abs=1e-9)
    assert all(part.kg > 0 for part in added)


@given(BLENDS, STUFFS, st.floats(0.3, 0.9), st.floats(10, 60))
def test_both_goals_hold_when_both_are_reached(
    blend: Blend, addend: Stuff, moist: float, ratio: float
) -> None:
    try:
        added = solve(blend, [moisture_goal(moist), c_to_n_goal(ratio)], [addend, WATER])
    except Unreachable:
        return
    after = blend.plus(*added)
    assert after.moisture == pytest.approx(moist, rel=1e-6)
    assert after.c_to_n == pytest.approx(ratio, rel=1e-6)


def test_a_goal_on_the_wrong_side_says_so() -> None:
    with pytest.raises(Unreachable, match=r"No amount of leaves .* 90%.* 77% moisture, C:N 19"):
        solve(LAWN, [moisture_goal(0.9)], [LEAVES])
    with pytest.raises(Unreachable, match="No amounts of leaves and water"):
        solve(LAWN, [moisture_goal(0.4), c_to_n_goal(30)], [LEAVES, WATER])


def test_water_alone_has_no_ratio_to_reach() -> None:
    with pytest.raises(OutOfRange, match="without solids"):
        solve(Blend((Part(WATER, 1),)), [c_to_n_goal(25)], [LEAVES])


def test_a_mix_that_is_there_needs_nothing() -> None:
    assert solve(LAWN, [moisture_goal(LAWN.moisture)], [LEAVES]) == []


def test_what_is_not_known_is_said() -> None:
    card = Stuff("card", 0.08, None, 0.5)
    blend = Blend((Part(card, 1), Part(GRASS, 1)))
    assert blend.c_to_n is None
    assert blend.unknown("n") == ("card",)
    assert blend.volume_m3 is None
    with pytest.raises(OutOfRange, match="nitrogen of card is not known"):
        solve(blend, [c_to_n_goal(25)], [LEAVES])
    with pytest.raises(OutOfRange, match="moisture of mud is not known"):
        _ = Blend((Part(Stuff("mud", None), 1),)).dry_kg


def test_limits_warn_with_their_source() -> None:
    codes = {
        "wet": Blend((Part(WATER, 20), Part(GRASS, 1))),
        "dry": Blend((Part(LEAVES, 1),)),
        "ammonia": LAWN,
        "salt": Blend((Part(Stuff("pickles", 0.8, salt=0.02), 1),)),
    }
    for code, blend in codes.items():
        [found] = [one for one in warnings(blend) if one.code == code]
        assert found.source
    sound = Stuff("sound", 0.75, 0.015, 0.45, 0.001, 500.0)
    assert warnings(Blend((Part(sound, 2),)), area_m2=0.16) == []
    assert [one.code for one in warnings(Blend((Part(sound, 8),)), area_m2=0.16)] == ["heating"]
    assert layer_depth_m(Blend((Part(sound, 8),)), 0.16) == pytest.approx(0.1)


@pytest.mark.parametrize("wrong", [-1.0, math.nan, math.inf, 1e9])
def test_odd_input_is_refused(wrong: float) -> None:
    for call in (
        lambda: Part(GRASS, wrong),
        lambda: Stuff("x", wrong),
        lambda: Stuff("x", 0.5, wrong),
        lambda: Stuff("x", 0.5, density_kg_m3=wrong),
        lambda: moisture_goal(wrong),
        lambda: c_to_n_goal(wrong),
        lambda: layer_depth_m(LAWN, wrong),
    ):
        with pytest.raises(OutOfRange):
            call()
    with pytest.raises(OutOfRange, match="more carbon and nitrogen than it has solids"):
        Stuff("x", 0.5, 0.6, 0.6)
    with pytest.raises(OutOfRange, match="something in it"):
        _ = Blend(()).moisture
