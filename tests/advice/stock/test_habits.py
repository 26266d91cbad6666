"""How a supply is used: by the keeper's own record, or by a rule of thumb whose figures are published."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from scipy import stats

from tests.builders import entry, fed, stack_of, started, turned
from trayturn.advice.stock.habits import habit_of, main_bedding
from trayturn.advice.stock.thumb import cover, tray_fill
from trayturn.domain.entries import Entry
from trayturn.domain.setup import BinSetup

POUND_KG, FOOT_M, INCH_M = 0.45359237, 0.3048, 0.0254
CARDBOARD = "shredded cardboard"


def trays(kgs: Sequence[float]) -> list[Entry]:
    """Trays started one after another, each taken off again by a turn."""
    journal: list[Entry] = []
    for n, kg in enumerate(kgs):
        journal += [started("A", n, bedding_kg={CARDBOARD: kg}), turned("B", n + 0.5, B="bedding")]
    return journal


def feedings(kgs: Sequence[float]) -> list[Entry]:
    meals: list[Entry] = [
        fed("B", 10 + n, bedding_kg={CARDBOARD: kg} if kg else {}) for n, kg in enumerate(kgs)
    ]
    return [started("B", 9, bedding_kg={}), *meals]


def test_a_tray_of_loose_shreds_weighs_what_is_published() -> None:
    """1 to 1.5 lb of dry bedding a cubic foot of box (Solomon, Organic Gardener's Composting, 1993)."""
    foot = BinSetup(name="a cubic foot", tray_area_m2=FOOT_M**2, tray_depth_m=FOOT_M)
    fill = tray_fill(foot)
    assert fill.low == pytest.approx(1 * POUND_KG, rel=0.01)
    assert fill.high == pytest.approx(1.5 * POUND_KG, rel=0.01)
    assert fill.mid == pytest.approx(1.25 * POUND_KG, rel=0.01)


def test_a_cover_over_the_food_is_an_inch_of_them() -> None:
    """About an inch of bedding over the food (Solomon 1993), on a tray of the usual 0.16 m2."""
    setup = BinSetup(name="usual", tray_area_m2=0.16)
    assert cover(setup).mid == pytest.approx(0.16 * INCH_M * 20, rel=0.02)


def test_without_a_record_the_rule_of_thumb_is_told_with_its_source() -> None:
    habit = habit_of(stack_of(entry("supplies_counted", 0, supplies_kg={CARDBOARD: 2})), CARDBOARD)
    assert tuple(habit.tray.one) == pytest.approx((0.384, 0.48, 0.576))
    assert "rule of thumb" in habit.tray.basis
    assert "Solomon, Organic Gardener's Composting, 1993" in habit.tray.basis
    assert tuple(habit.feeding.one) == pytest.approx((0.064, 0.08, 0.096))


def test_grit_has_a_rule_without_a_source_and_meal_has_none() -> None:
    stack = stack_of(entry("supplies_counted", 0, supplies_kg={"grit": 1, "maize meal": 1}))
    assert "common practice, no source" in habit_of(stack, "grit").feeding.basis
    assert habit_of(stack, "grit").need(3, 1, 30).mid == pytest.approx(0.03)
    assert habit_of(stack, "maize meal").need(3, 1, 30).high == 0


def test_a_tray_takes_the_middle_of_the_keepers_own() -> None:
    habit = habit_of(stack_of(*trays([0.4, 0.9, 0.5])), CARDBOARD)
    assert habit.tray.one.mid == 0.5
    assert habit.tray.basis == "the middle of 3 trays of yours"


def test_one_tray_of_ones_own_says_more_than_the_rule_and_is_taken_a_fifth_either_way() -> None:
    habit = habit_of(stack_of(*trays([0.5])), CARDBOARD)
    assert tuple(habit.tray.one) == pytest.approx((0.4, 0.5, 0.6))


def test_a_bedding_no_longer_used_for_trays_is_not_reckoned_with() -> None:
    journal = [*trays([0.4, 0.4]), started("A", 8, bedding_kg={"leaf mould": 0.6})]
    assert habit_of(stack_of(*journal), CARDBOARD).tray.one.high == 0
    assert habit_of(stack_of(*journal), "leaf mould").tray.one.mid == 0.6


def test_the_band_of_feedings_is_the_prediction_interval_of_scipy() -> None:
    kgs = [0.08, 0.1, 0.09, 0.14, 0.07]
    need = habit_of(stack_of(*feedings(kgs)), CARDBOARD).need(6, 0, 0)
    mean, sd, seen, ahead = sum(kgs) / 5, stats.tstd(kgs), 5, 6
    off = stats.t.ppf(0.9, seen - 1) * sd * (1 / ahead + 1 / seen) ** 0.5 * ahead
    assert need.mid == pytest.approx(6 * mean)
    assert (need.low, need.high) == pytest.approx((6 * mean - off, 6 * mean + off), rel=1e-3)


def test_feedings_count_from_the_first_that_used_it() -> None:
    """A keeper who changed from newspaper to cardboard does not use half as much of both from then on."""
    habit = habit_of(stack_of(*feedings([0.0] * 12 + [0.1] * 6)), CARDBOARD)
    assert habit.feeding.one.mid == pytest.approx(0.1)
    assert habit.feeding.basis == "your last 6 feedings"


def test_what_eight_feedings_went_without_is_no_longer_given() -> None:
    habit = habit_of(stack_of(*feedings([0.1] * 5 + [0.0] * 8)), CARDBOARD)
    assert habit.feeding.one.high == 0
    assert habit.feeding.basis == "none in your last 8 feedings"


def test_grit_given_now_and_then_is_spread_over_the_feedings() -> None:
    meals = [fed("A", n, grit_kg=0.02 if n % 4 == 1 else None) for n in range(1, 9)]
    assert habit_of(stack_of(started("A"), *meals), "grit").feeding.one.mid == pytest.approx(0.005)


def test_other_uses_go_on_at_their_rate() -> None:
    """Two uses in 100 days; a number of rare events is off by about its square root (Poisson)."""
    uses = [entry("supplies_used", day, supplies_kg={"leaves": 0.5}) for day in (20, 60)]
    stack = stack_of(started("A"), entry("supplies_added", 0, supplies_kg={"leaves": 5}), *uses, as_of=100)
    need = habit_of(stack, "leaves").need(0, 0, 30)
    assert need.mid == pytest.approx(0.3)
    assert need.high / need.mid - 1 == pytest.approx(stats.norm.ppf(0.9) / 2**0.5, rel=1e-3)


@pytest.mark.parametrize(
    ("journal", "name"),
    [
        ([], CARDBOARD),
        ([entry("supplies_added", 0, supplies_kg={"grit": 1, "Torn newspaper": 1})], "Torn newspaper"),
        (feedings([0.1, 0.1]), CARDBOARD),
        ([started("A", 0, bedding_kg={"coir": 0.2, "leaf mould": 0.4})], "leaf mould"),
        ([started("A", 0, bedding_kg={}), fed("A", 1, bedding_kg={"straw": 0.1})], "straw"),
    ],
)
def test_the_bedding_of_a_tray_is_the_last_one_used(journal: Sequence[Entry], name: str) -> None:
    assert main_bedding(stack_of(*journal)) == name
