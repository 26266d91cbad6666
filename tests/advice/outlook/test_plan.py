"""The keeper's habits, and the plan as entries to come."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.advice.outlook.keepers import begun, kept
from tests.builders import a_profile, a_usual_bin, entry, fed, moment, started, turned
from trayturn.advice.outlook.ahead import planned
from trayturn.advice.outlook.history import history_of
from trayturn.advice.outlook.plan import plan_of
from trayturn.advice.outlook.result import Plan
from trayturn.domain.entries import Entry, Fed, Settled, TrayStarted, Turned
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.setup import Pattern
from trayturn.domain.stack import Stack


def plan(profile: Profile, now: float) -> Plan:
    return plan_of(replay(profile, moment(now)), history_of(profile, moment(now)))


def ahead(profile: Profile, now: float, days: int, **changes: object) -> list[Entry]:
    history = history_of(profile, moment(now))
    chosen = replace(plan(profile, now), **changes)  # type: ignore[arg-type]
    whole = planned(profile, history, chosen, history.calendar.today + days)
    return [one for one in whole.journal if one.at > moment(now)]


def stack_at(profile: Profile, now: float, days: int, **changes: object) -> Stack:
    after = profile.with_entries(ahead(profile, now, days, **changes))
    return replay(after, moment(now + days, 23))


def meals(entries: list[Entry]) -> list[Fed]:
    return [one for one in entries if isinstance(one, Fed)]


def test_the_habit_of_meals() -> None:
    """Every 10 days 0.8 kg of cabbage and 0.2 kg of apple, with 0.1 kg of bedding: 0.7 kg a week."""
    each = [
        fed(
            "A",
            10.0 * n,
            {"cabbage": 0.8, "apple": 0.2},
            bedding_kg={"shredded cardboard": 0.1},
            water_kg=0.05,
        )
        for n in range(6)
    ]
    found = plan(a_profile(started("A", 0), *each), 59)
    assert found.scraps_kg_per_week == pytest.approx(0.7)
    assert found.feed_every_days == 10
    assert found.bedding_ratio == pytest.approx(0.1)
    assert found.water_ratio == pytest.approx(0.05)
    assert found.mix == pytest.approx({"cabbage": 0.8, "apple": 0.2})
    assert any("as in your last 6 meals" in said for said in found.said)


def test_too_few_meals_are_as_often_as_the_setup_has_it() -> None:
    found = plan(a_profile(started("A", 0), fed("A", 1, {"cabbage": 0.6}), days_between_feedings=12.0), 5)
    assert (found.feed_every_days, found.scraps_kg_per_week) == pytest.approx((12.0, 0.6 * 7 / 12))


def test_without_a_meal_the_area_rule_stands_in() -> None:
    """1 lb of waste a week per square foot (NC State AG-473-18): 0.78 kg on 0.16 m2."""
    found = plan(a_profile(started("A", 0)), 5)
    assert found.scraps_kg_per_week == pytest.approx(0.45359237 / 0.09290304 * 0.16, rel=1e-3)
    assert any("area rule" in said for said in found.said)


def test_a_long_pause_makes_the_weeks_leaner() -> None:
    each = [fed("A", day, {"cabbage": 1.0}) for day in (0, 10, 20)]
    profile = a_profile(started("A", 0), *each)
    assert plan(profile, 60).scraps_kg_per_week < plan(profile, 30).scraps_kg_per_week


def test_the_habit_of_turns() -> None:
    turns = [turned("AB", 50.0 * n) for n in range(1, 5)]
    found = plan(a_profile(started("A", 0), started("B", 0), *turns), 210)
    assert (found.turn_every_days, found.turn_off_days) == (50, 2)
    few = plan(a_profile(started("A", 0), started("B", 0), *turns[:2], days_between_turns=70.0), 110)
    assert (few.turn_every_days, few.turn_off_days) == (70, 7)


def test_a_temperature_of_long_ago_is_only_what_is_usual() -> None:
    read = [entry("checked", day, temperature_c=celsius) for day, celsius in ((0, 10.0), (50, 20.0))]
    profile = a_profile(started("A", 0), *read)
    assert (plan(profile, 60).celsius, plan(profile, 99).celsius) == (20.0, 15.0)
    assert plan(a_profile(started("A", 0)), 1).celsius == 20.0


def test_a_turn_is_made_as_the_turn_itself_says() -> None:
    """Four trays: the next turn is due 60 days after B began to be fed, and A leaves."""
    profile = a_profile(*a_usual_bin(), trays="ABCD", tray_count=4)
    entries = ahead(profile, 70, 60)
    (turn,) = [one for one in entries if isinstance(one, Turned)]
    assert turn.at.date() == moment(120).date()
    (settled,) = [one for one in entries if isinstance(one, Settled)]
    assert (settled.tray, settled.castings_kg) == ("A", None)
    assert [one.tray for one in entries if isinstance(one, TrayStarted)] == ["D"]
    assert [tray.id for tray in stack_at(profile, 70, 60).trays] == ["D", "B", "C"]


def test_meals_come_at_their_interval_and_to_the_fed_tray() -> None:
    entries = ahead(a_profile(*a_usual_bin()), 70, 100, feed_every_days=10.0, scraps_kg_per_week=0.7)
    days = [(meal.at - moment(0, 12)).days for meal in meals(entries)]
    assert days[:4] == [73, 83, 93, 103], "the first as the bin is set up, 12 days after the last"
    assert all(sum(meal.items_kg.values()) == pytest.approx(1.0) for meal in meals(entries))
    by_tray = [meal.tray for meal in meals(entries)]
    assert by_tray == sorted(by_tray), "B until the turn, then C"


def test_nobody_feeds_or_turns_while_away() -> None:
    gone = (moment(100), 40.0)
    entries = ahead(a_profile(*a_usual_bin()), 70, 100, away=gone)
    assert [one for one in entries if moment(100) <= one.at < moment(140)] == []
    (turn, *_) = [one for one in entries if isinstance(one, Turned)]
    assert turn.at.date() == moment(140).date()


def test_a_bin_never_fed_begins_with_its_oldest_bedding() -> None:
    profile = a_profile(started("A", 0), started("B", 1))
    assert meals(ahead(profile, 10, 20))[0].tray == "A"


def test_a_tray_under_separation_is_done_with_today() -> None:
    profile = a_profile(*a_usual_bin(), entry("separation_begun", 99, tray="A"), trays="ABC", tray_count=3)
    entries = ahead(profile, 100, 10)
    assert [one.kind for one in entries][:2] == ["settled", "separation_ended"]


@pytest.mark.parametrize("trays", [2, 3, 5])
def test_the_stack_comes_to_the_number_of_trays_planned(trays: int) -> None:
    stack = stack_at(kept(130), 130, 400, trays=trays)
    assert len(stack.trays) == trays


@settings(max_examples=40)
@given(
    st.integers(0, 3).flatmap(lambda n: st.tuples(st.just(n), st.integers(10, 90))),
    st.sampled_from(Pattern),
    st.floats(0.5, 40),
    st.floats(5, 120),
)
def test_a_plan_of_any_bin_is_sound(
    begins: tuple[int, int], pattern: Pattern, feed_every: float, turn_every: float
) -> None:
    """Replaying it finds nothing wrong, and no day runs back."""
    trays, now = begins
    entries = [started(name, n) for n, name in enumerate("ABC"[:trays])]
    profile = a_profile(*entries, trays="ABC", tray_count=3, pattern=pattern)
    coming = ahead(profile, now, 200, feed_every_days=feed_every, turn_every_days=turn_every)
    assert [one.at for one in coming] == sorted(one.at for one in coming)
    after = replay(profile.with_entries(coming), moment(now + 200, 23))
    assert [f.code for f in after.findings if f.code not in ("two-on-one-level",)] == []
    assert bool(coming) == bool(trays)


def test_without_turns_only_meals_come() -> None:
    profile = begun()
    history = history_of(profile, moment(2))
    whole = planned(profile, history, plan(profile, 2), 200, turns=False)
    coming = [one for one in whole.journal if one.at > moment(2)]
    assert {one.kind for one in coming} == {"fed"}
