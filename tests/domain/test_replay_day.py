"""A turn day in the journal: its plan, its steps, and how it ended."""

from tests.builders import a_profile, entry, moment, started, undone
from trayturn.domain.entries import DayOutcome, DayStep, Entry, Stage
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack

TRAYS = (started("A", 0, stage="feeding"), started("B", 1))
BEGUN = entry("turn_day_begun", 60, order=["B", "A"], separating=["A"])


def after(*entries: Entry) -> Stack:
    return replay(a_profile(*TRAYS, *entries), moment(61))


def done(step: str, hour: int = 11, **fields: object) -> Entry:
    made: Entry = entry("day_step_done", moment(60, hour), step=step, **fields)
    return made


def test_a_day_keeps_its_plan_and_how_the_stack_stood() -> None:
    day = after(BEGUN).turn_day
    assert day is not None
    assert (day.begun_at, day.before, day.plan.order) == (moment(60), ("B", "A"), ("B", "A"))
    assert day.stages_before == {"B": Stage.BEDDING, "A": Stage.FEEDING}


def test_steps_stand_in_order_and_tell_their_tray_and_number() -> None:
    day = after(
        BEGUN, done("look"), done("move", tray="A", number=1), done("move", tray="B", number=2)
    ).turn_day
    assert day is not None
    assert [one.step for one in day.done] == [DayStep.LOOK, DayStep.MOVE, DayStep.MOVE]
    assert [one.tray for one in day.steps(DayStep.MOVE)] == ["A", "B"]


def test_the_same_step_twice_stands_once() -> None:
    stack = after(BEGUN, done("look"), done("look", 12))
    assert stack.turn_day is not None
    assert len(stack.turn_day.done) == 1
    assert [finding.code for finding in stack.findings] == ["day-step-twice"]


def test_an_ended_day_is_past() -> None:
    stack = after(BEGUN, done("look"), entry("turn_day_ended", moment(60, 13)))
    assert stack.turn_day is None
    (day,) = stack.past_turn_days
    assert (day.outcome, day.ended_at) == (DayOutcome.FINISHED, moment(60, 13))


def test_a_second_day_leaves_the_first_as_it_stood() -> None:
    stack = after(BEGUN, entry("turn_day_begun", moment(60, 15), order=["A", "B"]))
    assert [day.outcome for day in stack.past_turn_days] == [DayOutcome.LEFT]
    assert stack.turn_day is not None


def test_a_step_without_a_day_is_a_finding() -> None:
    assert [finding.code for finding in after(done("look")).findings] == ["no-turn-day"]
    assert [finding.code for finding in after(entry("turn_day_ended", 60)).findings] == ["no-turn-day"]


def test_undo_takes_a_step_back() -> None:
    look = done("look")
    day = after(BEGUN, look, undone(look, 60.5)).turn_day
    assert day is not None
    assert day.done == ()


def test_a_clock_set_back_stands_no_step_before_its_day() -> None:
    """The steps of the day, and the separations that belong to it, were written after it had begun."""
    slow = moment(59)
    early = entry("day_step_done", slow, step="look")
    on_top = entry("separation_begun", slow, tray="A")
    stack = after(BEGUN, early, on_top)
    assert stack.findings == ()
    assert stack.turn_day is not None
    assert [one.step for one in stack.turn_day.done] == [DayStep.LOOK]
    assert stack.turn_day.before == ("B", "A")
    assert stack.separation("A") is not None
    assert after(BEGUN, early, entry("turn_day_ended", slow)).turn_day is None


def test_what_does_not_belong_to_the_day_keeps_its_own_time() -> None:
    other = entry("separation_begun", moment(59), tray="B")
    day = after(BEGUN, other).turn_day
    assert day is not None
    assert day.stages_before["B"] is Stage.SEPARATING
