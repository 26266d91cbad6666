"""The figures of a meal, against published worked examples and for any meal at all."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from tests.advice.composing.meals import DAY, WORMS, ground, grounds, items, meal
from tests.builders import entry, fed, started, turned
from trayturn.advice.composing.draft import Draft, Line, Part
from trayturn.advice.composing.ground import Goals, Ground
from trayturn.advice.composing.load import load_of, takes_of
from trayturn.advice.composing.minding import minding
from trayturn.advice.composing.reasons import REASONS, reason
from trayturn.advice.composing.report import report
from trayturn.advice.composing.telling import figures
from trayturn.domain.setup import Ingredient
from trayturn.science.ration import OPTIMUM, area_rule

GRASS = Ingredient(name="lawn", moisture_pct=77, n_pct=2.4, c_pct=45, breakdown="fast")
LEAVES = Ingredient(name="raked leaves", moisture_pct=35, n_pct=0.75, c_pct=50, breakdown="slow")
EMPTY = started("A", 0, bedding_kg={}, stage="feeding")


def test_the_meal_of_the_published_example_is_as_moist_as_published() -> None:
    """Cornell (Richard & Trautmann 1996): 10 kg of grass at 77 % and 6.8 kg of leaves at 35 % come to 60 %.

    Its C:N of 37 is from memory.
    """
    on = ground(EMPTY, own=(GRASS, LEAVES))
    found = report(meal(on, {"lawn": 10, "raked leaves": 6.8}), on)
    assert found.moisture == pytest.approx(0.60, abs=0.0005)
    assert found.c_to_n == pytest.approx(37, abs=0.5)
    assert found.moisture_after == pytest.approx((0.6, 0.6, 0.6))


def test_dry_bedding_with_three_times_its_weight_of_water_is_at_75_percent() -> None:
    """Solomon, Organic Gardener's Composting, 1993, chapter 8."""
    on = ground(EMPTY, own=(Ingredient(name="bone-dry shreds", moisture_pct=0),))
    lines = (Line(Part.BEDDING, "bone-dry shreds", 1), Line(Part.WATER, "water", 3))
    assert report(Draft("A", lines), on).moisture == pytest.approx(0.75)


def test_worms_that_nobody_counted_are_those_of_the_best_stocking() -> None:
    """Computed from Ndegwa et al. 2000 (1.60 kg/m2; 0.75 a day) and NC State AG-473-18: on 0.16 m2 live
    0.256 kg of worms, which take 0.192 kg a day at the managed optimum; the area rule gives 0.781 a week."""
    on = ground(tray_area_m2=0.16)
    assert on.worms.kg == pytest.approx(0.256)
    assert not on.worms.known
    assert on.ration.optimum == pytest.approx(0.192) == OPTIMUM * on.worms.kg
    assert takes_of(on) == pytest.approx((0.0512 * 12, 0.0896 * 12, 0.128 * 12))
    assert area_rule(on.area_m2) == pytest.approx(0.781, abs=5e-4)
    assert takes_of(on).low < area_rule(on.area_m2) / 7 * 12 < takes_of(on).high


@pytest.mark.parametrize(("kept", "litres"), [(0.6, 0.7825), (0.7, 0.72), (0.8, 0.595)])
def test_the_water_to_spare_is_that_of_the_worked_balance(kept: float, litres: float) -> None:
    """Computed for 1 kg at 85 % water, half of its solids lost, with 0.60 kg of water a kilogram of them."""
    food = Ingredient(name="food", moisture_pct=85, breakdown="fast")
    on = ground(own=(food,), goals=Goals(moisture=kept))
    assert report(meal(on, {"food": 1}), on).wetness.surplus_kg == pytest.approx(litres, abs=5e-4)


def test_newspaper_at_twice_its_weight_takes_up_the_worked_case_whole() -> None:
    """Computed: 0.36 kg of newspaper (Iowa State R2153, twice its weight) for 1 kg at 85 %, kept at 70 %."""
    food = Ingredient(name="food", moisture_pct=85, breakdown="fast")
    on = ground(own=(food,), goals=Goals(moisture=0.7))
    draft = meal(on, {"food": 1}).put(Line(Part.BEDDING, "newspaper", 0.36))
    wet = report(draft, on).wetness
    assert wet.taken_kg.low == pytest.approx(0.72)
    assert wet.taken_kg.low == pytest.approx(wet.surplus_kg, abs=5e-4)
    assert wet.left_kg == 0


def test_the_load_is_the_meal_and_what_is_uneaten_against_the_ration() -> None:
    """Half a kilogram of worms takes 0.1 to 0.25 kg a day by the household norm, 1.2 to 3 kg in 12 days."""
    on = ground(WORMS)
    load = load_of(meal(on, {"cabbage": 1.05}), on)
    assert load.takes_kg == pytest.approx((1.2, 2.1, 3.0))
    assert load.share == pytest.approx((0.35, 0.5, 0.875))
    assert (load.words, load.level) == ("about half of what they take", 0)
    late = ground(WORMS, fed("A", DAY - 1, {"cabbage": 1.05}))
    assert load_of(meal(late, {"cabbage": 1.05}), late).kg > 1.9


@pytest.mark.parametrize(
    ("kg", "words", "level"),
    [
        (0.05, "next to nothing for them", 0),
        (2.1, "about what they take", 0),
        (2.8, "somewhat more than they take", 1),
        (4.2, "twice what they take", 2),
        (10.5, "5 times what they take", 2),
        (500, "far more than they take", 2),
    ],
)
def test_the_load_in_words(kg: float, words: str, level: int) -> None:
    on = ground(WORMS)
    load = load_of(meal(on, {"cabbage": kg}), on)
    assert (load.words, load.level) == (words, level)
    assert len(load.words) <= 30


def test_in_the_cold_they_take_nothing() -> None:
    on = ground(WORMS, entry("checked", DAY, temperature_c=2))
    load = load_of(meal(on, {"cabbage": 1}), on)
    assert (load.share, load.words, load.level) == (None, "they take nothing now", 2)
    assert load_of(Draft("A"), on).level == 0


def test_trays_that_are_fed_share_the_worms() -> None:
    both = (started("B", 0, level=2), turned("AB", 1, A="feeding", B="feeding"))
    on = ground(WORMS, started("A", 0), *both)
    assert (on.worms.kg, on.worms.trays) == (0.25, 2)


def test_minerals_are_not_food() -> None:
    on = ground(WORMS)
    load = load_of(meal(on, {"egg shell": 3}), on)
    assert (load.meal_kg, load.level) == (0, 0)


def test_the_slowest_goes_last_and_is_named() -> None:
    on = ground(WORMS)
    found = report(meal(on, {"avocado stone": 0.1, "lettuce": 0.5, "cabbage": 0.2}), on)
    assert [one.name for one in found.gone] == ["lettuce", "cabbage", "avocado stone"]
    words = {one.code: one.words[0] for one in figures(found, on)}
    assert words["gone"] == "6 to 19 months: avocado stone"


def test_what_is_not_known_is_blamed_on_its_ingredient() -> None:
    on = ground(WORMS)
    draft = meal(on, {"zzyzx": 0.5, "cull potatoes": 0.5, "sawdust": 0.2})
    found = report(draft, on)
    assert (found.c_to_n, found.c_to_n_after) == (None, None)
    assert found.stand_ins == ("zzyzx",)
    assert set(found.blame) == {"cull potatoes", "sawdust"}
    told = " ".join(reason("meal", draft, on, found))
    assert "carbon or nitrogen of sawdust and cull potatoes is not known" in told
    assert "as mixed kitchen scraps" in told


def test_a_tray_read_wet_is_wetter_after_a_wet_meal() -> None:
    on = ground(WORMS, entry("checked", DAY, tray="A", moisture_pct=80))
    before, after = on.contents.moisture, report(meal(on, {"lettuce": 2}), on).moisture_after
    assert after is not None
    assert after.low > before.low
    assert after.mid > before.mid
    assert after.high > before.high


@settings(max_examples=150)
@given(grounds(), items())
def test_any_meal_has_its_figures_reasons_and_warnings(on: Ground, food: dict[str, float]) -> None:
    draft = meal(on, food, bedding=0.1, cover=0.1, grit=0.005, water=0.1)
    found = report(draft, on)
    assert [one.code for one in figures(found, on)] == list(REASONS)
    assert all(reason(code, draft, on, found) for code in REASONS)
    assert all(one.what and one.why and one.source for one in minding(draft, on, found))
    assert found.total_kg == pytest.approx(sum(food.values()) + 0.305)
    assert 0 <= (found.moisture or 0) <= 1
