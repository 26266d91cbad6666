"""A day's tasks: every lift can be made, every tray that stays is loosened while nothing stands on it."""

from __future__ import annotations

from hypothesis import given

from tests.advice.stacks import Case, cases, of_stages
from tests.builders import entry, fed, moment
from trayturn.advice.turn_day.moving import STACK, Moving, moving_to, spot_words
from trayturn.advice.turn_day.plan import Wish, day_entries, plan_day
from trayturn.advice.turn_day.tasks import DayView, Standing, view_day
from trayturn.domain.entries import DayStep, Entry
from trayturn.domain.replay import replay


def begun(case: Case, *more: Entry, wish: Wish | None = None) -> DayView:
    """The day under way in this bin, with these entries after its beginning."""
    profile = case.profile.with_entries([*day_entries(plan_day(case.stack, wish), moment(200)), *more])
    view = view_day(replay(profile, moment(201)))
    assert view is not None
    return view


FOUR = of_stages("bbdf", trays="ABCDE")


def test_the_tasks_of_a_usual_day() -> None:
    tasks = begun(FOUR).tasks
    assert [(task.step, task.tray) for task in tasks if task.step is not DayStep.MOVE] == [
        (DayStep.LOOK, None),
        (DayStep.LOOSEN, "A"),
        (DayStep.LOOSEN, "D"),
        (DayStep.LOOSEN, "B"),
        (DayStep.FEED, "B"),
        (DayStep.SET_ON_TOP, "C"),
        (DayStep.SEPARATE, "C"),
        (DayStep.CLOSE, None),
    ]
    assert sum(task.step is DayStep.MOVE for task in tasks) == 8
    assert [task.standing for task in tasks[:3]] == [Standing.NOW, Standing.TO_COME, Standing.TO_COME]


def test_a_step_done_makes_the_next_one_due() -> None:
    look = entry("day_step_done", 200.1, step="look")
    move = entry("day_step_done", 200.2, step="move", tray="D", number=1, skipped=True)
    view = begun(FOUR, look, move)
    assert [task.standing for task in view.tasks[:3]] == [Standing.DONE, Standing.LEFT, Standing.NOW]
    assert view.lifts_done == 1
    assert view.moving.spots(1).stack == ("A", "B", "C")


def test_feeding_and_separating_are_done_by_doing_them() -> None:
    view = begun(FOUR, fed("B", 200.5), entry("separation_begun", 200.6, tray="C"))
    assert [task.standing for task in view.of(DayStep.FEED)] == [Standing.DONE]
    assert [task.standing for task in view.of(DayStep.SET_ON_TOP)] == [Standing.DONE]
    assert [task.standing for task in view.of(DayStep.SEPARATE)] == [Standing.TO_COME]
    over = begun(FOUR, entry("separation_begun", 200.6, tray="C"), entry("separation_ended", 200.7, tray="C"))
    assert [task.standing for task in over.of(DayStep.SEPARATE)] == [Standing.DONE]
    back = begun(
        FOUR,
        entry("separation_begun", 200.6, tray="C"),
        entry("separation_ended", 200.7, tray="C", outcome="put_back"),
    )
    assert [task.standing for task in back.of(DayStep.SEPARATE)] == [Standing.LEFT]


def test_a_feeding_before_the_day_does_not_count() -> None:
    earlier = Case(FOUR.profile.with_entries([fed("D", 150), fed("B", 199)]))
    assert [task.standing for task in begun(earlier).of(DayStep.FEED)] == [Standing.TO_COME]


def test_too_few_places_say_how_many_are_lacking() -> None:
    cramped = of_stages("bbdf", trays="ABCDE", places_beside=1, trays_on_a_place=1)
    view = begun(cramped)
    assert (view.moving.lacking, view.moving.places) == (3, 4)
    assert begun(FOUR).moving.lacking == 0


def test_places_are_named_in_words() -> None:
    assert spot_words(STACK, 2) == "the stack"
    assert spot_words(2, 2) == "place 2 beside it"
    assert spot_words(1, 1) == "the place beside it"


def follow(moving: Moving, high: int) -> tuple[str, ...]:
    """The stack after all lifts; fails for one that nobody could make."""
    for number, lift in enumerate(moving.lifts):
        spots = moving.spots(number)
        if lift.source == STACK:
            assert spots.stack[-1] == lift.tray
        elif isinstance(lift.source, int):
            assert spots.places[lift.source - 1][-1] == lift.tray
        assert all(len(pile) <= high for pile in spots.places)
    return moving.spots(len(moving.lifts)).stack


@given(cases())
def test_any_day_can_be_lifted_and_every_tray_that_stays_is_loosened_once(case: Case) -> None:
    plan = plan_day(case.stack)
    if not plan.order:
        return
    view = begun(case)
    assert follow(view.moving, case.profile.bin.trays_on_a_place) == plan.order
    loosened = [task.tray for task in view.of(DayStep.LOOSEN)]
    lifted = {lift.tray for lift in view.moving.lifts if lift.tray in plan.order}
    assert len(set(loosened)) == len(loosened)
    assert lifted - set(plan.fresh) <= set(loosened) <= set(plan.order) - set(plan.fresh)
    assert view.tasks[-1].step is DayStep.CLOSE
    day = view.day
    again = moving_to(day.before, day.plan.order, plan.separating, day.stages_before, case.profile.bin)
    assert again.lifts == view.moving.lifts
