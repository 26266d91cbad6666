"""Each lift of a day: weight, heights of the hands, and the index by the revised NIOSH equation."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.stacks import Case, cases, of_stages
from tests.builders import a_bin, entry, fed
from trayturn.advice.bands import exactly
from trayturn.advice.contents import ASSUMED, tray_contents
from trayturn.advice.pantry import shipped_pantry
from trayturn.advice.turn_day.lifts import (
    Fresh,
    LiftTold,
    heights_words,
    index_word,
    index_words,
    lift_line,
    lift_row,
    lifting_index,
    lifts_told,
    tray_kg,
)
from trayturn.advice.turn_day.moving import STACK, Lift, moving_to
from trayturn.advice.turn_day.plan import plan_day
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack

PANTRY = shipped_pantry()


def told_of(stack: Stack) -> tuple[LiftTold, ...]:
    plan = plan_day(stack)
    stages = {tray.id: tray.stage for tray in stack.trays}
    before = [tray.id for tray in stack.trays]
    moving = moving_to(before, plan.whole, plan.separating, stages, stack.setup)
    return lifts_told(stack, moving, PANTRY, Fresh(plan.bedding_kg, plan.fed))


def test_the_index_is_that_of_the_manuals_formula() -> None:
    """NIOSH 94-110, pp. 2-18, by hand: W 40 cm, so H = 20 + W/2 = 40; V 27.5 to 82.5 cm; once a minute.

    RWL at the origin = 23 x (25/40) x (1 - .003 x 47.5) x (.82 + 4.5/55) x .94 x .90 = 9.404 kg.
    """
    by_hand = 23 * (25 / 40) * (1 - 0.003 * 47.5) * (0.82 + 4.5 / 55) * 0.94 * 0.90
    assert by_hand == pytest.approx(9.404, abs=0.001)
    assert lifting_index(by_hand, 0.275, 0.825, a_bin(tray_area_m2=0.16)) == pytest.approx(1.0)


def test_low_hands_reach_further() -> None:
    """94-110, p. 8: below 25 cm H = 25 + W/2, so 45 cm here; the other end, at 40 cm, keeps 20 + W/2."""
    low = 23 * (25 / 45) * (1 - 0.003 * 55) * (0.82 + 4.5 / 25) * 0.94 * 0.90
    assert lifting_index(low, 0.20, 0.40, a_bin(tray_area_m2=0.16)) == pytest.approx(1.0)


def test_what_is_out_of_reach_has_no_index() -> None:
    """94-110: the limit is nought above 175 cm, and where H is above 63 cm."""
    assert math.isinf(lifting_index(1.0, 0.8, 1.8, a_bin()))
    assert math.isinf(lifting_index(1.0, 0.8, 0.9, a_bin(tray_area_m2=1.0)))


def test_heights_come_from_the_level_the_depth_and_where_things_stand() -> None:
    stack = of_stages("bfd", tray_depth_m=0.2, stands_m=0.4, places_m=0.9).stack
    first, *_, last = told_of(stack)
    assert (first.lift.tray, first.lift.source) == ("C", STACK)
    assert first.from_m == pytest.approx(0.4 + 0.2 + 2.5 * 0.2)
    assert first.to_m == pytest.approx(0.9 + 0.1)
    assert last.lift.target == STACK
    assert last.to_m == pytest.approx(0.4 + 0.2 + (len(plan_day(stack).order) - 0.5) * 0.2)


def test_a_weight_counts_until_the_tray_is_fed_again() -> None:
    weighed = of_stages("bfd")
    case = Case(weighed.profile.with_entries([fed("B", 110), entry("checked", 150, tray="B", gross_kg=7.2)]))
    assert tray_kg(case.stack, "B", PANTRY) == (exactly(7.2), "weighed on Wed 29 Jul, 50 days ago")
    later = Case(case.profile.with_entries([fed("B", 160)]))
    kg, basis = tray_kg(later.stack, "B", PANTRY)
    tray = later.stack.tray("B")
    assert tray is not None
    assert basis == "reckoned from what went in"
    assert kg == exactly(tray.empty_kg).plus(tray_contents(tray, later.stack, PANTRY).wet_kg)
    assert kg.low < kg.mid < kg.high


def test_a_fresh_tray_weighs_what_it_is_filled_with() -> None:
    stack = of_stages("bfd", tray_empty_kg=1.0).stack
    assert tray_kg(stack, "D", PANTRY, Fresh({"straw": 0.5}))[0] == exactly(1.5)
    moist = tray_kg(stack, "D", PANTRY, Fresh({"straw": 0.5}, fed="D"))[0]
    assert moist.high == pytest.approx(1.0 + 0.5 * 0.92 / (1 - ASSUMED.high))
    assert tray_kg(stack, "D", PANTRY)[0] == exactly(1.5)  # the half kilogram of every tray before it


def test_an_index_is_said_with_what_it_means() -> None:
    assert index_words(0.94) == "lifting index 0.9, within the limit"
    assert index_words(1.02).startswith("lifting index 1.1, above the limit: take some out")
    assert "do not lift it like this" in index_words(3.2)
    assert "ask for help" in index_words(math.inf)
    assert [index_word(one) for one in (0.5, 2.0, 4.0, math.inf)] == [
        "0.5 within",
        "2.0 above",
        "4.0 far above",
        "out of reach",
    ]


def test_a_lift_in_a_line_and_in_a_row() -> None:
    stack = of_stages("bfd").stack
    told = LiftTold(Lift("C", STACK, 1), exactly(6.0)._replace(high=9.4), "reckoned", 0.725, 0.825, 1.4)
    assert lift_line(told, stack, 2, 1) == (
        "1. Tray C, 6 kg to 9.4 kg, from the stack to place 1 beside it, hands 72 to 82 cm high; "
        "lifting index 1.4, above the limit: take some out, or lift it with two."
    )
    assert lift_row(told, stack, 1) == " 1 C  6 to 9.4 kg   stack to place 1 72 to 82 cm  1.4 above"
    us = of_stages("bfd", units=Units.US).stack
    assert "hands 29 to 32 in high" in lift_line(told, us, 2)
    assert "lowest tray 8 in higher" in heights_words(us.setup)


@given(cases())
def test_a_tray_is_picked_up_where_it_was_set_down(case: Case) -> None:
    at: dict[str, float] = {}
    for told in told_of(case.stack):
        assert told.from_m == pytest.approx(at.get(told.lift.tray, told.from_m))
        assert 0 < told.kg.low <= told.kg.mid <= told.kg.high
        at[told.lift.tray] = told.to_m


@given(
    st.floats(0, 20_000),
    st.floats(0, 60),
    st.floats(0, 60),
    st.floats(0.006, 4),
)
def test_no_tray_is_too_odd_for_an_index(kg: float, start: float, end: float, area: float) -> None:
    assert lifting_index(kg, start, end, a_bin(tray_area_m2=area)) >= 0
