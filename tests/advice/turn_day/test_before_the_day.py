"""What a keeper is told before a turn day: what speaks for waiting, stock, time, tools and cautions."""

from __future__ import annotations

from typing import Any

import pytest

from tests.advice.stacks import Case, of_stages
from tests.builders import entry, fed, moment
from trayturn.advice.pantry import shipped_pantry
from trayturn.advice.turn_day.needs import bedding_lines, meal_line, needs_of, short_of_bedding
from trayturn.advice.turn_day.plan import Wish, plan_day
from trayturn.advice.turn_day.plan_words import full_lines, heaviest_line, lift_rows, short_lines, time_line
from trayturn.advice.turn_day.readiness import not_ready
from trayturn.advice.turn_day.times import DayTime, day_time, minutes_words, past_minutes
from trayturn.advice.turn_day.whole import Whole, whole_day
from trayturn.domain.entries import Entry, SuppliesCounted
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack

PANTRY = shipped_pantry()
METRIC = Units.METRIC
CARDBOARD = "shredded cardboard"


def with_(case: Case, *entries: Entry) -> Stack:
    return Case(case.profile.with_entries(entries)).stack


def bin_of(**setup: Any) -> Case:
    return of_stages("bbdf", trays="ABCDE", **setup)


def codes(stack: Stack, wish: Wish | None = None) -> list[str]:
    return [one.code for one in not_ready(stack, plan_day(stack, wish), PANTRY)]


def told(stack: Stack, code: str) -> str:
    return next(one.what for one in not_ready(stack, plan_day(stack), PANTRY) if one.code == code)


def test_a_tray_that_finished_long_and_is_eaten_is_ready() -> None:
    assert codes(bin_of().stack) == []


def test_a_tray_that_finishes_too_short_is_young() -> None:
    young = bin_of(days_between_turns=200).stack
    assert codes(young) == ["young"]
    assert "Tray C has finished for 100 days; usual is 150 days or more" in told(young, "young")
    assert "our choice" in told(young, "young")


@pytest.mark.parametrize(("percent", "found"), [(80, []), (81, ["wet"])])
def test_a_tray_too_wet_to_separate(percent: float, found: list[str]) -> None:
    wet = with_(bin_of(), entry("checked", 190, tray="C", moisture_pct=percent))
    assert codes(wet) == found


def test_much_uneaten_is_said_with_its_share_and_the_usual() -> None:
    late = with_(bin_of(), *(fed("C", day, {"maize cob": 2.0}) for day in (192, 195, 198)))
    assert codes(late) == ["uneaten"]
    words = told(late, "uneaten")
    assert words.startswith("About ")
    assert "% of what tray C was fed is still there" in words
    assert "usual is under 10 % (our choice)" in words
    old = with_(bin_of(), fed("C", 101, {"cabbage": 1.0}))
    assert codes(old) == []


@pytest.mark.parametrize(
    ("celsius", "day", "code", "words"),
    [
        (3.0, 195, "cold", "too cold for worms. Best 15 to 20 °C, limits 4 to 30 °C (Edwards 1988"),
        (8.0, 195, "cold", "worms move slowly below 10 °C (our choice)"),
        (31.0, 195, "hot", "too hot for worms. Best 15 to 20 °C, limits 4 to 30 °C"),
        (18.0, 195, None, ""),
        (31.0, 170, None, ""),
    ],
)
def test_warmth_out_of_range_is_said_with_its_source(
    celsius: float, day: float, code: str | None, words: str
) -> None:
    stack = with_(bin_of(), entry("checked", day, temperature_c=celsius))
    assert codes(stack) == ([code] if code else [])
    if code:
        assert words in told(stack, code)


def test_the_limits_are_those_of_the_species() -> None:
    stack = with_(bin_of(species="dendrobaena_veneta"), entry("checked", 195, temperature_c=31))
    assert codes(stack) == []
    hotter = with_(bin_of(species="dendrobaena_veneta"), entry("checked", 195, temperature_c=33))
    assert "Limits 3 to 32 °C: an agriculture portal" in told(hotter, "hot")


def counted(kg: float) -> Entry:
    return SuppliesCounted(at=moment(150), supplies_kg={CARDBOARD: kg})


def test_bedding_for_two_fresh_trays_is_twice_that_for_one() -> None:
    stack = with_(of_stages("bbdf", trays="ABCDEFG", tray_count=4), counted(0.7))
    one = needs_of(stack, plan_day(stack)).bedding
    two = needs_of(stack, plan_day(stack, Wish(more=1))).bedding
    assert one is not None
    assert two is not None
    assert (one.trays, two.trays) == (("E",), ("E", "F"))
    assert two.need.mid == pytest.approx(2 * one.need.mid)
    assert not one.short
    assert two.short_kg == pytest.approx(0.3)
    lines = bedding_lines(needs_of(stack, plan_day(stack, Wish(more=1))), METRIC)
    assert lines[:2] == (
        "Trays E and F take about 1 kg of shredded cardboard, and about 700 g is in stock.",
        "Shred about 300 g more first, or bring one fewer in.",
    )


def test_bedding_that_was_never_counted_is_not_called_short() -> None:
    needs = needs_of(bin_of().stack, plan_day(bin_of().stack))
    assert needs.bedding is not None
    assert (needs.bedding.stock_kg, needs.bedding.short) == (None, False)
    assert "is not known" in bedding_lines(needs, METRIC)[0]
    assert short_of_bedding(needs, METRIC) == ""


def test_a_turn_without_a_fresh_tray_takes_no_bedding_for_one() -> None:
    stack = bin_of().stack
    assert needs_of(stack, plan_day(stack, Wish(bring=False))).bedding is None


def test_bedding_that_does_for_the_tray_but_not_for_the_meal_too_is_said() -> None:
    meals = [fed("D", day, bedding_kg={CARDBOARD: 0.2}) for day in (110, 120, 130)]
    stack = with_(bin_of(), *meals, counted(0.6))
    needs = needs_of(stack, plan_day(stack))
    assert needs.bedding is not None
    assert not needs.bedding.short
    assert "The first meal takes about 200 g of bedding too" in bedding_lines(needs, METRIC)[-1]
    enough = with_(bin_of(), *meals, counted(0.8))
    assert len(bedding_lines(needs_of(enough, plan_day(enough)), METRIC)) == 1


def test_the_first_meal_is_told_by_the_last_ones() -> None:
    meals = [fed("D", day, {"cabbage": kg}) for day, kg in ((105, 9.0), (110, 0.4), (120, 0.6))]
    stack = with_(bin_of(), *meals[1:], entry("put_off", 199, items_kg={"apple": 0.3}))
    line = meal_line(needs_of(stack, plan_day(stack)), METRIC)
    assert line == (
        "First meal of tray B: 400 g to 600 g of scraps, as in your last 2 meals. "
        "About 300 g waits in the caddy."
    )
    unfed = meal_line(needs_of(bin_of().stack, plan_day(bin_of().stack)), METRIC)
    assert unfed == "Tray B is fed first: have a small meal and its bedding at hand."


def a_day(day: float, hours: float, separating: str = "A", outcome: str = "finished") -> list[Entry]:
    """A turn day of so many hours."""
    begun = entry("turn_day_begun", day, order=["C", "A", "B"], separating=list(separating))
    return [begun, entry("turn_day_ended", day + hours / 24, outcome=outcome)]


def time_of(stack: Stack) -> DayTime:
    return day_time(stack, 0, plan_day(stack).separating, 3)


def test_time_rests_on_own_days_with_as_many_separations() -> None:
    days = [*a_day(110, 2), *a_day(130, 3), *a_day(150, 8, ""), *a_day(160, 5, "A", "left"), *a_day(170, 30)]
    stack = with_(bin_of(), *days)
    assert past_minutes(stack.past_turn_days, 1) == pytest.approx([120, 180])
    time = time_of(stack)
    assert [time.minutes.low, time.minutes.high] == pytest.approx([120, 180])
    assert (time.days, time.basis) == (2, "2 turn days of yours")


def test_a_single_day_of_ones_own_has_a_band_too() -> None:
    time = time_of(with_(bin_of(), *a_day(110, 2)))
    assert time.minutes.low < time.minutes.mid < time.minutes.high
    assert time.minutes.mid == pytest.approx(120)


@pytest.mark.parametrize("hours", [0.3, 0.8, 2, 6])
def test_hands_are_not_needed_for_longer_than_the_day(hours: float) -> None:
    time = time_of(with_(bin_of(), *a_day(110, hours)))
    assert all(part <= whole for part, whole in zip(time.hands, time.minutes, strict=True))


def test_without_days_of_ones_own_it_is_common_practice() -> None:
    time = time_of(bin_of().stack)
    assert (time.days, time.basis) == (0, "common practice")
    assert time.hands.mid < time.minutes.mid


def test_a_day_without_separation_is_all_hands_on() -> None:
    stack = of_stages("bbf", trays="ABC").stack
    time = time_of(stack)
    assert plan_day(stack).separating == ()
    assert time.hands == time.minutes
    assert "all hands on (common practice)" in time_line(whole_day(stack, PANTRY))


def test_two_trays_at_once_take_less_than_one_after_the_other() -> None:
    two = with_(
        bin_of(), entry("separation_begun", 199.9, tray="A"), entry("separation_begun", 199.9, tray="C")
    )
    one = with_(bin_of(), entry("separation_begun", 199.9, tray="C"))
    assert plan_day(two).separating == ("A", "C")
    both, single = (day_time(stack, 0, plan_day(stack).separating, 0) for stack in (two, one))
    alone = single.minutes.mid - day_time(one, 0, (), 0).minutes.mid
    assert single.minutes.mid < both.minutes.mid < single.minutes.mid + alone


def test_minutes_as_they_are_said() -> None:
    whole = whole_day(bin_of().stack, PANTRY)
    assert minutes_words(whole.time.minutes._replace(low=61, high=200)) == "60 min to 3.5 h"


def test_tools_go_by_what_the_day_has_in_it() -> None:
    stack = bin_of().stack
    assert "a bright light" in whole_day(stack, PANTRY).tools
    assert "bedding" in whole_day(stack, PANTRY).tools
    assert "bedding" not in whole_day(stack, PANTRY, Wish(bring=False)).tools
    quiet = of_stages("bbf", trays="ABC").stack
    assert "a bright light" not in whole_day(quiet, PANTRY).tools


def cautions(whole: Whole) -> list[str]:
    return [one.code for one in whole.cautions]


def test_cautions_go_by_the_day_and_what_is_worst_stands_first() -> None:
    stack = bin_of().stack
    assert "lifting" in cautions(whole_day(stack, PANTRY))
    assert "ammonia" not in cautions(whole_day(stack, PANTRY))
    heavy = with_(bin_of(), entry("checked", 198, tray="D", gross_kg=25))
    assert cautions(whole_day(heavy, PANTRY))[0] == "lifting"
    smelly = with_(bin_of(), entry("checked", 198, tray="D", gross_kg=25, smell="ammonia, sharp"))
    assert cautions(whole_day(smelly, PANTRY))[:2] == ["ammonia", "lifting"]
    aired = with_(bin_of(), entry("checked", 190, smell="ammonia"), entry("checked", 198, moisture_pct=70))
    assert "ammonia" not in cautions(whole_day(aired, PANTRY))


def test_what_speaks_against_it_stands_first_and_a_heavy_lift_before_the_time() -> None:
    heavy = with_(bin_of(places_beside=1, trays_on_a_place=1), entry("checked", 198, tray="D", gross_kg=25))
    lines = short_lines(whole_day(heavy, PANTRY), heavy)
    assert lines[0].startswith("This needs 4 places to put trays down, 3 more places than the bin has")
    assert lines[1].startswith("9 lifts, hardest tray D: about 25 kg, weighed")
    assert "above the limit" in lines[1]
    assert lines[2].startswith("Time: ")


def test_all_of_it_names_lifts_tools_and_cautions() -> None:
    stack = bin_of().stack
    whole = whole_day(stack, PANTRY)
    text = "\n".join(full_lines(whole, stack))
    assert all(f"{number}. Tray" in text for number in range(1, len(whole.lifts) + 1))
    assert all(tool in text for tool in whole.tools)
    assert all(caution.title in text for caution in whole.cautions)
    assert "common practice, no source" in text


def test_a_stack_left_as_it_stands_has_nothing_to_lift() -> None:
    stack = bin_of().stack
    whole = whole_day(stack, PANTRY, Wish(order=("A", "B", "C", "D")))
    assert whole.lifts == ()
    assert heaviest_line(whole, stack) == "Nothing has to be lifted."
    assert lift_rows(whole, stack) == ["Nothing has to be lifted."]
