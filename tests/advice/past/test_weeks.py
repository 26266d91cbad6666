"""The weeks of the past: Mondays by the keeper's own clock, numbered as ISO 8601 numbers them."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, timezone
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import entry, fed, stack_of, started
from trayturn.advice.past import WEEKS, Week, past_of, tally
from trayturn.advice.past.tally import Sums, monday_of, week_number
from trayturn.advice.past.words import levels, months, week_name
from trayturn.domain.entries import Entry, Fed

BERLIN = ZoneInfo("Europe/Berlin")


def weeks_at(now: datetime, *entries: Entry) -> tuple[Week, ...]:
    return past_of([(stack_of(*entries, as_of=now), tally(entries))]).weeks


def meal(at: datetime) -> Fed:
    return fed("A", at)


@given(st.dates(date(1900, 1, 1), date(2199, 12, 31)))
def test_a_week_is_the_one_of_the_standard_library(day: date) -> None:
    number = week_number(day)
    monday = monday_of(number)
    assert monday <= day < monday + timedelta(days=7)
    assert monday.isoweekday() == 1
    assert Week(monday, Sums()).iso == day.isocalendar()[:2]


@pytest.mark.parametrize(
    ("day", "year", "week"),
    [
        (date(2005, 1, 1), 2004, 53),
        (date(2005, 1, 2), 2004, 53),
        (date(2005, 12, 31), 2005, 52),
        (date(2007, 1, 1), 2007, 1),
        (date(2008, 12, 29), 2009, 1),
        (date(2010, 1, 3), 2009, 53),
        (date(2027, 1, 1), 2026, 53),
    ],
)
def test_the_turn_of_the_year_by_the_examples_of_the_standard(day: date, year: int, week: int) -> None:
    """The usual worked examples of ISO 8601 week dates; week 1 holds the year's first Thursday."""
    assert Week(monday_of(week_number(day)), Sums()).iso == (year, week)


def test_a_year_is_fifty_three_weeks_and_ends_with_the_present_one() -> None:
    weeks = weeks_at(datetime(2027, 1, 1, 9, tzinfo=UTC), started("A"))
    assert len(weeks) == WEEKS
    assert weeks[-1].iso == (2026, 53)
    assert weeks[-1].monday == date(2026, 12, 28)
    assert weeks[0].monday == date(2025, 12, 29)
    assert all(b.monday - a.monday == timedelta(days=7) for a, b in pairwise(weeks))


def test_sunday_night_and_monday_morning_are_two_weeks() -> None:
    at = [datetime(2026, 3, 29, 23, 59, tzinfo=BERLIN), datetime(2026, 3, 30, 0, 1, tzinfo=BERLIN)]
    counted = tally(map(meal, at)).weeks
    assert [counted[week_number(moment)].feedings for moment in at] == [1, 1]


@pytest.mark.parametrize("day", [date(2026, 3, 29), date(2026, 10, 25)])
def test_the_change_of_the_clocks_moves_nothing_to_another_week(day: date) -> None:
    """Europe changes its clocks on a Sunday: the week has 167 or 169 hours and holds them all."""
    monday = day - timedelta(days=6)
    start = datetime(monday.year, monday.month, monday.day, tzinfo=BERLIN)
    hours = [start.astimezone(UTC) + timedelta(hours=n) for n in range(-1, 170)]
    local = [moment.astimezone(BERLIN) for moment in hours]
    inside = [moment for moment in local if week_number(moment) == week_number(monday)]
    assert len(inside) == (167 if day.month == 3 else 169)
    assert tally(map(meal, local)).weeks[week_number(monday)].feedings == len(inside)


def test_a_moment_counts_by_the_date_its_own_offset_shows() -> None:
    """Sunday evening on Hawaii is Monday morning in Auckland, and is written as the clock there reads."""
    sunday = datetime(2026, 5, 3, 23, 30, tzinfo=timezone(timedelta(hours=-10)))
    monday = sunday.astimezone(timezone(timedelta(hours=12)))
    assert (sunday.isoweekday(), monday.isoweekday()) == (7, 1)
    assert week_number(monday) == week_number(sunday) + 1
    weeks = weeks_at(sunday, started("A"), meal(monday))
    assert weeks[-1].monday == date(2026, 5, 4), "the week of what was written is shown, though it is ahead"
    assert weeks[-1].sums.feedings == 1


def test_a_row_is_as_dark_as_its_share_of_the_most() -> None:
    assert levels([0, 1, 2, 3, 4]) == [0, 1, 2, 3, 4]
    assert levels([0, 0.1, 8]) == [0, 1, 4]
    assert levels([0, 1]) == [0, 4]
    assert levels([0, 0]) == [0, 0]
    assert levels([]) == []


def test_a_month_is_named_over_the_week_of_its_first_monday() -> None:
    weeks = weeks_at(datetime(2026, 11, 21, tzinfo=UTC), started("A"))
    line = months(weeks)
    assert len(line) == WEEKS
    for place, week in enumerate(weeks):
        if line[place : place + 3] == f"{week.monday:%b}":
            assert week.monday.day <= 7
    assert "Jan" in line
    assert line.index("Jan") == [week.monday for week in weeks].index(date(2026, 1, 5))


@pytest.mark.parametrize(
    ("monday", "name"),
    [
        (date(2026, 11, 16), "Week 47, Mon 16 to Sun 22 Nov 2026"),
        (date(2026, 10, 26), "Week 44, Mon 26 Oct to Sun 1 Nov 2026"),
        (date(2026, 12, 28), "Week 53, Mon 28 Dec 2026 to Sun 3 Jan 2027"),
    ],
)
def test_a_week_has_a_name(monday: date, name: str) -> None:
    assert week_name(Week(monday, Sums())) == name


def test_notes_count_for_nothing_but_are_found_in_their_week() -> None:
    note = entry("note", 1, text="first frost")
    counted = tally([note])
    assert counted.weeks == {}
    assert counted.written == {week_number(note.at): [note]}
