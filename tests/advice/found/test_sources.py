"""What does not belong, by source and kind: how much in a year, stopped or come again, and what to do."""

from __future__ import annotations

from typing import Any

from tests.builders import entry, moment, stack_of, started
from trayturn.advice.found.kinds import REMEDIES, counted
from trayturn.advice.found.sources import State, kinds_found, noted, open_sources, sources
from trayturn.advice.found.words import (
    kind_line,
    noted_story,
    noted_words,
    remedy_line,
    source_story,
    state_words,
)
from trayturn.domain.entries import Contaminant
from trayturn.domain.stack import Stack


def found(what: str, day: float, source: str = "", count: int = 1, **more: Any) -> Any:
    return entry("contaminant_found", day, what=what, source=source, count=count, **more)


def stopped(source: str, day: float) -> Any:
    return entry("source_stopped", day, source=source)


def a_stack(*entries: Any, day: float = 500) -> Stack:
    return stack_of(*entries, as_of=day)


def test_sources_are_ranked_by_what_came_in_within_a_year() -> None:
    stack = a_stack(
        found("tape", 10, "parcels", 90),
        found("sticker", 200, "Banana", 3),
        found("sticker", 300, "banana", 4, tray="B"),
        found("plastic", 310, "tea bags", 2),
        found("glass", 320),
    )
    ranked = sources(stack)
    assert [one.name for one in ranked] == ["banana", "tea bags", "", "parcels"]
    banana, _, unknown, parcels = ranked
    assert banana.year == {Contaminant.STICKER: 7}
    assert (banana.last_at, banana.last_tray, banana.first_at) == (moment(300), "B", moment(200))
    assert (parcels.year, parcels.ever) == ({}, {Contaminant.TAPE: 90})
    assert unknown.state is State.UNKNOWN
    assert [one.name for one in open_sources(stack)] == ["banana", "tea bags"]


def test_a_source_is_open_then_stopped_then_came_again() -> None:
    first, stop, again = found("tape", 100, "parcels"), stopped("Parcels", 110), found("tape", 150, "parcels")
    (one,) = sources(a_stack(first))
    assert (one.state, state_words(one, moment(200))) == (State.OPEN, "still open")
    (one,) = sources(a_stack(first, stop, day=140))
    assert one.state is State.STOPPED
    assert state_words(one, moment(140)) == "stopped since Fri 19 Jun, 30 days, nothing more found"
    (one,) = sources(a_stack(first, stop, again, day=160))
    assert one.state is State.AGAIN
    told = state_words(one, moment(160))
    assert told == "came again on Wed 29 Jul, 10 days ago, after you stopped it (19 Jun 2026)"
    (one,) = sources(a_stack(first, stop, again, stopped("parcels", 170)))
    assert one.state is State.STOPPED


def test_kinds_are_ranked_over_all_sources() -> None:
    stack = a_stack(
        found("tape", 10, "parcels", 90),
        found("sticker", 300, "banana", 4),
        found("sticker", 310, "apple", 5),
    )
    sticker, tape = kinds_found(stack)
    assert (sticker.kind, sticker.year, sticker.ever) == (Contaminant.STICKER, 9, 9)
    assert (tape.year, tape.ever) == (0, 90)
    assert kind_line(sticker, stack.as_of).startswith("9 stickers within a year, last on")
    assert kind_line(tape, stack.as_of).startswith("no piece of tape within a year")


def test_every_kind_has_something_to_do_about_it_with_its_source() -> None:
    assert set(REMEDIES) == set(Contaminant)
    for kind in Contaminant:
        one, line = REMEDIES[kind], remedy_line(kind)
        assert one.source in ("common practice, no source", REMEDIES[Contaminant.COATED_PAPER].source)
        assert one.do in line
        assert line.endswith(f"({one.source})")
        assert one.counted(1).startswith("1 ")
        assert one.counted(2) == f"2 {one.several}"


def test_what_can_cut_is_told_with_gloves_and_a_doctor() -> None:
    assert "gloves" in REMEDIES[Contaminant.GLASS].why
    assert "doctor" in REMEDIES[Contaminant.GLASS].why
    assert "gloves" in REMEDIES[Contaminant.METAL].why


def test_a_story_says_how_much_whether_it_stopped_and_what_to_do() -> None:
    stack = a_stack(found("tape", 10, "parcels", 2), found("sticker", 450, "parcels", 1, tray="C"))
    (one,) = sources(stack)
    story = source_story(one, stack.as_of)
    assert story[0].startswith("Parcels: 1 sticker within a year, last found on")
    assert "in tray C" in story[0]
    assert "2 pieces of tape and 1 sticker in all, since 11 Mar 2026." in story[0]
    assert story[1] == "This source: still open."
    assert len(story) == 4
    (nameless,) = sources(a_stack(found("glass", 450)))
    assert "Write down what it came in with" in source_story(nameless, moment(500))[1]


def test_amounts_are_said_the_most_first() -> None:
    assert counted({Contaminant.TAPE: 1, Contaminant.STICKER: 12}) == ["12 stickers", "1 piece of tape"]


def test_words_noted_of_passes_stand_apart_from_counts() -> None:
    note = entry(
        "pass_done", 60, tray="A", pass_number=1, worms_seen="few", overs="a cob", contaminants="a spoon"
    )
    silent = entry("pass_done", 61, tray="A", pass_number=2, worms_seen="few")
    begun = entry("separation_begun", 59, tray="A")
    stack = a_stack(started("A"), begun, note, silent)
    (one,) = noted(stack)
    assert noted_words(one) == "pieces: a cob; found: a spoon"
    assert "in no count" in " ".join(noted_story(one, stack.as_of))
    assert sources(stack) == []
