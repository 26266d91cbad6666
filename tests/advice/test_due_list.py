"""What is due at a bin, in the order in which it presses."""

from __future__ import annotations

from datetime import timedelta

import pytest
from hypothesis import given

from tests.advice.stacks import Case, cases
from tests.builders import a_usual_bin, entry, fed, moment, stack_of, started, turned
from trayturn.advice.due import Due, due_list
from trayturn.domain.entries import Entry
from trayturn.domain.stack import Stack

BEGUN = entry("separation_begun", moment(121, 9), tray="A")


def kinds(stack: Stack) -> list[str]:
    return [due.kind for due in due_list(stack)]


def first(*entries: Entry, hour: int = 10, minute: int = 0) -> Due:
    """What presses most on day 121 in the usual bin, with its separation under way."""
    return due_list(stack_of(*a_usual_bin(), BEGUN, *entries, as_of=moment(121, hour, minute)))[0]


def resting(step: str = "rest") -> Entry:
    started_at, ends_at = moment(121, 9, 45), moment(121, 10)
    made: Entry = entry("step_started", started_at, tray="A", step=step, pass_number=2, ends_at=ends_at)
    return made


def test_an_empty_bin_has_one_thing_to_do() -> None:
    (due,) = due_list(stack_of())
    assert (due.bin, due.name, due.kind, due.what) == ("pantry", "Pantry", "start", "Start the first trays.")
    assert (due.due, due.tray, due.late, due.pressing) == (None, None, False, True)


def test_what_comes_next_stands_in_the_order_of_its_day() -> None:
    dues = due_list(stack_of(*a_usual_bin(), entry("checked", 62), as_of=63, trays="ABC", tray_count=3))
    assert [(due.kind, due.due, due.late) for due in dues] == [
        ("check", moment(69), False),
        ("feed", moment(73), False),
        ("turn", moment(120), False),
    ]


def test_work_whose_day_has_come_goes_turn_feed_check_whatever_is_oldest() -> None:
    dues = due_list(stack_of(*a_usual_bin(), as_of=130))
    assert [(due.kind, due.late) for due in dues] == [("turn", True), ("feed", True), ("check", True)]
    assert dues[1].tray == "B"


def test_work_that_is_due_comes_before_what_comes_next() -> None:
    stack = stack_of(*a_usual_bin(), fed("B", 121), entry("checked", 100), as_of=122)
    assert kinds(stack) == ["turn", "check", "feed"]


def test_a_check_is_due_to_the_second() -> None:
    entries = (*a_usual_bin(), entry("checked", 62))
    due = moment(69)
    for seconds, late, what in ((1, False, "Check the bin today."), (0, True, "Check the bin now.")):
        dues = due_list(stack_of(*entries, as_of=due - timedelta(seconds=seconds)))
        (check,) = [each for each in dues if each.kind == "check"]
        assert (check.due, check.late, check.what) == (due, late, what)


def test_a_bin_never_checked_is_due_from_its_beginning() -> None:
    dues = due_list(stack_of(*a_usual_bin(), as_of=3))
    (check,) = [each for each in dues if each.kind == "check"]
    assert check.due == moment(7)
    assert "was not checked yet" in check.why[0]


def test_a_rest_that_is_over_presses_most() -> None:
    due = first(resting(), minute=8)
    assert (due.kind, due.tray, due.due, due.late) == ("rest", "A", moment(121, 10), True)
    assert due.what == "Tray A: skim now; the rest is over."
    assert due.why[0] == "Tray A: pass 2, rest ended 10:00, 8 min ago; now skim."


def test_a_rest_is_over_to_the_second() -> None:
    assert first(resting(), minute=0).late
    running = due_list(stack_of(*a_usual_bin(), BEGUN, resting(), as_of=moment(121, 9, 59)))[0]
    assert (running.kind, running.late) == ("rest", False)
    assert running.what == "Tray A: resting until 10:00, then skim."


def test_a_loosening_that_is_over_says_what_follows() -> None:
    assert first(resting("loosen")).what == "Tray A: let it rest now; the loosening is over."


@pytest.mark.parametrize(
    ("entries", "what"),
    [
        ((), "Tray A waits: get ready."),
        ((resting(), entry("step_started", moment(121, 10), tray="A", step="skim")), "Tray A waits: skim."),
        ((resting(), entry("step_ended", moment(121, 10), tray="A", step="rest")), "Tray A waits: skim."),
        ((entry("step_started", moment(121, 10), tray="A", step="clean_up"),), "Tray A waits: clean up."),
    ],
)
def test_a_separation_names_the_step_that_waits(entries: tuple[Entry, ...], what: str) -> None:
    due = first(*entries)
    assert (due.kind, due.what, due.late) == ("separation", what, True)


def test_a_turn_and_a_feeding_wait_for_the_separation() -> None:
    dues = due_list(stack_of(*a_usual_bin(), BEGUN, resting(), as_of=moment(121, 9, 50)))
    assert [(due.kind, due.late) for due in dues] == [
        ("rest", False),
        ("check", True),
        ("feed", False),
        ("turn", False),
    ]


def test_of_two_separations_the_rest_that_is_over_comes_before_one_that_runs() -> None:
    other = (
        entry("separation_begun", moment(121, 9, 1), tray="C"),
        entry("step_started", moment(121, 9, 2), tray="C", step="rest", ends_at=moment(121, 9, 40)),
    )
    dues = due_list(stack_of(*a_usual_bin(), BEGUN, *other, resting(), as_of=moment(121, 9, 50)))
    assert [due.tray for due in dues[:2]] == ["C", "A"]


def test_after_a_turn_done_first_the_tray_on_top_is_to_be_separated() -> None:
    turn = turned("BCA", 120, B="finishing", C="feeding", A="finishing")
    due = due_list(stack_of(*a_usual_bin(), turn, as_of=121))[0]
    assert (due.kind, due.tray, due.due, due.pressing) == ("separation", "A", moment(120), True)
    assert due.what == "Separate tray A: it waits on top."
    assert "separation" not in kinds(stack_of(*a_usual_bin(), as_of=121))


def test_a_bin_just_set_up_is_told_to_put_the_worms_in_first() -> None:
    worms = entry("worms_added", 0.5, worms_kg=0.5)
    assert kinds(stack_of(started("A", 0), as_of=1))[:2] == ["worms", "feed"]
    assert "worms" not in kinds(stack_of(started("A", 0), worms, as_of=1))
    assert "worms" not in kinds(stack_of(started("A", 0), fed("A", 0.5), as_of=1))


def test_without_a_feeding_tray_the_bedding_to_feed_presses() -> None:
    due = due_list(stack_of(started("A", 0), entry("worms_added", 0.5, worms_kg=0.5), as_of=1))[0]
    assert (due.kind, due.tray, due.what) == ("feed", "A", "Feed tray A: it becomes the feeding tray.")


def test_a_stack_with_room_is_told_of_it_last() -> None:
    due = due_list(stack_of(*a_usual_bin(), as_of=63))[-1]
    assert (due.kind, due.tray, due.due, due.pressing) == ("start", "D", None, False)
    assert due.why[0] == "The stack has room for 2 more trays."
    assert "start" not in kinds(stack_of(*a_usual_bin(), as_of=63, trays="ABC", tray_count=3))
    assert "start" not in kinds(stack_of(*a_usual_bin(), as_of=63, pattern="straight_up"))


@given(cases())
def test_something_always_comes_next_and_the_order_is_stable(case: Case) -> None:
    dues = due_list(case.stack)
    assert dues
    assert len({due.order for due in dues}) == len(dues)
    assert [due.order for due in dues] == sorted(due.order for due in dues)
    assert all(due.what.endswith(".") and due.why for due in dues)
