"""A new bin from nothing: amounts by published figures, steps with reasons, and what is written down."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import a_bin, entry, fed, stack_of, started
from trayturn.advice.pages import Page
from trayturn.advice.starting import SHARES, next_work, plan_for, starting_plan
from trayturn.advice.starting_steps import PlanStep, plan_steps
from trayturn.domain.setup import SPECIES, BinSetup, Units
from trayturn.domain.stack import Stack
from trayturn.domain.units import show_mass
from trayturn.science.errors import OutOfRange
from trayturn.science.ration import ration

WORMS = entry("worms_added", 0.1, worms_kg=0.5)
EMPTY = stack_of(as_of=0)
US_TRAY = {"units": "us", "tray_area_m2": 0.158, "tray_depth_m": 0.1524}


def step(code: str, stack: Stack = EMPTY, **setup: object) -> PlanStep:
    """One step of the plan, for a bin of that make or as it stands."""
    bin_setup = a_bin(**setup) if setup else stack.setup
    plan = plan_for(bin_setup) if setup else starting_plan(stack)
    return next(one for one in plan_steps(plan, stack) if one.code == code)


def test_a_usual_bin_begins_with_half_a_kilogram_of_bedding_and_a_quarter_of_worms() -> None:
    """0.024 m3 at 16 to 24 kg/m3 (Solomon 1993), three times its weight of water, 1.60 kg/m2 (Ndegwa)."""
    plan = plan_for(a_bin())
    assert plan.bedding_kg == pytest.approx((0.384, 0.48, 0.576))
    assert plan.water_kg == pytest.approx((1.152, 1.4, 1.728))
    assert (plan.worms_kg, plan.worms_best_kg, plan.worms_most_kg) == pytest.approx((0.26, 0.256, 0.8))
    assert plan.bedding == {"shredded cardboard": pytest.approx(0.48)}
    assert plan.by_area


def test_the_first_meals_are_shares_of_the_ration_for_the_worms_that_are_in() -> None:
    plan = starting_plan(stack_of(started("A"), WORMS, as_of=1, days_between_feedings=7))
    low, high = ration(0.5, 20).norm
    for meal, share in zip(plan.meals, SHARES, strict=True):
        assert (meal.kg.low, meal.kg.high) == pytest.approx((7 * share * low, 7 * share * high))
    assert (plan.worms_kg, plan.by_area, plan.celsius_read) == (0.5, False, False)


def test_another_weight_of_worms_can_be_asked_about() -> None:
    stack = stack_of(started("A"), WORMS, as_of=1)
    assert starting_plan(stack, 1.0).worms_kg == 1.0
    assert starting_plan(stack, 1.0).meals[0].kg.low == pytest.approx(
        2 * starting_plan(stack).meals[0].kg.low
    )


def test_no_meal_is_thicker_than_what_may_heat() -> None:
    plan = plan_for(a_bin(days_between_feedings=60), worms_kg=2.0)
    assert plan.meals[-1].kg.high == pytest.approx(plan.layer_kg)
    assert plan.layer_kg == pytest.approx(0.16 * 0.04 * 840)


def test_in_the_cold_the_first_meal_waits() -> None:
    frost = stack_of(started("A"), WORMS, entry("checked", 0.5, temperature_c=1), as_of=1)
    told = step("meal", frost)
    assert told.title == "Wait with the first meal"
    assert "do not feed" in told.what


@pytest.mark.parametrize(
    ("setup", "code", "words"),
    [
        ({}, "soak", "About 480 g of dry shreds in 1.4 kg of water (a litre is a kilogram)."),
        (US_TRAY, "soak", "About 1.1 lb of dry shreds in 3.3 lb of water (a quart is 2.1 lb)."),
        ({}, "fill", "Loosely, to its rim (15 cm)"),
        ({"tray_depth_m": 0.4}, "fill", "Loosely, 20 cm of its 40 cm deep"),
        ({}, "worms", "About 260 g (470 to 1,000 worms)"),
        ({"species": "mixed"}, "worms", "About 260 g, spread on top."),
        (US_TRAY, "worms", "About 8.9 oz ("),
        ({}, "meal", "160 g to 390 g at first, with a pinch of grit. Once it is gone 310 g to 780 g"),
        (US_TRAY, "cover", "About 1 in of bedding"),
        (US_TRAY, "light", "59 °F to 68 °F"),
    ],
)
def test_amounts_are_said_in_the_keepers_units(setup: dict[str, object], code: str, words: str) -> None:
    assert words in step(code, EMPTY, **{"name": "Shed", **setup}).what


def test_what_rests_on_what_is_said() -> None:
    why = {one.code: " ".join(one.why) for one in plan_steps(plan_for(a_bin()), EMPTY)}
    assert "Solomon" in why["soak"]
    assert "75 %" in why["soak"]
    assert "Sherman" in why["fill"]
    assert "best of the densities tried (Ndegwa, Thompson & Das" in why["worms"]
    assert "take it as the most. A pound a square foot, as is commonly taught" in why["worms"]
    assert "the shares are our choice" in why["meal"]
    assert all(
        "common practice, no source" in why[code] for code in ("soak", "meal", "cover", "light", "look")
    )


def test_the_pattern_says_where_the_next_tray_goes() -> None:
    below, above = (step("fill", EMPTY, pattern=p).why[-1] for p in ("bedding_below", "straight_up"))
    assert "below it catches what drips" in below
    assert "on top at the first turn" in above


def test_the_keepers_own_worms_are_told_against_the_best() -> None:
    stack = stack_of(started("A"), WORMS, as_of=1)
    assert (
        "Yours come to 3.12 kg a square metre in one tray, 2.0 times that best." in step("worms", stack).why
    )


def test_steps_are_done_once_the_journal_has_them() -> None:
    def done(stack: Stack) -> list[str]:
        return [one.code for one in plan_steps(starting_plan(stack), stack) if one.done]

    assert done(EMPTY) == []
    assert done(stack_of(started("A"), as_of=1)) == ["soak", "fill"]
    assert done(stack_of(started("A"), WORMS, as_of=1)) == ["soak", "fill", "worms"]
    assert done(stack_of(started("A"), WORMS, fed("A", 0.5), as_of=1)) == ["soak", "fill", "worms", "meal"]


def test_the_next_piece_of_work() -> None:
    assert next_work(EMPTY) == "tray"
    assert next_work(stack_of(WORMS, as_of=1)) == "tray"
    assert next_work(stack_of(started("A"), as_of=1)) == "worms"
    assert next_work(stack_of(started("A"), WORMS, as_of=1)) == "meal"
    assert next_work(stack_of(started("A"), fed("A", 0.5), as_of=1)) is None


def test_a_weight_no_bin_holds_is_refused() -> None:
    with pytest.raises(OutOfRange):
        plan_for(a_bin(), worms_kg=2000)


@given(
    st.builds(
        BinSetup,
        name=st.just("Any"),
        units=st.sampled_from(Units),
        species=st.sampled_from(sorted(SPECIES)),
        tray_area_m2=st.floats(0.006, 4),
        tray_depth_m=st.floats(0.021, 1),
        days_between_feedings=st.floats(0.5, 365),
        pattern=st.sampled_from(["bedding_below", "straight_up"]),
    ),
    st.none() | st.floats(0.001, 100),
    st.none() | st.floats(-20, 60),
)
def test_every_bin_gets_a_plan_in_whole_sentences(
    setup: BinSetup, worms: float | None, celsius: float | None
) -> None:
    plan = plan_for(setup, worms, celsius)
    for band in (plan.bedding_kg, plan.water_kg, *(meal.kg for meal in plan.meals)):
        assert 0 <= band.low <= band.mid <= band.high
    assert plan.water_kg.mid == pytest.approx(3 * plan.bedding_kg.mid, rel=0.06)
    for one in plan_steps(plan):
        assert one.what.endswith(".")
        assert one.why
        assert all(line.endswith((".", ")")) for line in one.why)
        assert isinstance(one.page, Page)
        assert "nan" not in one.what


@given(st.floats(0.001, 20))
def test_what_is_weighed_out_has_two_figures(kg: float) -> None:
    plan = plan_for(a_bin(tray_area_m2=min(4, max(0.006, kg / 5)), units="us"))
    for shown in (show_mass(plan.bedding_kg.mid, Units.US), show_mass(plan.worms_kg, Units.US)):
        assert len(shown.split()[0].replace(".", "").strip("0")) <= 2
