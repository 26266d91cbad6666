"""Pieces that go round: how long, what usually becomes of such, what became of them here, what to do."""

from __future__ import annotations

from typing import Any

import pytest

from tests.builders import entry, moment, stack_of, started
from trayturn.advice.found.overs import NOTES, going_round, usual, went
from trayturn.advice.found.words import over_name, over_story, went_line, went_words
from trayturn.advice.pantry import shipped_pantry
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack

PANTRY = shipped_pantry()


def carried(tray: str, to: str, day: float, what: str = "mango stone", count: int = 1, **size: float) -> Any:
    return entry("overs_carried", day, tray=tray, to=to, pieces=[{"what": what, "count": count, **size}])


def emptied(tray: str, day: float) -> tuple[Any, ...]:
    return (
        started(tray, day - 50),
        entry("separation_begun", day, tray=tray),
        entry("separation_ended", day, tray=tray),
    )


def round_and_round(turns: int) -> Stack:
    trays = "ABCDEF"
    return stack_of(*(carried(trays[n], trays[n + 1], 60 * n) for n in range(turns)), as_of=400)


def test_pieces_are_told_with_turns_days_and_tray() -> None:
    stack = stack_of(carried("A", "B", 100, count=2, size_cm=4.0), as_of=130)
    (one,) = going_round(stack, PANTRY)
    assert over_name(one.over, Units.METRIC) == "2 x mango stone, 4 cm"
    assert over_name(one.over, Units.US) == "2 x mango stone, 1.57 in"
    story = over_story(one, stack.as_of, Units.METRIC)
    assert story[0].startswith("2 x mango stone, 4 cm, in tray B: carried on once, since Tue 9 Jun (30 days)")
    assert "does no harm" in story[1]
    assert "common practice, no source" in story[2]


def test_those_that_went_round_longest_come_first() -> None:
    stack = stack_of(
        carried("A", "B", 0), carried("B", "C", 60), carried("A", "B", 70, "corn cob"), as_of=100
    )
    assert [one.over.what for one in going_round(stack, PANTRY)] == ["mango stone", "corn cob"]


@pytest.mark.parametrize(
    ("turns", "size", "word"), [(1, 3.0, "Let it go on"), (1, 9.0, "Break it up before")]
)
def test_what_to_do_follows_size(turns: int, size: float, word: str) -> None:
    (one,) = going_round(stack_of(carried("A", "B", 0, size_cm=size), as_of=10), PANTRY)
    assert one.do.startswith(word)


def test_after_many_turns_the_next_ones_are_left_out() -> None:
    assert going_round(round_and_round(2), PANTRY)[0].do.startswith("Let it")
    many = going_round(round_and_round(3), PANTRY)[0].do
    assert many.startswith("Break it up, or pick it out")
    assert "gone round 3 times" in many
    assert "no harm" in many


def test_what_went_in_the_past_tells_of_those_here_now() -> None:
    stack = stack_of(
        carried("A", "B", 0),
        *emptied("B", 61),
        carried("C", "D", 70),
        *emptied("D", 200),
        carried("E", "F", 300),
        as_of=400,
    )
    (one,) = went(stack)
    assert (one.times, one.turns) == (2, (1, 1))
    assert one.days == pytest.approx((61, 130))
    assert went_words(one) == "mango stone, 2 times: not carried on any more after 1 turn, 61 to 130 days"
    (here,) = going_round(stack, PANTRY)
    assert here.before == one
    assert went_line(one) in over_story(here, stack.as_of, Units.METRIC)
    assert went(stack_of()) == []


@pytest.mark.parametrize(
    ("what", "told"),
    [
        ("corn cobs", "several turns"),
        ("Avocado shells", "35 % lignin"),
        ("stone of an avocado", "15 % lignin"),
        ("mango stone", "several turns"),
        ("peach stone", "Stones of fruit"),
        ("chicken bone", "Bones"),
        ("squash seeds", "6 to 8 months"),
        ("egg shells", "no harm"),
    ],
)
def test_what_outlasts_turns_is_known_by_its_name(what: str, told: str) -> None:
    found = usual(what, PANTRY)
    assert found is not None
    assert told in found.what
    assert found.source


def test_other_names_are_told_by_the_table_and_unknown_ones_by_nothing() -> None:
    found = usual("banana peel", PANTRY)
    assert found is not None
    assert "judgement" in found.source
    assert usual("zzyzx", PANTRY) is None
    assert usual("rubber band", PANTRY) is None
    stack = stack_of(carried("A", "B", 0, "zzyzx"), as_of=moment(10))
    assert "not known here" in " ".join(over_story(going_round(stack, PANTRY)[0], stack.as_of, Units.METRIC))


def test_every_note_says_who_says_so() -> None:
    assert all(note.usual.source and note.usual.what.endswith(".") for note in NOTES)
