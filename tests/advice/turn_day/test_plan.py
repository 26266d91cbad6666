"""The plan of a turn day: by the pattern, by the keeper's wish, or by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.stacks import Case, cases, of_stages
from tests.builders import a_profile, a_usual_bin, entry, moment
from trayturn.advice.pantry import shipped_pantry
from trayturn.advice.turn_day.counting import counts
from trayturn.advice.turn_day.moving import STACK
from trayturn.advice.turn_day.plan import Wish, day_entries, plan_day, spare_trays, turn_of
from trayturn.advice.turn_day.plan_words import short_lines
from trayturn.advice.turn_day.whole import whole_day
from trayturn.domain.entries import Stage, TrayStarted, TurnDayBegun, Turned
from trayturn.domain.replay import replay


def test_the_usual_day_of_four_trays() -> None:
    plan = plan_day(of_stages("bbdf", trays="ABCDE").stack)
    assert plan.order == ("E", "A", "D", "B")
    assert plan.separating == ("C",)
    assert (plan.fresh, plan.fed, plan.left_out) == (("E",), "B", False)
    assert plan.stages == {
        "E": Stage.BEDDING,
        "A": Stage.BEDDING,
        "D": Stage.FINISHING,
        "B": Stage.FEEDING,
    }
    assert plan.whole == ("E", "A", "D", "B", "C")


def test_one_tray_fewer_leaves_the_fresh_one_out() -> None:
    plan = plan_day(of_stages("bbdf", trays="ABCDE").stack, Wish(bring=False))
    assert plan.order == ("A", "D", "B")
    assert (plan.fresh, plan.left_out) == ((), True)


def test_one_tray_more_brings_another_spare_one_in_below() -> None:
    plan = plan_day(of_stages("bbdf", trays="ABCDEFG").stack, Wish(more=1))
    assert plan.order == ("F", "E", "A", "D", "B")
    assert plan.fresh == ("E", "F")
    assert plan.stages["F"] is Stage.BEDDING


def test_the_counts_that_can_be_had() -> None:
    stack = of_stages("bbdf", trays="ABCDEFG", tray_count=4).stack
    assert {number: (w.bring, w.more) for number, w in counts(stack).items()} == {
        3: (False, 0),
        4: (True, 0),
        5: (True, 1),
        6: (True, 2),
    }


def test_a_tray_that_comes_back_only_after_its_separation_is_not_moved_in() -> None:
    plan = plan_day(of_stages("bbdf", trays="ABCD").stack)
    assert (plan.comes_back, plan.fresh, plan.order) == ("C", (), ("A", "D", "B"))
    assert plan.separating == ("C",)


def test_a_stack_arranged_by_hand() -> None:
    stack = of_stages("bbdf", trays="ABCDE").stack
    wish = Wish(order=("E", "D", "A", "B"), stages={"B": Stage.FEEDING, "D": Stage.FINISHING})
    plan = plan_day(stack, wish)
    assert (plan.order, plan.separating, plan.fresh) == (("E", "D", "A", "B"), ("C",), ("E",))
    assert plan.stages == {
        "E": Stage.BEDDING,
        "D": Stage.FINISHING,
        "A": Stage.BEDDING,
        "B": Stage.FEEDING,
    }
    assert (plan.fed, plan.by_hand, plan.wrong) == ("B", True, ())


@pytest.mark.parametrize(
    ("order", "stages", "words"),
    [
        ("AB", {"B": Stage.BEDDING}, "No tray would be fed"),
        ("ABD", {"B": Stage.FEEDING}, "Trays B and D would all be fed"),
        ("ADB", {"B": Stage.BEDDING}, "Tray B would stand on the feeding tray"),
        ("ABC", {"B": Stage.FEEDING}, "Tray D would be separated straight from feeding"),
        ("BCD", {}, "Tray A is bedding and holds no castings"),
    ],
)
def test_what_is_unwise_by_hand_is_said(order: str, stages: dict[str, Stage], words: str) -> None:
    plan = plan_day(of_stages("bbdf").stack, Wish(order=tuple(order), stages=stages))
    assert any(line.startswith(words) for line in plan.wrong), plan.wrong


def test_an_empty_stack_has_no_day() -> None:
    plan = plan_day(of_stages("").stack)
    assert (plan.order, day_entries(plan, moment(200))) == ((), [])


def test_the_entry_holds_the_whole_plan() -> None:
    stack = of_stages("bbdf", trays="ABCDE").stack
    (begun,) = day_entries(plan_day(stack, Wish(bedding_kg={"straw": 0.4})), moment(200))
    assert isinstance(begun, TurnDayBegun)
    assert (begun.order, begun.separating, begun.fresh) == (("E", "A", "D", "B", "C"), ("C",), "E")
    started, turned = turn_of(stack, begun, moment(201))
    assert isinstance(started, TrayStarted)
    assert (started.tray, started.bedding_kg, started.stage) == ("E", {"straw": 0.4}, "bedding")
    assert isinstance(turned, Turned)
    assert turned.order == ("E", "A", "D", "B", "C")
    assert turned.stages["C"] is Stage.FINISHING


def test_a_tray_separated_meanwhile_does_not_come_back_by_the_turn() -> None:
    journal = (*a_usual_bin(), entry("turn_day_begun", 70, order=[*"CBA"], separating=["A"]))
    gone = (entry("separation_begun", 70.1, tray="A"), entry("separation_ended", 70.2, tray="A"))
    stack = replay(a_profile(*journal, *gone), moment(71))
    assert stack.turn_day is not None
    (turned,) = turn_of(stack, stack.turn_day.plan, moment(71))
    assert isinstance(turned, Turned)
    assert "A" not in turned.order


@given(cases(), st.booleans(), st.integers(0, 2))
def test_any_plan_keeps_every_standing_tray_once(case: Case, bring: bool, more: int) -> None:
    stack = case.stack
    plan = plan_day(stack, Wish(bring=bring, more=more))
    assert len(set(plan.whole)) == len(plan.whole)
    assert {tray.id for tray in stack.trays} <= set(plan.whole)
    assert set(plan.stages) == set(plan.order)
    assert set(plan.fresh) == set(plan.order) - {tray.id for tray in stack.trays}
    assert not set(spare_trays(stack)) & {tray.id for tray in stack.trays}


@pytest.mark.parametrize("places", [1, 2])
def test_room_for_bringing_a_tray_back_is_asked_for_too(places: int) -> None:
    stack = of_stages("bbdf", trays="ABCD", places_beside=places, trays_on_a_place=2).stack
    whole = whole_day(stack, shipped_pantry())
    assert whole.bringing.lifts[-1].target == STACK
    assert whole.lacking == max(whole.moving.lacking, whole.bringing.lacking)
    told = [line for line in short_lines(whole, stack) if "places to put trays down" in line]
    assert bool(told) is (places == 1)
