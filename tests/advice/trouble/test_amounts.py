"""How much of each remedy: against plain mass balance, reckoned here by hand."""

from __future__ import annotations

from typing import Any

import pytest

from tests.advice.trouble.cases import FED, a_case, checked
from tests.builders import entry, fed, started
from trayturn.advice.trouble import amounts
from trayturn.advice.trouble.case import Case
from trayturn.domain.entries import Entry
from trayturn.domain.units import show_mass


def _weighed(kg: float, **reading: Any) -> Case:
    """Tray A, its contents weighing so much, with a reading of its moisture."""
    return a_case(FED, checked(gross_kg=kg + 0.9, **reading))


def _q2(q1: float, m1: float, goal: float, m2: float) -> float:
    """Q2 = Q1 (G - M1) / (M2 - G): Richard & Trautmann, Cornell Composting 1996."""
    return q1 * (goal - m1) / (m2 - goal)


def test_the_mass_balance_written_here_gives_the_published_example() -> None:
    """10 kg of grass at 77 % and leaves at 35 % come to 60 % with 6.8 kg (Cornell Composting, 1996)."""
    assert _q2(10, 0.77, 0.60, 0.35) == pytest.approx(6.8)


def test_dry_bedding_brings_a_wet_tray_to_75_percent() -> None:
    low, high = (_q2(5.0, wet, 0.75, 0.08) for wet in (0.80, 0.90))
    assert (round(low, 3), round(high, 2)) == (0.373, 1.12)
    told = amounts.dry_bedding(_weighed(5.0, moisture_pct=85))
    assert told.startswith("370 g to 1.1 kg of dry shreds brings tray A down to 75 % wet")
    assert "its reading of 2026-04-09" in told


def test_where_it_may_be_dry_enough_only_the_most_is_told() -> None:
    told = amounts.dry_bedding(_weighed(5.0, moisture_pct=78))
    most = _q2(5.0, 0.83, 0.75, 0.08)
    assert told.startswith(f"Up to {1000 * most:.0f} g of dry shreds")


def test_a_tray_dry_enough_gets_no_figure() -> None:
    assert "no wetter than 75 %" in amounts.dry_bedding(_weighed(5.0, moisture_pct=60))


def test_water_brings_a_dry_tray_to_75_percent() -> None:
    """W = (Q G - Q M) / (1 - G) (the same source, with water as the second part)."""
    low, high = ((4.0 * 0.75 - 4.0 * wet) / 0.25 for wet in (0.55, 0.45))
    assert (low, high) == pytest.approx((3.2, 4.8), abs=0.001)
    told = amounts.water(_weighed(4.0, moisture_pct=50))
    assert told.startswith("3.2 l to 4.8 l brings tray A up to 75 % wet")


def test_a_damp_tray_gets_no_water() -> None:
    assert "75 % wet already" in amounts.water(_weighed(4.0, moisture_pct=85))


def _worms(kg: float) -> Entry:
    made: Entry = entry("worms_added", 0, worms_kg=kg)
    return made


def test_food_is_held_back_until_the_worms_have_had_what_lies_there() -> None:
    """0.4 kg of worms take 0.2 to 0.5 of their weight a day: 80 to 200 g, in the middle 140 g."""
    case = a_case(FED, _worms(0.4), fed("A", 40, {"cabbage": 2.1}))
    assert amounts.rest_days(case) == 15
    told = amounts.no_food(case)
    assert told.startswith(
        "No food until Sat 25 Apr: about 2.1 kg is uneaten by reckoning, which lasts 10 to 26"
    )
    assert "by the 400 g of worms written down" in told


def test_it_is_held_back_a_week_at_least_and_six_at_most() -> None:
    assert amounts.rest_days(a_case()) == 7
    assert amounts.no_food(a_case()) == "No food until Fri 17 Apr."
    little = a_case(FED, _worms(0.4), fed("A", 40, {"cabbage": 0.5}))
    said = "No food until Fri 17 Apr, a week at least; about 500 g is uneaten by reckoning."
    assert amounts.no_food(little) == said
    heap = a_case(FED, _worms(0.05), fed("A", 40, {"cabbage": 9.0}))
    assert amounts.rest_days(heap) == 42
    assert "more than the bin takes by then. Take some out." in amounts.no_food(heap)


def test_a_meal_is_the_ration_of_an_interval() -> None:
    """80 to 200 g a day over 12 days."""
    told = amounts.smaller_meals(a_case(FED, _worms(0.4)))
    assert told.startswith("960 g to 2.4 kg of scraps at a feeding")
    frost = a_case(FED, _worms(0.4), checked(temperature_c=1))
    assert "do not feed" in amounts.smaller_meals(frost)


def test_bedding_takes_up_the_water_of_a_usual_meal() -> None:
    """1 kg at 92.18 % brings 0.854 l more than its castings hold at 70 %: 0.285 kg at 3 kg/kg.

    Water in 0.9218, made from half the solids 0.0391 x 0.598 = 0.0234, kept by the other half
    0.0391 x 0.7/0.3 = 0.0912.
    """
    assert pytest.approx(0.285, abs=0.001) == (0.9218 + 0.0234 - 0.0912) / 3
    told = amounts.bedding_with_food(
        a_case(FED, fed("A", 38, {"cabbage": 1.0}), fed("A", 39, {"cabbage": 1.0}))
    )
    assert told == "About 285 g of dry shreds with a feeding of 1 kg, your usual one, takes up its water."


def test_cardboard_brings_the_last_feedings_to_the_best_ratio() -> None:
    """1 kg of spinach (91.4 % water, N 5.32 %, C 44.4 %): card at 8 % water, N 0.10 %, C 56.3 %."""
    short = 1.0 * (1 - 0.914) * (25 * 0.0532 - 0.444)
    card = short / (0.92 * (0.563 - 25 * 0.001))
    told = amounts.bedding_for_carbon(a_case(FED, fed("A", 38, {"spinach": 1.0})))
    assert told.startswith(f"About {1000 * card:.0f} g of it")
    assert amounts.bedding_for_carbon(a_case(FED, fed("A", 38, {"orange peel": 1.0}))) == ""


def test_a_thin_layer_by_the_area_of_the_tray() -> None:
    """0.16 m2 at 1 and 1.5 in, 840 kg/m3."""
    assert pytest.approx((3.41, 5.12), abs=0.005) == (0.16 * 0.0254 * 840, 0.16 * 0.0381 * 840)
    assert amounts.thin_layer(a_case()) == "A layer of 2.5 cm to 3.8 cm: at most 3.4 kg to 5.1 kg at once."


def test_salt_is_thinned_by_mass_balance() -> None:
    """4 kg at 0.6 % to half of 0.5 %: 4 (0.006/0.0025 - 1) = 5.6 kg."""
    case = a_case(FED, fed("A", 30, {"bread": 1.926}), checked(gross_kg=4.9, moisture_pct=75))
    assert case.focus is not None
    salt = case.holds(case.focus).stuff.salt or 0.0
    expected = 4.0 * (salt / 0.0025 - 1)
    assert expected > 1
    assert amounts.thinned(case).startswith(f"About {show_mass(expected)} of damp bedding")
    assert amounts.thinned(a_case(FED)) == ""


def test_the_worms_that_what_is_fed_asks_for() -> None:
    """120 g a day at 0.2 to 0.5 of their weight: 240 to 600 g; 1.6 kg/m2 on 0.16 m2 is 256 g."""
    told = amounts.worms_wanted(a_case(FED, fed("A", 28, {"cabbage": 0.72}), fed("A", 34, {"cabbage": 0.72})))
    assert "asks for 240 g to 600 g of worms" in told
    assert "best stocked with 256 g of worms" in told


def test_what_to_take_out_is_named_with_its_weight() -> None:
    case = a_case(FED, fed("A", 30, {"lemon": 0.2, "cheese": 0.1, "cabbage": 1.0}))
    assert amounts.citrus_fed(case) == "Fed in the last 4 weeks: lemon 200 g."
    assert amounts.left_out_fed(case) == "Fed in the last 4 weeks: cheese 100 g."
    assert amounts.salty_fed(case) == "Fed in the last 4 weeks: cheese 100 g."
    assert amounts.citrus_fed(a_case(FED)) == ""


def test_a_us_keeper_reads_us_units() -> None:
    us = a_case(FED, _worms(0.4), fed("A", 38, {"cabbage": 1.0}), checked(temperature_c=8), units="us")
    assert amounts.warm_place(us) == "They work best at 59 °F to 77 °F."
    assert amounts.cool_place(us).endswith("above 84 °F worms stop stirring, and above 90 °F they may die.")
    assert amounts.cover(us) == "About 1 in of bedding over the food."
    assert amounts.thin_layer(us).startswith("A layer of 1 in to 1.5 in: at most 7.")
    assert amounts.grease_band(us) == "A band 1 in wide, all around."
    assert " lb of scraps at a feeding" in amounts.smaller_meals(us)


def test_the_whole_bin_is_put_right_at_its_fed_tray() -> None:
    case = a_case(started("B", 0, level=1), FED)
    assert case.focus is not None
    assert case.focus.id == "A"
    one = a_case(started("B", 0, level=1), FED, tray="B")
    assert one.focus is not None
    assert one.focus.id == "B"
    assert a_case(tray="Z").focus is None
