"""What all of it adds up to: the sums of weeks are the sums of entries, whatever the offsets."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import a_profile, a_usual_bin, entry, fed, moment, started, turned, undone
from tests.strategies import journals
from trayturn.advice.past import Past, past_of, tally, tally_of
from trayturn.advice.past.words import gap_line, headings, totals, week_line
from trayturn.domain.entries import Checked, Entry, Fed, TrayStarted, Turned
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay, standing
from trayturn.domain.setup import Units


def past(*entries: Entry, now: float | datetime = 120, **setup: Any) -> Past:
    profile = a_profile(*entries, **setup)
    return past_at(profile, now if isinstance(now, datetime) else moment(now))


def past_at(profile: Profile, now: datetime) -> Past:
    kept = [entry for _, entry in standing(profile.journal) if entry.at <= now]
    return past_of([(replay(profile, now), tally(kept))])


def separated(tray: str, day: float, skimmed: float | None, weighed: float | None) -> list[Entry]:
    """A separation from its beginning to its end, on one day."""
    passed = entry("pass_done", day + 0.02, tray=tray, pass_number=1, worms_seen="many", skimmed_kg=skimmed)
    settled = entry("settled", day + 0.04, tray=tray, castings_kg=weighed)
    ended = entry("separation_ended", day + 0.05, tray=tray)
    return [entry("separation_begun", day, tray=tray), passed, settled, ended]


def test_masses_and_numbers_are_those_of_the_entries() -> None:
    told = past(
        started("A", 0, bedding_kg={"cardboard": 0.5}, stage="feeding"),
        fed("A", 1, {"cabbage": 0.5, "apple": 0.25}, bedding_kg={"cardboard": 0.1}, grit_kg=0.02),
        entry("supplies_used", 2, supplies_kg={"cardboard": 0.3}),
        entry("checked", 3, feel="damp"),
        turned("A", 4),
    )
    ever = told.ever
    assert (ever.feedings, ever.checks, ever.turns) == (1, 1, 1)
    assert (ever.scraps_kg, ever.bedding_kg, ever.grit_kg, ever.other_kg) == pytest.approx(
        (0.75, 0.6, 0.02, 0.3)
    )
    assert told.year == ever
    assert headings(told) == ("since 1 Mar 2026", "since 1 Mar 2026")


def test_what_was_taken_back_is_left_out() -> None:
    wrong = fed("A", 2)
    told = past_of(
        [
            (
                replay(profile := a_profile(started("A"), fed("A", 1), wrong, undone(wrong, 3)), moment(9)),
                tally_of(profile),
            )
        ]
    )
    assert told.ever.feedings == 1


def test_castings_are_weighed_ones_or_else_what_was_skimmed() -> None:
    bins = a_usual_bin()
    assert past(*bins, *separated("A", 70, 1.0, 1.5)).ever.castings_kg == 1.5
    assert past(*bins, *separated("A", 70, 1.0, None)).ever.castings_kg == 1.0
    assert past(*bins, *separated("A", 70, None, None)).ever.castings_kg == 0
    running = past(*bins, *separated("A", 70, 1.0, None)[:2])
    assert running.ever.castings_kg == 0, "what is still being skimmed is not yet made"
    profile = a_profile(*bins, *separated("A", 70, 1.0, 1.5))
    assert sum(one.castings_kg for one in replay(profile, moment(90)).harvests) == 1.5


def test_castings_to_scraps_only_where_both_are_known() -> None:
    told = past(*a_usual_bin(), *separated("A", 70, None, 1.0))
    assert ("castings made", "1 kg, 40 % of the scraps") in totals(told.ever, None, Units.METRIC)
    assert ("castings made", "none") in totals(past(*a_usual_bin()).ever, None, Units.METRIC)


def test_the_longest_time_without_a_check_runs_from_the_beginning_to_now() -> None:
    checks = [entry("checked", day, feel="damp") for day in (5, 25, 30)]
    told = past(started("A"), *checks, now=40)
    assert told.ever_gap is not None
    assert (told.ever_gap.since, told.ever_gap.until) == (moment(5), moment(25))
    assert gap_line(told) == "Longest without a check: 20 days, 6 Mar 2026 to 26 Mar 2026."
    later = past(started("A"), *checks, now=100)
    assert later.ever_gap is not None
    assert (later.ever_gap.since, later.ever_gap.until) == (moment(30), moment(100))
    never = past(started("A"), now=9)
    assert never.ever_gap is not None
    assert never.ever_gap.days == 9
    assert past(now=9).ever_gap is None


def test_a_gap_before_the_year_shown_is_not_of_that_year() -> None:
    checks = [entry("checked", day, feel="damp") for day in (0, 100, *range(101, 600, 5))]
    told = past(started("A"), *checks, now=598)
    assert told.ever_gap is not None
    assert told.year_gap is not None
    assert told.ever_gap.days == pytest.approx(100)
    assert told.year_gap.days == pytest.approx(5)


def test_a_year_is_less_than_all_of_it() -> None:
    told = past(started("A", stage="feeding"), fed("A", 1), fed("A", 500), now=501)
    assert (told.year.feedings, told.ever.feedings) == (1, 2)
    assert headings(told) == ("since 13 Jul 2026", "since 1 Mar 2026")


def test_a_week_is_told_in_a_sentence() -> None:
    told = past(started("A", 0, stage="feeding"), fed("A", 8), entry("checked", 9, feel="damp"), now=12)
    assert week_line(told.weeks[-1], told.as_of, Units.METRIC) == (
        "Week 11, Mon 9 to Sun 15 Mar 2026 so far: 1 feeding with 500 g of scraps and 1 check."
    )
    assert week_line(told.weeks[-2], told.as_of, Units.METRIC) == (
        "Week 10, Mon 2 to Sun 8 Mar 2026: nothing written down."
    )
    assert week_line(told.weeks[-4], told.as_of, Units.METRIC).endswith("before the bin began.")


def test_bins_add_up_and_their_longest_gap_is_that_of_one_of_them() -> None:
    one = a_profile(started("A", stage="feeding"), fed("A", 1), entry("checked", 2, feel="damp"), key="one")
    two = a_profile(started("A", 30, stage="feeding"), fed("A", 31), fed("A", 40), key="two")
    bins = [(replay(each, moment(60)), tally_of(each)) for each in (one, two)]
    told = past_of(bins)
    assert told.ever.feedings == 3
    assert told.began_at == moment(0)
    assert told.ever_gap is not None
    assert (told.ever_gap.bin, told.ever_gap.days) == ("one", 58)
    alone = [past_of([one]).weeks for one in bins]
    for together, *parts in zip(told.weeks, *alone, strict=True):
        assert together.sums.feedings == sum(part.sums.feedings for part in parts)
    with pytest.raises(ValueError, match="no bin"):
        past_of([])


def _bedding(one: Entry) -> float:
    """Bedding that an entry put into this bin: that of a tray from another bin was used there."""
    if isinstance(one, Fed) or (isinstance(one, TrayStarted) and not one.came_from):
        return sum(one.bedding_kg.values())
    return 0.0


@given(journals())
def test_the_weeks_add_up_to_the_entries_whatever_the_offsets(entries: list[Entry]) -> None:
    profile = a_profile(*entries)
    kept = [one for _, one in standing(profile.journal)]
    counted = tally_of(profile).weeks.values()
    meals = [one for one in kept if isinstance(one, Fed)]
    assert sum(week.feedings for week in counted) == len(meals)
    assert sum(week.checks for week in counted) == sum(isinstance(one, Checked) for one in kept)
    assert sum(week.turns for week in counted) == sum(isinstance(one, Turned) for one in kept)
    scraps = sum(sum(one.items_kg.values()) for one in meals)
    bedding = sum(map(_bedding, kept))
    assert sum(week.scraps_kg for week in counted) == pytest.approx(scraps)
    assert sum(week.bedding_kg for week in counted) == pytest.approx(bedding)


@given(st.lists(st.tuples(st.integers(0, 500), st.integers(-14, 14)), max_size=30), st.integers(500, 520))
def test_the_sums_of_the_year_are_those_of_its_weeks(days: list[tuple[int, int]], now: int) -> None:
    meals = [fed("A", moment(day).astimezone(timezone(timedelta(hours=offset)))) for day, offset in days]
    told = past(started("A", -1, stage="feeding"), *meals, now=now)
    first = told.weeks[0].monday
    inside = [meal for meal in meals if meal.at.date() >= first]
    assert told.year.feedings == len(inside) == sum(week.sums.feedings for week in told.weeks)
    assert told.ever.feedings == len(meals)
    assert told.year.scraps_kg == pytest.approx(0.5 * len(inside))
