"""Times, lists and text as they are said."""

from __future__ import annotations

import unicodedata
from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import moment
from trayturn.domain import words
from trayturn.domain.setup import Units
from trayturn.domain.words import clean, countdown, listed, masses, span

NOON = datetime(2026, 3, 10, 12, 0, tzinfo=UTC)
HOSTILE = {
    "\x1b[31mred": "[31mred",
    "bell\x07": "bell",
    "a\nb\r\nc\td": "a b  c d",
    "a\u2028b\u2029c\x85d\x0be": "a b c d e",
    "\u202eabc\u202c": "abc",
    "\u2066a\u2069\u200f\u061c": "a",
    "z\u200be\u200dr\ufeffo\u2060": "zero",
    "soft\u00adhyphen": "softhyphen",
    "\ud800lone": "lone",
    "[red]{'a[0]'}[/": "[red]{'a[0]'}[/",
    "Küche 厨房 🪱": "Küche 厨房 🪱",
}


@pytest.mark.parametrize(("typed", "shown"), HOSTILE.items())
def test_clean_keeps_words_and_drops_what_a_terminal_obeys(typed: str, shown: str) -> None:
    assert clean(typed) == shown


def test_clean_cuts_with_a_mark() -> None:
    assert clean("x" * 10_000) == "x" * 10_000
    assert clean("x" * 10_000, 40) == "x" * 39 + "…"
    assert clean("x" * 40, 40) == "x" * 40


def test_unseen_characters_do_not_use_up_the_room() -> None:
    assert clean("\u200b" * 10_000 + "name", 40) == "name"
    assert clean("\x00" + "x" * 50, 40) == "x" * 39 + "…"


@given(st.text(max_size=60), st.integers(min_value=1, max_value=50))
def test_clean_text_is_one_line_within_its_limit(text: str, limit: int) -> None:
    shown = clean(text, limit)
    assert len(shown) <= limit
    assert len(shown.splitlines()) <= 1
    assert not any(unicodedata.category(ch)[0] == "C" for ch in shown)


@pytest.mark.parametrize(
    ("seconds", "said"),
    [
        (0, "0 s"),
        (40, "40 s"),
        (59.4, "59 s"),
        (59.6, "1 min"),
        (61, "1 min 1 s"),
        (210, "3 min 30 s"),
        (599.6, "10 min"),
        (615, "10 min"),
        (3599.6, "1 h"),
        (3600, "1 h"),
        (7500, "2 h 5 min"),
        (86_399.6, "1 day"),
        (3 * 86_400, "3 days"),
        (-90, "1 min 30 s"),
    ],
)
def test_spans(seconds: float, said: str) -> None:
    assert span(timedelta(seconds=seconds)) == said


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [
        (845, "14:05"),
        (59.6, "01:00"),
        (0.1, "00:01"),
        (0, "00:00"),
        (-0.5, "00:00"),
        (-500, "00:00"),
        (3599.01, "1:00:00"),
        (3600, "1:00:00"),
        (3720, "1:02:00"),
        (100 * 3600, "100:00:00"),
    ],
)
def test_countdowns_round_up_so_that_nought_means_over(seconds: float, shown: str) -> None:
    assert countdown(timedelta(seconds=seconds)) == shown


@pytest.mark.parametrize(
    ("at", "said"),
    [
        (NOON.replace(hour=0), "today"),
        (NOON.replace(hour=23, minute=59), "today"),
        (datetime(2026, 3, 9, 23, 59, tzinfo=UTC), "yesterday"),
        (datetime(2026, 3, 11, 0, 0, tzinfo=UTC), "tomorrow"),
        (datetime(2026, 3, 12, tzinfo=UTC), "Thu 12 Mar"),
        (datetime(2025, 12, 31, tzinfo=UTC), "Wed 31 Dec"),
        (datetime(2025, 3, 10, tzinfo=UTC), "Mon 10 Mar 2025"),
    ],
)
def test_days(at: datetime, said: str) -> None:
    assert words.day(at, NOON) == said


def test_days_at_the_years_end() -> None:
    eve = datetime(2026, 12, 31, 23, 50, tzinfo=UTC)
    assert words.day(eve + timedelta(minutes=20), eve) == "tomorrow"
    assert words.clock(eve + timedelta(minutes=20), eve) == "tomorrow 00:10"
    assert words.due(eve + timedelta(days=2), eve) == "in 2 days"


def test_a_day_is_the_one_where_the_keeper_stands() -> None:
    late_in_utc = datetime(2026, 3, 10, 22, 30, tzinfo=UTC)
    east = timezone(timedelta(hours=2))
    assert words.day(late_in_utc, NOON) == "today"
    assert words.day(late_in_utc, NOON.astimezone(east)) == "tomorrow"
    assert words.clock(late_in_utc, NOON.astimezone(east)) == "tomorrow 00:30"


def test_a_winter_moment_reads_in_summer_as_it_read_in_winter() -> None:
    winter, summer = timezone(timedelta(hours=1)), timezone(timedelta(hours=2))
    late = datetime(2026, 3, 28, 23, 30, tzinfo=winter)
    now = datetime(2026, 3, 29, 9, 0, tzinfo=summer)
    assert words.day(late, now) == words.due(late, now) == "yesterday"
    assert words.clock(late, now) == "yesterday 23:30"
    assert words.clock(now, late) == "tomorrow 09:00"


@pytest.mark.parametrize(
    ("days", "said"),
    [
        (0, "today"),
        (1, "tomorrow"),
        (-1, "yesterday"),
        (2, "in 2 days"),
        (-2, "2 days ago"),
        (400, "in 400 days"),
    ],
)
def test_due(days: int, said: str) -> None:
    assert words.due(NOON + timedelta(days=days), NOON) == said


def test_due_counts_midnights_not_hours() -> None:
    assert words.due(moment(1, 0, 10), moment(0, 23, 50)) == "tomorrow"
    assert words.due(moment(0, 23, 59), moment(0, 0, 0)) == "today"


def test_lists_and_counts() -> None:
    assert [listed(parts) for parts in ([], ["a"], ["a", "b"], "abc")] == ["", "a", "a and b", "a, b and c"]
    assert [words.count(n, "day") for n in (0, 1, 2)] == ["0 days", "1 day", "2 days"]
    assert words.count(2, "pass", "passes") == "2 passes"


def test_masses_name_the_heaviest_first() -> None:
    contents = {"apple": 0.25, "cabbage": 0.5, "tea": 0.01, "egg\x1bshell": 0.1}
    assert masses(contents, Units.METRIC) == "cabbage 500 g, apple 250 g, eggshell 100 g and 1 more"
    assert masses(contents, Units.METRIC, most=4).endswith("tea 10 g")
    assert masses({}, Units.US) == ""
