"""Which bin to feed next and which tray, across bins; which bins rest, and until when."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.stacks import Case, cases
from tests.builders import a_profile, a_usual_bin, entry, fed, moment, started
from trayturn.advice.bands import Band
from trayturn.advice.contents import uneaten_kg
from trayturn.advice.due import due_list
from trayturn.advice.feeding import feed_next
from trayturn.advice.next import Next, what_next
from trayturn.advice.pantry import pantry_of
from trayturn.domain.entries import Entry
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack

NOW = 100


def a_stack(key: str, *entries: Entry, last_fed: float | None = 80, **setup: Any) -> Stack:
    """A bin whose tray A has been fed since day 50, last on the day given, turned every 200 days."""
    meals = [fed("A", last_fed)] if last_fed is not None else []
    begun = [started("A", 50, stage="feeding"), entry("worms_added", 50, worms_kg=1)]
    setup = {"name": key.title(), "days_between_turns": 200, **setup}
    return replay(a_profile(*begun, *meals, *entries, trays="AB", key=key, **setup), moment(NOW))


def ranked(*stacks: Stack) -> str:
    return " ".join(one.bin for one in what_next(stacks))


def only(stack: Stack, uneaten: Band | None = None) -> Next:
    (one,) = what_next([stack], {stack.key: uneaten})
    return one


def test_the_bin_that_waits_longest_by_its_own_interval_comes_first() -> None:
    """20 days of 10 are more than 30 of 20."""
    often = a_stack("often", last_fed=80, days_between_feedings=10)
    seldom = a_stack("seldom", last_fed=70, days_between_feedings=20)
    assert ranked(seldom, often) == ranked(often, seldom) == "often seldom"
    assert only(often).late == pytest.approx(1.0)
    assert only(seldom).late == pytest.approx(0.5)
    more = a_stack("seldom", last_fed=59, days_between_feedings=20)
    assert ranked(often, more) == "seldom often"


def test_equals_stand_by_name() -> None:
    assert ranked(a_stack("b"), a_stack("a")) == "a b"


def test_who_may_be_fed_comes_before_who_rests_and_who_rests_by_its_day() -> None:
    hungry = a_stack("hungry", last_fed=80)
    new = a_stack("new", last_fed=None)
    soon = a_stack("soon", last_fed=90)
    later = a_stack("later", last_fed=95)
    cold = a_stack("cold", entry("checked", 99, temperature_c=2), last_fed=40)
    empty = replay(a_profile(key="empty"), moment(NOW))
    assert ranked(cold, later, soon, new, empty, hungry) == "hungry new empty soon later cold"


def test_a_bin_fed_less_than_its_interval_ago_rests_until_its_day() -> None:
    one = only(a_stack("soon", last_fed=90))
    assert (one.resting, one.until, one.tray) == (True, moment(102), "A")
    assert one.what == "Rests until Thu 11 Jun."
    assert one.short == "fed 10 days ago, every 12 days"
    assert [rest.code for rest in one.rests] == ["interval"]
    due = only(a_stack("due", last_fed=88))
    assert (due.resting, due.what) == (False, "Feed tray A now.")


@pytest.mark.parametrize(
    ("found", "what", "short"),
    [
        (entry("checked", 99, temperature_c=2), "Rests until it is warmer.", "2 °C yesterday"),
        (entry("checked", 99, temperature_c=33), "Rests until it is cooler.", "33 °C yesterday"),
        (
            entry("checked", 99, tray="A", moisture_pct=93),
            "Rests until it is checked again on Mon 15 Jun.",
            "93 % moisture yesterday",
        ),
        (
            entry("checked", 99, smell="ammonia"),
            "Rests until it is checked again on Mon 15 Jun.",
            'smelled of "ammonia" yesterday',
        ),
        (entry("separation_begun", 99, tray="A"), "Rests until tray A is separated.", ""),
    ],
    ids=["cold", "hot", "wet", "smell", "separation"],
)
def test_what_is_amiss_keeps_it_resting_with_its_number(found: Entry, what: str, short: str) -> None:
    one = only(a_stack("amiss", found, last_fed=60))
    assert (one.resting, one.what, one.short) == (True, what, short)


def test_a_follow_up_keeps_it_resting_until_its_day() -> None:
    again = entry("follow_up_set", 95, code="overfed", what="See what is left", due=moment(107))
    one = only(a_stack("fed-up", again, last_fed=60))
    assert (one.what, one.until) == ("Rests until it is looked at again on Tue 16 Jun.", moment(107))
    assert one.short == "held back for a follow-up"


def test_the_longest_reason_leads_and_all_are_told() -> None:
    smell, cold = entry("checked", 99, smell="rotten"), entry("checked", 99, temperature_c=3)
    assert only(a_stack("a", smell, last_fed=99)).what == "Rests until Sat 20 Jun."
    one = only(a_stack("b", smell, cold, last_fed=99))
    assert (one.what, one.until) == ("Rests until it is warmer.", None)
    assert [rest.code for rest in one.rests] == ["cold", "smell", "interval"]
    assert all(rest.why in one.why for rest in one.rests if rest.code != "interval")


def test_the_keepers_word_counts() -> None:
    put_off = entry("snoozed", 99, item="feed:A", until=moment(103))
    one = only(a_stack("off", put_off, last_fed=80))
    assert (one.what, one.short, one.until) == ("Rests until Fri 12 Jun.", "put off by you", moment(103))
    assert one.why[0].startswith("Put off until Fri 12 Jun, in 3 days")


def test_the_reason_has_the_interval_the_scraps_left_and_the_caddy() -> None:
    caddy = entry("put_off", 98, items_kg={"melon": 2.0})
    one = only(a_stack("full", caddy, last_fed=76), Band(0.1, 0.2, 0.4))
    assert "That is 2 times its own interval between feedings." in one.why
    assert "Of the scraps in it 100 g to 400 g are still uneaten" in " ".join(one.why)
    assert "In its caddy melon 2 kg wait since Sun 7 Jun, 2 days ago." in one.why
    plain = " ".join(only(a_stack("plain", last_fed=95)).why)
    assert "caddy" not in plain
    assert "uneaten" not in plain
    assert "times its own" not in plain


def test_what_is_left_is_reckoned_for_the_tray_to_be_fed() -> None:
    profile = a_profile(*a_usual_bin())
    stack = replay(profile, moment(65))
    left = uneaten_kg(stack, pantry_of(profile))
    assert left is not None
    assert 0 < left.low < left.high < 0.5
    assert uneaten_kg(a_stack("new", last_fed=None), pantry_of(profile)) is None
    assert uneaten_kg(replay(a_profile(), moment(1)), pantry_of(profile)) is None


def test_a_bin_without_worms_gets_them_first() -> None:
    new = replay(a_profile(started("A", 99), key="new"), moment(NOW))
    one = only(new)
    assert (one.what, one.first.kind, one.resting) == ("Put the worms in.", "worms", False)
    assert ranked(new, a_stack("hungry", last_fed=87)) == "hungry new"
    assert only(replay(a_profile(), moment(1))).what == "Start the first trays."


@given(st.lists(cases(), max_size=4))
def test_every_bin_has_its_place_by_the_one_rule_of_the_due_day(some: list[Case]) -> None:
    stacks = [case.stack for case in some]
    found = what_next(stacks)
    assert len(found) == len(stacks)
    assert [one.order for one in found] == sorted(one.order for one in found)
    for stack in stacks:
        one, coming = only(stack), feed_next(stack)
        assert one.first == due_list(stack)[0]
        assert one.tray == (coming.tray or coming.instead)
        assert one.why[: len(coming.why)] == coming.why
        if coming.tray:
            assert one.resting is not coming.ready
        if one.until is not None:
            assert one.until == coming.due
