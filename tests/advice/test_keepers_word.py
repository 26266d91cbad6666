"""Put off and done: what the keeper says of due things, and that nothing is ever lost by it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.stacks import LATE, Case, cases
from tests.builders import a_usual_bin, entry, fed, moment, stack_of, started, turned
from trayturn.advice.due import KINDS, Due, Press, due_list
from trayturn.advice.due.item import DONE_BY_WORD, due_at
from trayturn.advice.due.keepers_word import heard, mark_done, put_off_a_day, take_a_day_back
from trayturn.domain.entries import Entry
from trayturn.domain.stack import Stack

BEGUN = entry("separation_begun", 121, tray="A")


def put_off(item: str, until: float, when: float = 74) -> Any:
    return entry("snoozed", when, item=item, until=moment(until))


def due(stack: Stack, item: str) -> Due:
    (one,) = [due for due in due_list(stack) if due.item == item]
    return one


def usual(*entries: Entry, as_of: float | datetime = 75) -> Stack:
    """The usual bin; its tray B is due for food on day 73, its check on day 7."""
    return stack_of(*a_usual_bin(), *entries, as_of=as_of)


def a_due(kind: str, day: float | None, press: Press = Press.NOW) -> Due:
    own = None if day is None else moment(day)
    return due_at(stack_of(as_of=0), kind, "Do it now.", ("Because.",), own, press=press)


def test_what_is_put_off_presses_no_more_and_says_until_when() -> None:
    one = due(usual(put_off("feed:B", 78)), "feed:B")
    assert (one.pressing, one.press, one.due) == (False, Press.LATER, moment(78))
    assert (one.snoozed_until, one.was_due) == (moment(78), moment(73))
    assert one.what == "Feed tray B in 3 days."
    assert one.why[0] == "Put off until Mon 18 May, in 3 days; it was due on Wed 13 May, 2 days ago."
    assert one.why[1].startswith("Tray B has been the feeding tray")


def test_it_presses_again_from_that_moment_on() -> None:
    word = put_off("feed:B", 78)
    before, then = (due(usual(word, as_of=moment(78) - timedelta(seconds=n)), "feed:B") for n in (1, 0))
    assert (before.pressing, then.pressing) == (False, True)
    assert (then.what, then.snoozed_until, then.due) == ("Feed tray B now.", None, moment(73))


def test_what_comes_later_by_itself_is_not_brought_forward() -> None:
    one = due(usual(put_off("turn", 80)), "turn")
    assert (one.due, one.snoozed_until) == (moment(120), None)
    later = due(usual(put_off("turn", 125)), "turn")
    assert (later.due, later.what) == (moment(125), "Turn the stack in 50 days.")
    assert later.why[0] == "Put off until Sat 4 Jul, in 50 days; it is due on Mon 29 Jun, in 45 days."


def test_a_thing_without_a_day_can_be_put_off_too() -> None:
    new = (started("A", 0), put_off("worms", 4, 1))
    one = due(stack_of(*new, as_of=2), "worms")
    assert (one.pressing, one.due, one.what) == (False, moment(4), "Put the worms in.")
    assert one.why[0] == "Put off until Thu 5 Mar, in 2 days; it has no day of its own."


@pytest.mark.parametrize("item", ["rest:A", "separation:A"])
def test_the_worms_of_a_separation_cannot_wait(item: str) -> None:
    at, end = moment(121, 11), moment(121, 12)
    step = entry("step_started", at, tray="A", step="rest", pass_number=1, ends_at=end)
    steps = (BEGUN, step) if item == "rest:A" else (BEGUN,)
    stack = usual(*steps, put_off(item, 130, 121), as_of=moment(121, 13))
    one = due(stack, item)
    assert one.pressing
    assert one == due(usual(*steps, as_of=moment(121, 13)), item)
    assert put_off_a_day(one, moment(121)) is None


def test_a_tray_that_waits_on_top_for_its_separation_can() -> None:
    turn = turned("BCA", 120, B="finishing", C="feeding", A="finishing")
    one = due(usual(turn, put_off("separation:A", 123, 120), as_of=121), "separation:A")
    assert (one.pressing, one.due) == (False, moment(123))


def test_doing_it_ends_the_putting_off_for_this_time() -> None:
    """Fed and checked on day 75, both are due again by their own intervals, not by the old word."""
    words = (put_off("feed:B", 95), put_off("check", 95))
    stack = usual(*words, fed("B", 75), entry("checked", 75), as_of=88)
    assert due(stack, "feed:B").due == moment(87)
    assert due(stack, "check").due == moment(82)
    assert due(usual(*words, fed("A", 75), as_of=88), "feed:B").due == moment(95)


@pytest.mark.parametrize(
    ("item", "act"),
    [
        ("turn", turned("CAB", 75, B="feeding")),
        ("separation:A", entry("separation_begun", 75, tray="A")),
        ("worms", entry("worms_added", 75, worms_kg=0.1)),
        ("start:D", started("D", 75)),
        ("supplies:grit", entry("supplies_added", 75, supplies_kg={"grit": 1})),
        ("supplies:grit", entry("supplies_counted", 75, supplies_kg={"grit": 1})),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_every_act_ends_its_own_putting_off(item: str, act: Entry) -> None:
    assert usual(put_off(item, 95)).snoozed == {item: moment(95)}
    assert usual(put_off(item, 95), put_off("other", 95), act).snoozed == {"other": moment(95)}


def test_what_came_into_stock_is_due_anew() -> None:
    done = entry("done", 74, item="supplies:grit")
    assert usual(done, entry("supplies_added", 75, supplies_kg={"grit": 1})).done == {}
    assert usual(done, fed("B", 75)).done == {"supplies:grit": moment(74)}


@pytest.mark.parametrize("kind", sorted(DONE_BY_WORD))
def test_what_is_done_stays_away_until_it_is_due_again(kind: str) -> None:
    stack = stack_of(entry("done", 10, item=kind), as_of=12)
    assert heard(a_due(kind, 9), stack) is None
    assert heard(a_due(kind, 10), stack) is None
    assert heard(a_due(kind, 10.1), stack) is not None
    assert heard(a_due(kind, None), stack) is None
    assert heard(a_due(kind, 9), stack_of(as_of=12)) is not None


@pytest.mark.parametrize("kind", sorted(set(KINDS) - DONE_BY_WORD))
def test_what_has_an_act_of_its_own_is_not_done_by_word(kind: str) -> None:
    assert heard(a_due(kind, 9), stack_of(entry("done", 10, item=kind), as_of=12)) == a_due(kind, 9)


def test_done_ahead_counts_for_the_day_it_was_due() -> None:
    word = mark_done(a_due("hatch", 20, Press.LATER), moment(12))
    assert (word.at, word.due) == (moment(12), moment(20))
    stack = stack_of(word, as_of=25)
    assert heard(a_due("hatch", 20), stack) is None
    assert heard(a_due("hatch", 21), stack) is not None
    assert mark_done(a_due("hatch", 11), moment(12)).due is None


def test_a_day_more_with_every_press_and_a_day_back() -> None:
    entries: list[Entry] = [entry("checked", 62)]
    for days in (1, 2, 3):
        word = put_off_a_day(due(usual(*entries), "check"), moment(75))
        assert word is not None
        assert word.until == moment(75 + days, 0)
        entries.append(word)
    for until in (moment(77, 0), moment(76, 0), moment(75)):
        back = take_a_day_back(due(usual(*entries), "check"), moment(75))
        assert back is not None
        assert back.until == until
        entries.append(back)
    assert due(usual(*entries), "check").pressing
    assert take_a_day_back(due(usual(*entries), "check"), moment(75)) is None


def test_what_is_not_due_yet_is_put_off_from_its_own_day_and_back_to_it() -> None:
    turn = due(usual(), "turn")
    word = put_off_a_day(turn, moment(75))
    assert word is not None
    assert word.until == moment(121, 0)
    back = take_a_day_back(due(usual(word), "turn"), moment(75))
    assert back is not None
    assert due(usual(word, back), "turn") == turn


def test_day_by_day_nothing_is_put_off_for_more_than_about_a_year() -> None:
    assert put_off_a_day(a_due("check", 10 + 365), moment(10)) is not None
    assert put_off_a_day(a_due("check", 11 + 365), moment(10)) is None


def words(stack: Stack, snooze: dict[int, float], done: dict[int, float]) -> Stack:
    """The keeper's words on some of what is due, by their place, in days from now."""
    items = [one.item for one in due_list(stack)]

    def said(chosen: dict[int, float]) -> Iterator[tuple[str, datetime]]:
        for place, days in chosen.items():
            yield items[place % len(items)], stack.as_of + timedelta(days=days)

    return replace(stack, snoozed=dict(said(snooze)), done=dict(said(done)))


places = st.dictionaries(st.integers(0, 9), st.floats(-30, 30), max_size=4)


@given(cases(), places)
def test_putting_off_loses_nothing_and_only_makes_later(case: Case, snooze: dict[int, float]) -> None:
    before = {one.item: one for one in due_list(case.stack)}
    after = {one.item: one for one in due_list(words(case.stack, snooze, {}))}
    assert set(after) == set(before)
    for item, one in after.items():
        was = before[item]
        assert one.pressing <= was.pressing
        assert was.can_wait or one == was
        if one.snoozed_until is not None:
            assert one.due == one.snoozed_until > case.stack.as_of
            assert was.due is None or one.due > was.due
            assert replace(one, why=one.why[1:], what=was.what) == replace(
                was, due=one.due, press=Press.LATER, snoozed_until=one.due, was_due=was.due
            )


@given(cases(), places, places)
def test_when_every_word_has_run_out_all_is_as_it_was(
    case: Case, snooze: dict[int, float], done: dict[int, float]
) -> None:
    said = words(case.stack, {place: -abs(days) for place, days in snooze.items()}, done)
    kept = [one for one in due_list(case.stack) if not one.done_by_word]
    assert [one for one in due_list(said) if not one.done_by_word] == kept


@given(st.sampled_from(sorted(DONE_BY_WORD)), st.floats(-90, 90), st.floats(-90, 90), st.floats(0.01, 90))
def test_what_was_done_comes_back_with_its_next_day(kind: str, own: float, now: float, later: float) -> None:
    """Whether it was done on time, late or ahead."""
    word = mark_done(a_due(kind, own), moment(now))
    stack = stack_of(word, as_of=LATE)
    assert heard(a_due(kind, own), stack) is None
    assert heard(a_due(kind, max(own, now) + later), stack) is not None


@given(cases())
def test_items_are_told_apart(case: Case) -> None:
    items = [one.item for one in due_list(case.stack)]
    assert len(set(items)) == len(items)
