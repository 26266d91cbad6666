"""The first weeks: one look at a time, counted from the worms, and none in a bin that is past them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.stacks import Case, cases
from tests.builders import a_usual_bin, entry, fed, moment, stack_of, started, turned
from tests.tui.stories import NAMES, SAMPLES, SCENARIO
from trayturn.advice.due import Due, due_list
from trayturn.advice.due.first_weeks import LOOKS, OVER_DAYS, first_day, look_of
from trayturn.advice.pages import Page
from trayturn.domain.entries import Entry
from trayturn.domain.replay import replay
from trayturn.storage.reading import load

NEW: tuple[Entry, ...] = (started("A", 0), entry("worms_added", 0.5, worms_kg=0.5), fed("A", 0.6))


def looks(*entries: Entry, day: float) -> list[Due]:
    return [due for due in due_list(stack_of(*entries, as_of=day)) if due.kind == "watch"]


def look(day: float, *more: Entry) -> tuple[str, bool] | None:
    """The code of the one look told of on that day of a new bin, and whether its day has come."""
    found = looks(*NEW, *more, day=day)
    assert len(found) <= 1
    return (found[0].code, found[0].late) if found else None


@pytest.mark.parametrize(
    ("day", "told"),
    [
        (0.6, ("day-1", False)),
        (1.4, ("day-1", False)),
        (1.5, ("day-1", True)),
        (3.4, ("day-1", True)),
        (3.5, ("day-3", True)),
        (7.5, ("week-1", True)),
        (14.6, ("week-2", True)),
        (28.5, ("week-4", True)),
        (42.4, ("week-4", True)),
        (42.5, None),
        (400, None),
    ],
)
def test_one_look_at_a_time_counted_from_the_worms(day: float, told: tuple[str, bool] | None) -> None:
    assert look(day) == told


def test_done_brings_the_next_look_when_it_is_near() -> None:
    done = entry("done", 1.6, item="watch:day-1")
    assert look(1.7, done) == ("day-3", False)
    assert look(4, entry("done", 3.6, item="watch:day-3")) is None
    assert look(5.5, entry("done", 3.6, item="watch:day-3")) == ("week-1", False)
    assert look(30, entry("done", 29, item="watch:week-4")) is None


def test_a_check_since_its_day_counts_as_the_look() -> None:
    assert look(2, entry("checked", 1.2, feel="damp")) == ("day-1", True)
    assert look(2, entry("checked", 1.7, feel="damp")) == ("day-3", False)
    assert look(9, entry("checked", 8, feel="damp")) is None
    assert look(13, entry("checked", 8, feel="damp")) == ("week-2", False)


def test_a_look_says_what_why_and_its_page() -> None:
    (due,) = looks(*NEW, day=2)
    assert (due.item, due.page, due.due) == ("watch:day-1", Page.STARTING, moment(1.5))
    assert due.what == "Lift the lid and see where the worms are."
    assert due.why[-1] == "Counted from when the bin had its tray and its worms, since Sun 1 Mar."
    (due,) = looks(*NEW, day=0.6)
    assert due.what == "Today: lift the lid and see where the worms are."
    assert look_of("week-1") is LOOKS[2]
    assert look_of("week-9") is None


def test_without_worms_written_down_the_first_tray_counts() -> None:
    assert first_day(stack_of(started("A", 0), fed("A", 1), as_of=2)) == moment(0)


@pytest.mark.parametrize(
    "entries",
    [
        (),
        (entry("worms_added", 0.5, worms_kg=0.5),),
        (*NEW, started("B", 1), turned("BA", 2)),
        (*NEW, entry("separation_begun", 2, tray="A")),
        (*NEW, entry("separation_begun", 2, tray="A"), entry("separation_ended", 2.5, tray="A")),
        (started("A", -300), fed("A", -290), entry("worms_added", 1, worms_kg=0.5)),
        (*a_usual_bin(), entry("worms_added", 61, worms_kg=0.5)),
    ],
)
def test_an_old_bin_an_empty_one_and_one_that_was_turned_have_none(entries: tuple[Entry, ...]) -> None:
    assert looks(*entries, day=70 if len(entries) > 6 else 3) == []


def test_a_bin_begun_long_ago_by_its_setup_has_none() -> None:
    stack = stack_of(*NEW, as_of=2, began=moment(-400))
    assert first_day(stack) is None


@pytest.mark.parametrize("name", NAMES)
def test_the_samples_are_past_them(name: str) -> None:
    profile = load(SAMPLES / f"{name}.toml").profile
    assert profile is not None
    assert [due for due in due_list(replay(profile, SCENARIO)) if due.kind == "watch"] == []


@given(cases(), st.floats(0, 400))
def test_there_is_never_more_than_one_nor_any_after_the_first_weeks(case: Case, day: float) -> None:
    stack = replay(case.profile, moment(day))
    found = [due for due in due_list(stack) if due.kind == "watch"]
    assert len(found) <= 1
    assert not found or day <= 150 + OVER_DAYS
