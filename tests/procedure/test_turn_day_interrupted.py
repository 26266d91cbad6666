"""A turn day that is interrupted: whatever is written meanwhile, it ends, and can be gone back in."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.advice.stacks import Case, cases, of_stages
from tests.builders import entry, fed, moment, noted, turned
from tests.procedure.test_turn_day import MINUTE, begin, errors, move, now_of
from trayturn.advice.turn_day.plan import Wish
from trayturn.advice.turn_day.tasks import Standing, view_day
from trayturn.domain.day import TurnDay
from trayturn.domain.entries import DayStep, Entry, Outcome, Stage
from trayturn.domain.profile import Profile
from trayturn.domain.replay import standing
from trayturn.domain.stack import Stack
from trayturn.procedure import separation
from trayturn.procedure.turn_day import done, left_undone
from trayturn.procedure.turn_day_back import HELD, back, separated_last, why_not_back
from trayturn.procedure.undoing import take_back

FOUR = of_stages("bbdf", trays="ABCDEF")
AT = moment(200)
ELSEWHERE = ("note", "check", "feed", "start", "take off", "put back", "finish", "separate")


def day_of(profile: Profile) -> TurnDay:
    day = now_of(profile, AT).turn_day
    assert day is not None
    return day


def after(profile: Profile, moves: int, *, skip: Sequence[DayStep] = ()) -> Profile:
    """So many presses later."""
    for press in range(1, moves + 1):
        at = AT + press * MINUTE
        view = view_day(now_of(profile, at))
        assert view is not None
        assert view.now is not None
        profile = profile.with_entries(move(profile, at, skip=view.now.step in skip))
    return profile


def up_to(profile: Profile, step: DayStep) -> Profile:
    """Press on until this step is next."""
    for press in range(40):
        view = view_day(now_of(profile, AT))
        assert view is not None
        assert view.now is not None
        if view.now.step is step:
            return profile
        profile = profile.with_entries(move(profile, AT + press * MINUTE))
    raise AssertionError(step)


def standings(profile: Profile, step: DayStep) -> list[Standing]:
    view = view_day(now_of(profile, AT))
    assert view is not None
    return [task.standing for task in view.of(step)]


def acts(profile: Profile) -> list[Entry]:
    return [one for _, one in standing(profile.journal)]


def another_window(what: str, stack: Stack) -> list[Entry]:
    """Something true that is written by another window; nothing where it cannot be."""
    at = stack.as_of
    trays = [tray.id for tray in stack.trays if tray.stage is not Stage.SEPARATING]
    spare = [tray for tray in stack.listed_trays if tray not in [one.id for one in stack.trays]]
    running = stack.separations[0] if stack.separations else None
    if what == "note":
        return [noted("the phone rang", at)]
    if what == "check" and trays:
        return [entry("checked", at, tray=trays[0], feel="damp")]
    if what == "feed" and trays:
        return [fed(trays[-1], at)]
    if what == "start" and spare:
        return [entry("tray_started", at, tray=spare[0])]
    if what == "take off" and len(trays) > 1:
        return [entry("turned", at, order=trays[1:])]
    if what in ("put back", "finish") and running is not None:
        return separation.put_back(running, at) if what == "put back" else separation.finish(running, at)
    if what == "separate" and trays:
        return separation.begin(trays[0], at)
    return []


@st.composite
def wishes(draw: st.DrawFn, case: Case) -> Wish:
    """A plan by the pattern, or any order of any of its trays by hand, in any stages."""
    bedding = draw(st.sampled_from([{}, {"straw": 0.4}]))
    if draw(st.booleans()):
        return Wish(draw(st.booleans()), draw(st.integers(0, 2)), bedding_kg=bedding)
    stack = case.stack
    names = list(dict.fromkeys([*(tray.id for tray in stack.trays), *stack.listed_trays]))
    order = draw(st.lists(st.sampled_from(names), max_size=6, unique=True)) if names else []
    stages = {name: draw(st.sampled_from([Stage.BEDDING, Stage.FEEDING, Stage.FINISHING])) for name in order}
    return Wish(order=tuple(order), stages=stages, bedding_kg=bedding)


@settings(max_examples=40, deadline=None)
@given(st.data(), cases(), st.lists(st.sampled_from(["", "", *ELSEWHERE]), max_size=12), st.booleans())
def test_any_plan_ends_whatever_is_written_meanwhile(
    data: st.DataObject, case: Case, meanwhile: list[str], clock_goes_back: bool
) -> None:
    profile = begin(case, data.draw(wishes(case)))
    at, before = AT, set(errors(case.stack))
    for press in range(120):
        stack = now_of(profile, at)
        if stack.turn_day is None:
            break
        if press < len(meanwhile):
            profile = profile.with_entries(another_window(meanwhile[press], stack))
            before |= set(errors(now_of(profile, at)))
        at += -30 * MINUTE if clock_goes_back and press % 3 == 0 else MINUTE
        profile = profile.with_entries(move(profile, at, skip=press % 7 == 6))
        assert set(errors(now_of(profile, at))) <= before
    assert now_of(profile, at).turn_day is None


@settings(max_examples=30, deadline=None)
@given(st.data(), cases(), st.integers(1, 30))
def test_going_back_leads_to_the_start_and_leaves_what_others_wrote(
    data: st.DataObject, case: Case, presses: int
) -> None:
    begun = begin(case, data.draw(wishes(case)))
    others: list[Entry] = []
    profile, at = begun, AT
    for press in range(presses):
        if (stack := now_of(profile, at)).turn_day is None:
            return
        view = view_day(stack)
        assert view is not None
        assert view.now is not None
        if view.now.step is DayStep.CLOSE:
            break
        at += MINUTE
        profile = profile.with_entries(move(profile, at))
        if press % 4 == 1:
            others.append(noted(f"at press {press}", at))
            profile = profile.with_entries(others[-1:])
    if now_of(profile, at).turn_day is None:
        return
    for _ in range(presses + 1):
        assert why_not_back(profile, day_of(profile), at) == ""
        taken = back(profile, day_of(profile), at)
        if not taken:
            break
        profile = profile.with_entries(taken)
    assert acts(profile) == [*acts(begun), *others]


def test_going_back_leaves_a_note_and_a_meal_for_another_tray() -> None:
    profile = after(begin(FOUR), 2)
    note, meal = noted("the phone rang", 201), fed("A", 201)
    later = profile.with_entries([note, meal])
    taken = back(later, day_of(later), AT)
    assert [one.entry_kind for one in taken] == ["day_step_done"]
    assert acts(later.with_entries(taken)) == [*acts(after(begin(FOUR), 1)), note, meal]


def test_the_meal_of_the_day_goes_back_with_what_it_put_off() -> None:
    profile = up_to(begin(FOUR), DayStep.FEED)
    meal = [fed("B", 201), entry("put_off", 201, items_kg={"melon": 1.0})]
    taken = back(profile.with_entries(meal), day_of(profile), AT)
    assert [one.entry_kind for one in taken] == ["put_off", "fed"]


def test_what_rests_on_a_move_is_not_pulled_away_from_under_it() -> None:
    """The fresh tray came in with the last lift; another window then fed it."""
    profile = up_to(begin(FOUR), DayStep.FEED)
    loosened = sum(one.kind == "day_step_done" for one in acts(profile)) - 1
    for _ in range(loosened):
        last = acts(profile)[-1]
        if getattr(last, "step", None) is DayStep.MOVE:
            break
        profile = profile.with_entries(back(profile, day_of(profile), AT))
    assert why_not_back(profile, day_of(profile), AT) == ""
    fed_since = profile.with_entries([fed("E", 201)])
    assert why_not_back(fed_since, day_of(fed_since), AT) == HELD


def test_a_separation_goes_back_as_its_own_screen_does() -> None:
    profile = up_to(begin(FOUR), DayStep.SET_ON_TOP)
    assert separated_last(profile, day_of(profile)) is None
    on_top = profile.with_entries(done(now_of(profile, AT), AT))
    assert separated_last(on_top, day_of(on_top)) == "C"
    assert acts(on_top.with_entries(back(on_top, day_of(on_top), AT))) == acts(profile)


def test_moving_left_undone_turns_nothing() -> None:
    profile = after(begin(FOUR), 3)
    stack = now_of(profile, AT)
    profile = profile.with_entries(left_undone(stack, AT))
    assert set(standings(profile, DayStep.MOVE)) == {Standing.DONE, Standing.LEFT}
    assert standings(profile, DayStep.FEED) == [Standing.LEFT]
    stack = now_of(profile, AT)
    assert (stack.turns, [tray.id for tray in stack.trays]) == (FOUR.stack.turns, ["A", "B", "C", "D"])
    assert acts(profile.with_entries(back(profile, day_of(profile), AT))) == acts(after(begin(FOUR), 3))


def test_what_is_not_set_on_top_is_not_separated() -> None:
    profile = up_to(begin(FOUR), DayStep.SET_ON_TOP)
    profile = profile.with_entries(left_undone(now_of(profile, AT), AT))
    assert standings(profile, DayStep.SEPARATE) == [Standing.LEFT]


def test_a_reason_is_kept_with_what_is_left_undone() -> None:
    profile = up_to(begin(FOUR), DayStep.FEED)
    (step,) = left_undone(now_of(profile, AT), AT, "no scraps")
    assert (step.kind, step.note) == ("day_step_done", "no scraps")


def test_the_tray_separated_before_the_day_is_no_task_of_it() -> None:
    gone = [entry("separation_begun", 190, tray="C"), entry("separation_ended", 191, tray="C")]
    profile = begin(Case(FOUR.profile.with_entries(gone)))
    assert standings(profile, DayStep.SEPARATE) == standings(profile, DayStep.SET_ON_TOP) == []


def test_a_separation_put_back_can_be_begun_again() -> None:
    profile = up_to(begin(FOUR), DayStep.SEPARATE)
    running = now_of(profile, AT).separation("C")
    assert running is not None
    profile = profile.with_entries(separation.put_back(running, moment(201)))
    assert standings(profile, DayStep.SEPARATE) == [Standing.LEFT]
    profile = profile.with_entries(separation.begin("C", moment(201)))
    assert standings(profile, DayStep.SEPARATE) == [Standing.NOW]


def test_a_separation_that_ran_before_and_ends_by_a_clock_set_back_is_over() -> None:
    ready = [*separation.begin("C", moment(199))]
    profile = begin(Case(FOUR.profile.with_entries(ready)))
    running = now_of(profile, AT).separation("C")
    assert running is not None
    profile = profile.with_entries(separation.finish(running, moment(198)))
    assert now_of(profile, AT).past_separations[-1].outcome is Outcome.FINISHED
    assert standings(profile, DayStep.SEPARATE) == [Standing.DONE]


def test_a_tray_brought_in_meanwhile_stays_on_the_stack() -> None:
    profile = after(begin(FOUR), 2)
    profile = profile.with_entries([entry("tray_started", now_of(profile, AT).as_of, tray="F")])
    profile = up_to(profile, DayStep.FEED)
    assert [tray.id for tray in now_of(profile, AT).trays] == ["F", "E", "A", "D", "B", "C"]


def test_a_tray_taken_off_meanwhile_is_not_started_anew() -> None:
    profile = after(begin(FOUR), 2)
    profile = profile.with_entries([turned("BCD", now_of(profile, AT).as_of)])
    profile = up_to(profile, DayStep.FEED)
    stack = now_of(profile, AT)
    assert [tray.id for tray in stack.trays] == ["E", "D", "B", "C"]
    assert [one.tray for one in profile.journal if one.kind == "tray_started"].count("A") == 1


@pytest.mark.parametrize("room", [(1, 1), (4, 3)])
def test_the_lifts_of_a_day_do_not_change_with_the_room(room: tuple[int, int]) -> None:
    profile = after(begin(FOUR), 4)
    before = view_day(now_of(profile, AT))
    setup = profile.bin.model_copy(update={"places_beside": room[0], "trays_on_a_place": room[1]})
    moved = Profile(profile.key, setup, profile.trays, profile.journal)
    after_it = view_day(now_of(moved, AT))
    assert before is not None
    assert after_it is not None
    assert before.tasks == after_it.tasks
    assert before.lifts_done > 0


def test_a_laptop_that_slept_for_a_day_goes_on_where_it_was() -> None:
    profile = after(begin(FOUR), 5)
    slept = view_day(now_of(profile, AT + timedelta(days=1)))
    woken = view_day(now_of(profile, AT + 6 * MINUTE))
    assert slept is not None
    assert woken is not None
    assert slept.now == woken.now


def test_closing_up_left_undone_ends_the_day_and_goes_back_as_one() -> None:
    profile = up_to(begin(FOUR), DayStep.CLOSE)
    ended = profile.with_entries(left_undone(now_of(profile, AT), AT))
    (day,) = now_of(ended, AT).past_turn_days
    assert [one.step for one in day.done if one.skipped] == [DayStep.CLOSE]
    assert acts(ended.with_entries(take_back(ended.journal, AT))) == acts(profile)
