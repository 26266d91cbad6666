"""What every tray becomes at the next turn, and that the journal's own fold agrees."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given

from tests.advice.stacks import LATE, Case, cases, of_stages, turn_over
from tests.builders import (
    a_profile,
    a_usual_bin,
    codes,
    entry,
    moment,
    order,
    stack_of,
    stages,
    started,
    turned,
)
from trayturn.advice.turning import Move, fresh_entry, next_turn, turn_entries
from trayturn.domain.entries import Stage, TrayStarted, Turned
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack

STRAIGHT_UP: dict[str, Any] = {"pattern": "straight_up", "trays": "ABCD", "tray_count": 4}


def after(case: Case) -> str:
    """The stack after its turn, bottom first, a tray and the letter of its stage each: `Eb Bb Dd Cf`."""
    letters = {Stage.BEDDING: "b", Stage.FEEDING: "f", Stage.FINISHING: "d"}
    staying = sorted((m for m in next_turn(case.stack).moves if m.to_level), key=lambda m: m.to_level or 0)
    return " ".join(move.tray + letters[move.to_stage] for move in staying)


def leaving(stack: Stack) -> str:
    """The trays that leave to be separated."""
    return "".join(move.tray for move in next_turn(stack).moves if move.to_level is None)


@pytest.mark.parametrize(
    ("now", "then", "gone"),
    [
        ("f", "Ad Bf", ""),
        ("bf", "Cb Bd Af", ""),
        ("bbf", "Db Ab Cd Bf", ""),
        ("df", "Bd Cf", "A"),
        ("bdf", "Db Cd Af", "B"),
        ("bbdf", "Eb Ab Dd Bf", "C"),
        ("bbbdf", "Db Ab Bb Ed Cf", "D"),
        ("b", "Bb Af", ""),
        ("bb", "Cb Ab Bf", ""),
        ("dd", "Bd Cf", "A"),
        ("bddf", "Eb Cd Dd Af", "B"),
        ("bfbf", "Eb Ab Bd Df Cf", ""),
        ("bbbbf", "Ab Bb Cb Ed Df", ""),
        ("bbbbdf", "Ab Bb Cb Fd Df", "E"),
    ],
)
def test_bedding_below(now: str, then: str, gone: str) -> None:
    case = of_stages(now)
    assert (after(case), leaving(case.stack)) == (then, gone)


@pytest.mark.parametrize(
    ("now", "then", "gone"),
    [
        ("f", "Ad Bf", ""),
        ("df", "Ad Bd Cf", ""),
        ("ddf", "Ad Bd Cd Df", ""),
        ("dddf", "Bd Cd Dd Af", "A"),
        ("bbf", "Ab Bb Cd Df", ""),
        ("dfb", "Ad Bd Cf", ""),
        ("dddfb", "Bd Cd Dd Ef", "A"),
        ("bbbf", "Ab Bb Dd Cf", ""),
        ("ddddfd", "Ad Bd Cd Dd Ed", "F"),
    ],
)
def test_straight_up(now: str, then: str, gone: str) -> None:
    case = of_stages(now, **STRAIGHT_UP)
    assert (after(case), leaving(case.stack)) == (then, gone)


def test_the_lone_tray_of_a_set_of_one_finishes_and_nothing_is_fed() -> None:
    turn = next_turn(of_stages("f", trays="A", tray_count=1).stack)
    assert turn.moves == (Move("A", 1, 1, Stage.FEEDING, Stage.FINISHING),)
    assert (turn.fresh, turn.fed) == (None, None)
    assert turn.why[-1] == "No tray is free to come in, and no bedding waits to be fed."


def test_an_empty_stack_has_no_turn() -> None:
    turn = next_turn(stack_of())
    assert (turn.due, turn.ready, turn.moves, turn.what) == (None, False, (), "No turn yet.")
    assert turn_entries(stack_of(), moment(1)) == []


@pytest.mark.parametrize(
    ("trays", "count", "fresh"),
    [("ABCDE", 4, "E"), ("ABCD", 4, "C"), ("", 4, "C"), ("", 5, "E"), ("ABCDXE", 4, "X")],
)
def test_the_fresh_tray_is_a_spare_one_or_a_new_one_or_the_leaving_one(
    trays: str, count: int, fresh: str
) -> None:
    assert next_turn(of_stages("bbdf", trays=trays, tray_count=count).stack).fresh == fresh


def test_a_keeper_who_numbers_trays_gets_a_number() -> None:
    stack = stack_of(started("1"), started("2", level=2, stage="feeding"), trays="", as_of=10)
    assert next_turn(stack).fresh == "3"


def test_an_unlisted_spare_tray_comes_in_before_a_new_one() -> None:
    entries = (started("K"), turned("L", 1), entry("tray_started", 2, tray="M", level=2, stage="feeding"))
    assert next_turn(stack_of(*entries, trays="")).fresh == "K"


def test_a_turn_is_due_to_the_second() -> None:
    due = moment(60) + timedelta(days=60)
    before, then = (stack_of(*a_usual_bin(), as_of=due - timedelta(seconds=n)) for n in (1, 0))
    assert (next_turn(before).due, next_turn(before).ready) == (due, False)
    assert (next_turn(then).due, next_turn(then).ready) == (due, True)
    assert next_turn(before).what == "Turn the stack today."
    assert next_turn(then).what == "Turn the stack now."


def test_the_reasons_name_every_part() -> None:
    turn = next_turn(stack_of(*a_usual_bin(), as_of=90))
    assert turn.what == "Turn the stack in 30 days."
    assert turn.why == (
        "Tray B has been fed since Thu 30 Apr (30 days), and this bin is turned every 60 days. "
        "It finishes then.",
        "Tray A has been finishing since Thu 30 Apr (30 days), and leaves to be separated.",
        "Tray C, the oldest bedding, on the stack for 30 days, is fed on top.",
        "Tray D comes in with fresh bedding at the bottom.",
    )


def test_the_tray_longest_in_its_feeding_stage_sets_the_day() -> None:
    entries = (started("A", 0, stage="feeding"), started("B", 5, level=2, stage="feeding"))
    turn = next_turn(stack_of(*entries, as_of=10))
    assert turn.due == moment(60)
    assert [move.tray for move in turn.moves if move.to_stage is Stage.FINISHING] == ["A"]


def test_separated_first_the_turn_only_brings_the_fresh_tray_in() -> None:
    done = (entry("separation_begun", 119, tray="A"), entry("separation_ended", 119.2, tray="A"))
    profile = a_profile(*a_usual_bin(), *done, trays="ABC")
    stack = replay(profile, moment(120))
    assert leaving(stack) == ""
    entries = turn_entries(stack, moment(120), {"leaves": 0.4})
    assert isinstance(entries[0], TrayStarted)
    assert (entries[0].tray, entries[0].level, entries[0].bedding_kg) == ("A", 1, {"leaves": 0.4})
    assert order(replay(profile.with_entries(entries), moment(120))) == "ABC"


def test_turned_during_the_separation_the_tray_stays_on_top() -> None:
    profile = a_profile(*a_usual_bin(), entry("separation_begun", 119, tray="A"), trays="ABC")
    stack = replay(profile, moment(120))
    assert leaving(stack) == "A"
    assert next_turn(stack).what == "Turn the stack once tray A is separated."
    entries = turn_entries(stack, moment(120))
    assert [type(each) for each in entries] == [Turned]
    then = replay(profile.with_entries(entries), moment(120))
    assert (order(then), codes(then)) == ("BCA", [])
    assert stages(then) == {"B": "finishing", "C": "feeding", "A": "separating"}


def test_turned_first_the_tray_waits_on_top_and_leaves_at_last() -> None:
    profile = a_profile(*a_usual_bin(), trays="ABC")
    turned_first = profile.with_entries(turn_entries(replay(profile, moment(120)), moment(120)))
    waiting = replay(turned_first, moment(180))
    assert (order(waiting), stages(waiting)["A"], codes(waiting)) == ("BCA", "finishing", [])
    assert leaving(waiting) == "A"
    done = (entry("separation_begun", 121, tray="A"), entry("separation_ended", 121.1, tray="A"))
    stack = replay(turned_first.with_entries(done), moment(121.2))
    assert (order(stack), stages(stack)["A"], codes(stack)) == ("BC", "spare", [])


def test_straight_up_a_tray_that_waits_on_top_leaves_before_the_lowest() -> None:
    case = of_stages("dddf", **STRAIGHT_UP)
    profile = case.profile.with_entries(turn_entries(case.stack, moment(LATE)))
    with_a_new_tray = profile.with_entries([entry("tray_started", LATE, tray="E", level=4, stage="feeding")])
    stack = replay(with_a_new_tray, moment(LATE))
    assert (order(stack), leaving(stack)) == ("BCDEA", "A")


def test_no_fresh_tray_cannot_be_started() -> None:
    stack = of_stages("f", trays="A", tray_count=1).stack
    with pytest.raises(ValueError, match="brings no tray in"):
        fresh_entry(stack, next_turn(stack), moment(1))


def test_turn_after_turn_each_tray_goes_through_every_stage() -> None:
    profile = of_stages("bbdf", trays="ABCD", tray_count=4).profile
    seen = []
    for day in (160, 220, 280, 340):
        stack = replay(profile, moment(day))
        turn = next_turn(stack)
        parts = [entry(f"separation_{part}", day, tray=leaving(stack)) for part in ("begun", "ended")]
        profile = profile.with_entries([*turn_entries(stack, moment(day)), *parts])
        emptied = replay(profile, moment(day))
        profile = profile.with_entries([fresh_entry(emptied, turn, moment(day))])
        seen.append(order(replay(profile, moment(day))))
    assert seen == ["CADB", "DCBA", "BDAC", "ABCD"]
    assert replay(profile, moment(400)).findings == ()


@given(cases())
def test_no_two_trays_share_a_level_and_every_tray_has_its_place(case: Case) -> None:
    stack = case.stack
    moves = next_turn(stack).moves
    levels = [move.to_level for move in moves if move.to_level]
    assert sorted(levels) == list(range(1, len(levels) + 1))
    assert {(m.tray, m.from_level) for m in moves if m.from_level} == {(t.id, t.level) for t in stack.trays}
    assert [m.tray for m in moves if m.from_level is None] == [t for t in [next_turn(stack).fresh] if t]


@given(cases())
def test_the_entries_of_a_turn_bring_its_moves_about(case: Case) -> None:
    stack = case.stack
    turn = next_turn(stack)
    then = turn_over(case)
    moved = [(m.tray, m.to_level, m.to_stage) for m in turn.moves if m.to_level]
    assert sorted(moved) == sorted((tray.id, tray.level, tray.stage) for tray in then.trays)
    assert then.findings == stack.findings


@given(cases())
def test_a_turn_never_makes_the_stack_higher_than_the_set(case: Case) -> None:
    stack = case.stack
    size = max(stack.setup.tray_count, len(stack.listed_trays), len(stack.trays))
    staying = [move for move in next_turn(stack).moves if move.to_level]
    assert len(staying) <= size


@given(cases())
def test_the_tray_fed_after_a_turn_is_on_top_and_the_spent_one_finishes(case: Case) -> None:
    turn = next_turn(case.stack)
    if turn.fed:
        top = max((m for m in turn.moves if m.to_level), key=lambda m: m.to_level or 0)
        assert (top.tray, top.to_stage) == (turn.fed, Stage.FEEDING)
    fed_now = case.stack.in_stage(Stage.FEEDING)
    still_fed = [m for m in turn.moves if m.from_stage is m.to_stage is Stage.FEEDING]
    assert len(still_fed) == max(0, len(fed_now) - 1)
