"""Jobs for a rest: each with its reason from the stack, none longer than the time that is left."""

from __future__ import annotations

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.stacks import Case, cases
from tests.builders import a_profile, a_usual_bin, entry, moment
from trayturn.advice.turn_day.jobs import MOST, Job, hands_free, job_lines, job_words, jobs
from trayturn.domain.entries import Entry
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack

NOW = moment(100, 10)
HOUR = timedelta(hours=1)
SEEN = entry("checked", 99.9, sump_l=0.2)


def stack_with(*more: Entry) -> Stack:
    """A usual bin whose sump was looked at an hour ago, and these entries after it."""
    return replay(a_profile(*a_usual_bin(), SEEN, *more), NOW)


def found(stack: Stack, word: str, left: timedelta = HOUR) -> list[Job]:
    return [job for job in jobs(stack, left, NOW) if word in job.what]


def separated(tray: str, day: float, clean_up_min: float) -> list[Entry]:
    """A separation in which cleaning up took so long."""
    begun, end = moment(day, 9), moment(day, 10)
    cleaning = end - timedelta(minutes=clean_up_min)
    return [
        entry("separation_begun", begun, tray=tray),
        entry("pass_done", moment(day, 9, 30), tray=tray, pass_number=1, worms_seen="few"),
        entry("step_started", cleaning, tray=tray, step="clean_up"),
        entry("step_ended", end, tray=tray, step="clean_up"),
        entry("separation_ended", end, tray=tray, outcome="put_back"),
    ]


def test_short_bedding_stands_first_with_what_is_lacking() -> None:
    short = entry("supplies_counted", 99, supplies_kg={"shredded cardboard": 0.1})
    first = jobs(stack_with(short), HOUR, NOW)[0]
    assert "shredded cardboard" in first.what
    assert "in stock" in first.why
    assert first.urgent == 3
    plenty = entry("supplies_counted", 99, supplies_kg={"shredded cardboard": 5.0})
    assert all(job.urgent < 3 for job in jobs(stack_with(plenty), HOUR, NOW))


@pytest.mark.parametrize(("day", "named"), [(30, True), (95, False)])
def test_supplies_are_weighed_again_after_two_months(day: float, named: bool) -> None:
    counted = entry("supplies_counted", day, supplies_kg={"shredded cardboard": 5.0})
    assert bool(found(stack_with(counted), "Weigh the supplies")) is named


def test_a_lot_is_sieved_once_it_has_dried_and_not_before() -> None:
    wet = entry("lot_begun", 95, lot="C1", tray="C", kg=2.0, stage="drying")
    dry = entry("lot_begun", 80, lot="C2", tray="C", kg=2.0, stage="drying")
    assert found(stack_with(wet), "Sieve") == []
    (job,) = found(stack_with(wet, dry), "Sieve")
    assert "lot C2" in job.what
    assert job.why.startswith("It has been drying since")
    assert "(20 days)" in job.why


def test_a_lure_is_laid_on_a_lot_that_hatches() -> None:
    lot = entry("lot_begun", 70, lot="C1", tray="C", kg=2.0, stage="hatching")
    (job,) = found(stack_with(lot), "bait")
    assert job.why.startswith("It has been hatching since")


def test_a_sump_looked_at_today_is_no_job() -> None:
    assert found(stack_with(), "sump") == []
    assert found(replay(a_profile(*a_usual_bin()), NOW), "sump")


def test_washing_takes_as_long_as_the_keepers_own_clean_ups() -> None:
    spare = [entry("separation_begun", 70, tray="A"), entry("separation_ended", 70.1, tray="A")]
    few = entry("worms_added", 90, worms_kg=0.5)
    usual = found(stack_with(few, *spare), "Wash")
    assert [(job.minutes, job.basis) for job in usual] == [(5.0, "")]
    own = [*separated("C", 75, 8), *separated("C", 80, 9), *separated("C", 85, 9)]
    (job,) = found(stack_with(few, *own, *spare), "Wash")
    assert (job.minutes, job.basis) == (8.5, "as your last 3 clean-ups")
    assert "(about 8 min, as your last 3 clean-ups)" in job_words(job)


def test_nothing_is_named_while_another_tray_wants_hands() -> None:
    waits = [
        entry("separation_begun", 99.9, tray="A"),
        entry("step_started", 99.9, tray="A", step="skim", pass_number=1),
    ]
    assert hands_free([stack_with(*waits)], NOW) is None
    assert jobs(stack_with(), hands_free([stack_with()], NOW), NOW) == ()
    assert job_lines(stack_with(), timedelta(0), NOW, MOST) == ()


def test_a_tub_is_labelled_for_each_tray_that_rests() -> None:
    rest = [
        entry("separation_begun", 99.9, tray="A"),
        entry("step_started", NOW, tray="A", step="rest", pass_number=1, ends_at=NOW + HOUR),
    ]
    few = [entry("worms_added", 90, worms_kg=0.5), entry("supplies_counted", 95, supplies_kg={"grit": 1.0})]
    assert found(stack_with(*few, *rest), "Label a tub for tray A")


@given(cases(), st.integers(0, 90))
def test_every_job_fits_and_has_a_reason(case: Case, minutes: int) -> None:
    found = jobs(case.stack, timedelta(minutes=minutes), case.stack.as_of)
    assert len(found) <= MOST
    assert all(0 < job.minutes <= minutes and job.why for job in found)
    assert [job.urgent for job in found] == sorted((job.urgent for job in found), reverse=True)


def resting(tray: str, minutes: float, step: str = "rest") -> list[Entry]:
    """A separation whose step ends in so many minutes."""
    ends = NOW + timedelta(minutes=minutes)
    return [
        entry("separation_begun", 99.9, tray=tray),
        entry("step_started", 99.9, tray=tray, step=step, pass_number=1, ends_at=ends),
    ]


def test_hands_are_free_until_the_first_rest_of_any_bin_ends() -> None:
    one, other = stack_with(*resting("A", 14)), stack_with(*resting("C", 3))
    assert hands_free([one], NOW) == timedelta(minutes=14)
    assert hands_free([one, other], NOW) == timedelta(minutes=3)
    assert hands_free([stack_with(*resting("A", 14), *resting("C", 3))], NOW) == timedelta(minutes=3)
    short = jobs(one, hands_free([one, other], NOW), NOW)
    assert all(job.minutes <= 3 for job in short)
    assert any(job.minutes > 3 for job in jobs(one, hands_free([one], NOW), NOW))


@pytest.mark.parametrize("busy", [resting("C", 3, "loosen"), resting("C", 0), resting("C", -5)])
def test_hands_are_not_free_while_one_is_loosened_or_its_rest_is_over(busy: list[Entry]) -> None:
    assert hands_free([stack_with(*resting("A", 14), *busy)], NOW) is None
    assert hands_free([stack_with(*resting("A", 14)), stack_with(*busy)], NOW) is None
