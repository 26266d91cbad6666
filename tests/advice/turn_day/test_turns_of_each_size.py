"""Turns of three, four and five trays by both patterns, and any wish at all: every tray ends in its place."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.stacks import LATE, Case, cases, of_stages
from tests.advice.turn_day.test_tasks import follow
from tests.builders import entry, moment
from trayturn.advice.turn_day.counting import choices
from trayturn.advice.turn_day.moving import moving_to
from trayturn.advice.turn_day.plan import DayPlan, Wish, day_entries, plan_day, turn_now_entries
from trayturn.advice.turning import turn_entries
from trayturn.domain.entries import Entry, Stage
from trayturn.domain.replay import replay

BELOW, UP = "bedding_below", "straight_up"
USUAL = {
    # Pattern, the set, what stands bottom first: what is to stand; the tray behind the bar is separated, and
    # one behind the arrow comes back fresh. Bedding below: fresh at the bottom, oldest bedding fed on top.
    (BELOW, "ABCD", "bdf"): "DbCdAf|B",
    (BELOW, "ABCDE", "bbdf"): "EbAbDdBf|C",
    (BELOW, "ABCDEF", "bbbdf"): "FbAbBbEdCf|D",
    (BELOW, "ABC", "bdf"): "CdAf|B>B",
    # Straight up: fresh on top and fed; the lowest finishing tray leaves where the set is all on the stack.
    (UP, "ABCD", "ddf"): "AdBdCdDf|",
    (UP, "ABC", "ddf"): "BdCd|A>A",
    (UP, "ABCD", "dddf"): "BdCdDd|A>A",
    (UP, "ABCDE", "ddddf"): "BdCdDdEd|A>A",
}
LETTERS = {"b": Stage.BEDDING, "f": Stage.FEEDING, "d": Stage.FINISHING}


def said(plan: DayPlan) -> str:
    letters = {stage: letter for letter, stage in LETTERS.items()}
    order = "".join(f"{tray}{letters[plan.stages[tray]]}" for tray in plan.order)
    return f"{order}|{''.join(plan.separating)}" + (f">{plan.comes_back}" if plan.comes_back else "")


@pytest.mark.parametrize(("pattern", "trays", "stages"), USUAL)
def test_the_usual_turn(pattern: str, trays: str, stages: str) -> None:
    stack = of_stages(stages, trays=trays, pattern=pattern, tray_count=len(stages)).stack
    assert said(plan_day(stack)) == USUAL[pattern, trays, stages]


@pytest.mark.parametrize(("pattern", "trays", "stages"), USUAL)
def test_each_number_of_trays_that_can_be_had(pattern: str, trays: str, stages: str) -> None:
    stack = of_stages(stages, trays=trays, pattern=pattern, tray_count=len(stages)).stack
    for choice in choices(stack):
        plan = plan_day(stack, choice.wish)
        assert len(plan.order) + bool(plan.comes_back) == choice.number
        assert plan.fed is not None
        fed = [tray for tray, stage in plan.stages.items() if stage is Stage.FEEDING]
        assert fed == ([] if plan.fed == plan.comes_back else [plan.fed])
    assert Wish() in [choice.wish for choice in choices(stack)]


def test_what_each_number_does_is_said() -> None:
    stack = of_stages("bbdf", trays="ABCDEFG", tray_count=4).stack
    assert [(one.number, one.does) for one in choices(stack)] == [
        (3, "Tray E stays out; tray B is fed."),
        (4, "Tray E comes in with fresh bedding."),
        (5, "Spare tray F comes in too, with bedding."),
        (6, "Spare trays F and G come in too, with bedding."),
    ]
    back = of_stages("bbdf", trays="ABCD").stack
    assert [one.does for one in choices(back)] == [
        "Tray C stays out after its separation; tray B is fed.",
        "Tray C comes back fresh after its separation.",
    ]
    assert choices(of_stages("").stack) == ()


def test_one_fewer_is_suggested_where_bedding_is_lacking() -> None:
    case = of_stages("bbdf", trays="ABCDE")
    short = entry("supplies_counted", 150, supplies_kg={"shredded cardboard": 0.01})
    fewer, usual = choices(Case(case.profile.with_entries([short])).stack)
    assert fewer.why.endswith("of bedding is lacking")
    assert usual.why == ""
    plenty = entry("supplies_counted", 150, supplies_kg={"shredded cardboard": 9.0})
    assert not any(one.why for one in choices(Case(case.profile.with_entries([plenty])).stack))


def after(case: Case, entries: Sequence[Entry]) -> list[tuple[str, Stage]]:
    stack = replay(case.profile.with_entries(entries), moment(LATE))
    return [(tray.id, tray.stage) for tray in stack.trays]


@given(cases(), st.booleans())
def test_written_at_once_it_leaves_the_stack_that_the_turn_leaves(case: Case, bring: bool) -> None:
    plan = plan_day(case.stack, Wish(bring=bring))
    now = turn_now_entries(case.stack, plan, moment(LATE))
    assert after(case, now) == after(case, turn_entries(case.stack, moment(LATE), bring=bring))


@st.composite
def by_hand(draw: st.DrawFn) -> tuple[Case, Wish]:
    """Any bin, and any order of any of its trays, in any stages."""
    case = draw(cases().filter(lambda one: bool(one.stack.trays)))
    order = draw(st.lists(st.sampled_from("ABCDEFG"), min_size=1, max_size=7, unique=True))
    stages = draw(st.dictionaries(st.sampled_from("ABCDEFG"), st.sampled_from(list(LETTERS.values()))))
    return case, Wish(bring=draw(st.booleans()), order=tuple(order), stages=stages)


@given(by_hand())
def test_by_hand_every_standing_tray_is_there_once_and_what_is_separated_stays(
    given_by: tuple[Case, Wish],
) -> None:
    case, wish = given_by
    plan = plan_day(case.stack, wish)
    running = {one.tray for one in case.stack.separations}
    assert len(set(plan.whole)) == len(plan.whole)
    assert {tray.id for tray in case.stack.trays} <= set(plan.whole)
    assert running <= set(plan.separating)
    assert set(plan.stages) == set(plan.order)


@given(by_hand())
def test_by_hand_the_day_leaves_the_stack_that_was_arranged(given_by: tuple[Case, Wish]) -> None:
    case, wish = given_by
    plan = plan_day(case.stack, wish)
    if not day_entries(plan, moment(LATE)):
        return
    stood = after(case, turn_now_entries(case.stack, plan, moment(LATE)))
    assert [one for one in stood if one[0] in plan.order] == [
        (tray, plan.stages[tray]) for tray in plan.order
    ]
    assert [tray for tray, _ in stood] == list(plan.whole)


@given(by_hand(), st.integers(1, 4), st.integers(1, 3))
def test_any_lifts_leave_that_stack_and_need_no_more_room_than_is_said(
    given_by: tuple[Case, Wish], places: int, high: int
) -> None:
    case, wish = given_by
    plan = plan_day(case.stack, wish)
    setup = case.profile.bin.model_copy(update={"places_beside": places, "trays_on_a_place": high})
    before = [tray.id for tray in case.stack.trays]
    stages = {tray.id: tray.stage for tray in case.stack.trays}
    moving = moving_to(before, plan.whole, plan.separating, stages, setup)
    assert follow(moving, high) == plan.order
    assert moving.places == places + moving.lacking
    assert all(lift.target <= moving.places for lift in moving.lifts if isinstance(lift.target, int))
