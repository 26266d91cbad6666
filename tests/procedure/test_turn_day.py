"""A turn day, move by move: it always comes to its end, and every move can be taken back."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.advice.stacks import Case, cases, of_stages
from tests.builders import fed, moment
from trayturn.advice.turn_day.plan import Wish, day_entries, plan_day
from trayturn.advice.turn_day.tasks import view_day
from trayturn.domain.entries import Amount, DayOutcome, DayStep, Entry, Feel, Stage
from trayturn.domain.problems import Severity
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay_now, standing
from trayturn.domain.stack import Stack
from trayturn.procedure import separation
from trayturn.procedure.turn_day import Look, done, leave, left_undone, looked
from trayturn.procedure.undoing import take_back

FOUR = of_stages("bbdf", trays="ABCDE")
MINUTE = timedelta(minutes=1)


def begin(case: Case, wish: Wish | None = None) -> Profile:
    return case.profile.with_entries(day_entries(plan_day(case.stack, wish), moment(200)))


def now_of(profile: Profile, at: datetime) -> Stack:
    return replay_now(profile, at)


def move(profile: Profile, at: datetime, *, skip: bool = False, back: bool = False) -> list[Entry]:
    """What the next press writes: a meal for feeding, a whole separation for separating."""
    stack = now_of(profile, at)
    view = view_day(stack)
    assert view is not None
    assert view.now is not None
    task = view.now
    if skip and task.step is not DayStep.CLOSE:
        return left_undone(stack, at)
    if task.step is DayStep.FEED:
        return [fed(task.tray or "", max(at, stack.as_of))]
    if task.step is DayStep.SEPARATE and (running := stack.separation(task.tray or "")):
        end = separation.put_back if back else separation.finish
        return end(running, max(at, stack.as_of))
    if task.step is DayStep.SEPARATE:
        return left_undone(stack, at)
    return done(stack, at)


def errors(stack: Stack) -> list[str]:
    return [one.what for one in stack.findings if one.severity is Severity.ERROR]


def test_a_whole_day_leaves_the_stack_as_planned() -> None:
    profile, at = begin(FOUR, Wish(bedding_kg={"straw": 0.4})), moment(200)
    while now_of(profile, at).turn_day is not None:
        at += MINUTE
        profile = profile.with_entries(move(profile, at))
    stack = now_of(profile, at)
    assert [(tray.id, tray.stage) for tray in stack.trays] == [
        ("E", Stage.BEDDING),
        ("A", Stage.BEDDING),
        ("D", Stage.FINISHING),
        ("B", Stage.FEEDING),
    ]
    assert stack.tray("C") is not None
    assert [tray.id for tray in stack.off_stack] == ["C"]
    assert stack.turns == FOUR.stack.turns + 1
    assert [day.outcome for day in stack.past_turn_days] == [DayOutcome.FINISHED]
    assert errors(stack) == errors(FOUR.stack)


def test_the_turn_stands_with_the_last_lift_and_not_before() -> None:
    profile, at = begin(FOUR), moment(200)
    turns = []
    while (stack := now_of(profile, at)).turn_day is not None and (view := view_day(stack)) is not None:
        assert stack.turns == FOUR.stack.turns + view.moved
        turns.append(view.lifts_done)
        at += MINUTE
        profile = profile.with_entries(move(profile, at))
    assert max(turns) == 8


def test_what_is_seen_on_looking_is_written_as_checks() -> None:
    profile, at = begin(FOUR), moment(200, 11)
    look = Look(sump_l=0.4, strays=Amount.FEW, bottom=Feel.WET, smell="earthy")
    entries = looked(now_of(profile, at), look, at)
    assert [one.kind for one in entries] == ["checked", "checked", "day_step_done"]
    stack = now_of(profile.with_entries(entries), at)
    assert stack.sump.volume_l == 0.4
    bottom = stack.trays[0]
    assert bottom.last_moisture is not None
    assert bottom.last_moisture.feel is Feel.WET
    assert [one.kind for one in looked(now_of(profile, at), Look(), at)] == ["day_step_done"]


def test_a_day_can_be_left_as_it_stands() -> None:
    profile, at = begin(FOUR), moment(200, 11)
    profile = profile.with_entries(move(profile, at))
    profile = profile.with_entries(leave(now_of(profile, at), at))
    stack = now_of(profile, at)
    assert [day.outcome for day in stack.past_turn_days] == [DayOutcome.LEFT]
    assert [tray.id for tray in stack.trays] == [tray.id for tray in FOUR.stack.trays]
    assert leave(stack, at) == []
    assert done(stack, at) == []


def test_a_clock_set_back_does_not_stand_a_step_before_its_day() -> None:
    profile = begin(FOUR)
    early = moment(150)
    profile = profile.with_entries(move(profile, early))
    stack = now_of(profile, early)
    view = view_day(stack)
    assert view is not None
    assert view.now is not None
    assert view.now.step is DayStep.MOVE
    assert errors(stack) == errors(FOUR.stack)


@settings(max_examples=30, deadline=None)
@given(cases(), st.booleans(), st.lists(st.sampled_from(["do", "do", "skip", "back"]), max_size=40))
def test_any_day_comes_to_its_end_without_an_error(case: Case, bring: bool, how: list[str]) -> None:
    profile, at = begin(case, Wish(bring=bring)), moment(200)
    presses = 0
    while now_of(profile, at).turn_day is not None:
        at += MINUTE
        word = how[presses] if presses < len(how) else "do"
        profile = profile.with_entries(move(profile, at, skip=word == "skip", back=word == "back"))
        presses += 1
        assert presses < 80
    assert set(errors(now_of(profile, at))) <= set(errors(case.stack))


@settings(max_examples=25, deadline=None)
@given(cases(), st.integers(1, 25))
def test_taking_back_every_move_returns_to_the_morning(case: Case, presses: int) -> None:
    assume(not case.stack.separations)
    profile, at = begin(case), moment(200)
    before = [entry for _, entry in standing(case.profile.journal)]
    for _ in range(presses):
        if now_of(profile, at).turn_day is None:
            break
        at += MINUTE
        profile = profile.with_entries(move(profile, at))
    seen = [[entry for _, entry in standing(profile.journal)]]
    while seen[-1] != before:
        profile = profile.with_entries(take_back(profile.journal, at))
        left = [entry for _, entry in standing(profile.journal)]
        assert len(left) < len(seen[-1])
        assert left == seen[-1][: len(left)]
        seen.append(left)


@pytest.mark.parametrize("presses", range(1, 16))
def test_one_undo_takes_one_step_back(presses: int) -> None:
    profile, at = begin(FOUR), moment(200)
    for _ in range(presses):
        before = [entry for _, entry in standing(profile.journal)]
        at += MINUTE
        profile = profile.with_entries(move(profile, at))
    undone = profile.with_entries(take_back(profile.journal, at))
    after = [entry for _, entry in standing(undone.journal)]
    assert after == before


NO_SPARE = of_stages("bbdf", trays="ABCD")


def whole_day_of(case: Case, *, leave_back: bool = False) -> tuple[Stack, list[DayStep]]:
    """The stack at the end of a day gone through move by move, and the steps in their order."""
    profile, at, steps = begin(case, Wish(bedding_kg={"straw": 0.4})), moment(200), list[DayStep]()
    while (stack := now_of(profile, at)).turn_day is not None:
        view = view_day(stack)
        assert view is not None
        assert view.now is not None
        at += MINUTE
        steps.append(view.now.step)
        profile = profile.with_entries(move(profile, at, skip=leave_back and view.now.step is DayStep.BRING))
    return now_of(profile, at), list(dict.fromkeys(steps))


def test_without_a_spare_tray_the_emptied_one_comes_back_below_the_others() -> None:
    plan = plan_day(NO_SPARE.stack)
    assert (plan.comes_back, plan.at_last) == ("C", ("C", "A", "D", "B"))
    stack, steps = whole_day_of(NO_SPARE)
    assert [(tray.id, tray.stage) for tray in stack.trays] == [
        ("C", Stage.BEDDING),
        ("A", Stage.BEDDING),
        ("D", Stage.FINISHING),
        ("B", Stage.FEEDING),
    ]
    assert stack.trays[0].bedding_kg == {"straw": 0.4}
    assert steps[-3:] == [DayStep.SEPARATE, DayStep.BRING, DayStep.CLOSE]
    assert errors(stack) == errors(NO_SPARE.stack)


def test_bringing_it_back_may_be_left_for_another_day() -> None:
    stack, _ = whole_day_of(NO_SPARE, leave_back=True)
    assert [tray.id for tray in stack.trays] == ["A", "D", "B"]
    assert errors(stack) == errors(NO_SPARE.stack)


def test_where_trays_are_fed_on_top_the_one_that_comes_back_is_fed_last() -> None:
    case = of_stages("ddf", trays="ABC", pattern="straight_up", tray_count=3)
    plan = plan_day(case.stack)
    assert plan.comes_back is not None
    assert (plan.fed, plan.at_last[-1]) == (plan.comes_back, plan.comes_back)
    stack, steps = whole_day_of(case)
    assert steps[-4:] == [DayStep.SEPARATE, DayStep.BRING, DayStep.FEED, DayStep.CLOSE]
    assert (stack.trays[-1].id, stack.trays[-1].stage) == (plan.comes_back, Stage.FEEDING)
    assert stack.trays[-1].last_fed_at is not None
    assert errors(stack) == errors(case.stack)


def test_put_back_unfinished_it_does_not_come_back() -> None:
    profile, at = begin(NO_SPARE), moment(200)
    while now_of(profile, at).turn_day is not None:
        at += MINUTE
        profile = profile.with_entries(move(profile, at, back=True))
    stack = now_of(profile, at)
    assert sorted(tray.id for tray in stack.trays) == ["A", "B", "C", "D"]
    assert stack.tray("C") is not None
    assert errors(stack) == errors(NO_SPARE.stack)


def test_where_nothing_is_turned_nothing_is_brought_back() -> None:
    profile, at, steps = begin(NO_SPARE), moment(200), list[DayStep]()
    while (stack := now_of(profile, at)).turn_day is not None:
        view = view_day(stack)
        assert view is not None
        assert view.now is not None
        at += MINUTE
        steps.append(view.now.step)
        profile = profile.with_entries(move(profile, at, skip=view.now.step is DayStep.MOVE))
    assert DayStep.BRING not in steps
    assert DayStep.LOOSEN not in steps
    assert [tray.id for tray in now_of(profile, at).trays] == ["A", "B", "D"]
