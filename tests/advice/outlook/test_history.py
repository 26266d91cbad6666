"""From the journal to what drives the model: days, makeup, trays, worms, the sump and the warmth."""

from __future__ import annotations

from datetime import UTC, timedelta, timezone
from typing import TypeVar

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import a_profile, a_usual_bin, entry, fed, moment, started, turned, undone
from tests.strategies import journals
from trayturn.advice.outlook import makeup
from trayturn.advice.outlook.calendar import Calendar, calendar_of
from trayturn.advice.outlook.history import History, history_of
from trayturn.advice.outlook.thumb import solids_in
from trayturn.advice.pantry import shipped_pantry
from trayturn.domain.entries import Entry
from trayturn.domain.replay import replay
from trayturn.science.materials import load_materials
from trayturn.science.process.events import (
    Emptied,
    Event,
    Put,
    Separate,
    SumpEmptied,
    Turn,
    WormsPut,
    WormsTaken,
)

E = TypeVar("E", bound=Event)


def history(*entries: Entry, now: float = 100) -> History:
    return history_of(a_profile(*entries), moment(now))


def kinds(found: History) -> list[str]:
    return [type(event).__name__ for event in found.events]


def of(found: History, kind: type[E]) -> list[E]:
    return [event for event in found.events if isinstance(event, kind)]


def separation(tray: str, day: float, **settled: object) -> list[Entry]:
    return [
        entry("separation_begun", day, tray=tray),
        entry("settled", moment(day, 11), tray=tray, **settled),
        entry("separation_ended", moment(day, 12), tray=tray),
    ]


@given(st.integers(0, 400), st.integers(0, 23), st.integers(0, 59))
def test_a_moment_rounds_to_its_day_and_keeps_its_hour(day: int, hour: int, minute: int) -> None:
    calendar = calendar_of([moment(0)], moment(500))
    at = calendar.day(moment(day, hour, minute))
    assert round(at) == day
    assert calendar.day(moment(day, 23, 59)) >= at >= calendar.day(moment(day, 0))
    assert calendar.day(calendar.noon(day)) == pytest.approx(day + 0.2)


def test_days_are_those_of_the_keepers_clock() -> None:
    calendar = calendar_of([], moment(3))
    assert calendar == Calendar(moment(3).date(), moment(3))
    late = moment(3, 23, 30).astimezone(UTC)
    assert round(calendar.day(late.astimezone(timezone(timedelta(hours=9))))) == 0


def test_a_clock_set_back_makes_nothing_later_than_today() -> None:
    """Half past midnight in summer time is before twenty to twelve in winter time, of the day before."""
    now = moment(9, 23, 40)
    ahead = (now - timedelta(minutes=10)).astimezone(timezone(timedelta(hours=2)))
    assert ahead.date() > now.date()
    calendar = calendar_of([moment(0)], now)
    assert round(calendar.day(ahead)) == calendar.today == 9
    assert round(calendar.day(now + timedelta(minutes=30))) == 10


def test_a_meal_is_split_by_the_table_of_ingredients() -> None:
    """Cabbage 92.18 % water and apple 85.56 % (USDA SR28); cardboard 8 % water and slow."""
    rows = {row.name: row for row in load_materials().rows}
    meal = makeup.scraps({"cabbage": 1.0, "avocado stone": 0.1}, shipped_pantry())
    assert meal.quick_kg == pytest.approx(1 - (rows["cabbage"].moisture or 0))
    assert meal.resistant_kg == pytest.approx(0.1 * (1 - 0.525))
    dry = makeup.bedding({"shredded cardboard": 0.5}, shipped_pantry())
    assert (dry.slow_kg, dry.water_kg) == pytest.approx((0.46, 0.04))
    both = meal + dry
    assert both.solids_kg + both.water_kg == pytest.approx(1.6)


def test_what_is_not_known_has_a_stand_in() -> None:
    pantry = shipped_pantry()
    assert makeup.scraps({"xyzzy": 1.0}, pantry) == makeup.scraps({"kitchen scraps": 1.0}, pantry)
    assert makeup.bedding({"xyzzy": 1.0}, pantry).slow_kg == pytest.approx(0.92)
    assert makeup.bedding({"egg shell": 1.0}, pantry).inert_kg == pytest.approx(0.838)
    found = history(started("A", 0), fed("A", 1, {"xyzzy": 0.5}))
    assert any("xyzzy" in said for said in found.assumed)


def test_a_first_turn_and_what_it_holds() -> None:
    found = history(*a_usual_bin())
    puts = of(found, Put)
    assert sum(1 for put in puts if put.quick_kg) == 5
    assert [turn.order for turn in of(found, Turn)][-1] == ("C", "A", "B")
    total = 0.5 * 3 + 0.5 * 5
    held = sum(p.quick_kg + p.slow_kg + p.resistant_kg + p.water_kg for p in puts)
    assert held == pytest.approx(total), "all that went in, and nothing else"


@given(journals())
def test_the_order_of_the_trays_is_that_of_the_replay(journal: list[Entry]) -> None:
    profile = a_profile(*journal, trays="")
    found, stack = history_of(profile, moment(30_000)), replay(profile, moment(30_000))
    turns = of(found, Turn)
    order = turns[-1].order if turns else ()
    assert order == tuple(tray.id for tray in stack.trays)
    days = [event.day for event in found.events if not isinstance(event, SumpEmptied | WormsPut)]
    assert days == sorted(days)
    assert all(found.drive.start <= event.day <= found.drive.end for event in found.events)


def test_what_the_replay_refuses_counts_for_nothing() -> None:
    good = (started("A", 0), fed("A", 1))
    bad = (started("A", 2), fed("B", 3), entry("settled", 4, tray="A", castings_kg=3.0))
    assert history(*good, *bad).events == history(*good).events


def test_what_was_taken_back_or_lies_ahead_counts_for_nothing() -> None:
    good = (entry("checked", 0, temperature_c=18.0), started("A", 0), fed("A", 1))
    meal = fed("A", 5)
    assert history(*good, meal, undone(meal, 6)).events == history(*good).events
    assert history(*good, fed("A", 400)).events == history(*good).events
    assert history(*good, fed("A", 400)).celsius == history(*good).celsius


def test_a_separation_takes_the_castings_and_the_overs_go_to_the_fed_tray() -> None:
    done = separation("A", 80, castings_kg=3.0)
    found = history(*a_usual_bin(), *done)
    (separate,) = of(found, Separate)
    assert (separate.tray, separate.overs_to) == ("A", "B")
    named = history(*a_usual_bin(), *separation("A", 80, overs_to="into tray C"))
    assert of(named, Separate)[0].overs_to == "C"
    assert of(found, Turn)[-1].order == ("C", "B")


def test_a_tray_put_back_gives_nothing() -> None:
    back = [
        entry("separation_begun", 80, tray="A"),
        entry("separation_ended", moment(80, 12), tray="A", outcome="put_back"),
    ]
    found = history(*a_usual_bin(), *back)
    assert of(found, Separate) == []
    assert of(found, Turn)[-1].order == ("C", "A", "B")


def test_a_tray_begun_afresh_is_empty_first() -> None:
    again = (*a_usual_bin(), *separation("A", 80), started("A", 90))
    found = history(*again)
    assert [event.tray for event in of(found, Emptied)] == ["A"]
    assert len(of(found, Separate)) == 1
    events = found.events
    assert solids_in(events, "A", 95) == pytest.approx(0.46)
    assert solids_in(events, "A", 79) > 0.5


def test_a_tray_begun_afresh_without_its_separation_keeps_its_worms() -> None:
    found = history(*a_usual_bin(), turned("CB", 80), started("A", 90))
    assert [event.tray for event in of(found, Separate)] == ["A"]


def test_a_tray_without_bedding_written_down_is_taken_as_full() -> None:
    found = history(started("A", 0, bedding_kg={}), fed("A", 1))
    assert of(found, Put)[0].slow_kg == pytest.approx(0.48 * 0.92)
    assert any("How much bedding went into tray A" in said for said in found.assumed)
    came_in = history(started("A", 0), turned("BA", 10))
    assert any("tray B" in said for said in came_in.assumed)


def test_worms_in_out_and_never_written_down() -> None:
    found = history(
        started("A", 0),
        entry("worms_added", 0, worms_kg=0.5),
        entry("worms_removed", 9, worms_kg=0.1),
        fed("A", 1),
    )
    assert [event.kg for event in of(found, WormsPut)] == [0.5]
    assert [event.kg for event in of(found, WormsTaken)] == [0.1]
    without = history(started("A", 0), fed("A", 1))
    assert of(without, WormsPut)[0].kg == pytest.approx(1.6 * 0.16)
    assert any("No worms are written down" in said for said in without.assumed)
    late = history(started("A", 0), fed("A", 1), entry("worms_added", 40, worms_kg=0.5))
    assert len(of(late, WormsPut)) == 2
    assert of(history(started("A", 0)), WormsPut) == [], "a tray of bedding alone has none"


def test_a_sump_that_reads_lower_was_emptied_between() -> None:
    read = [entry("checked", day, sump_l=litres) for day, litres in ((5, 0.2), (10, 0.5), (15, 0.0))]
    (emptied,) = of(history(started("A", 0), *read), SumpEmptied)
    assert round(emptied.day) == 10
    assert emptied.day > history(started("A", 0)).calendar.day(moment(10))


def test_the_warmth_between_readings_and_without_any() -> None:
    found = history(
        started("A", 0), entry("checked", 10, temperature_c=10.0), entry("checked", 20, temperature_c=20.0)
    )
    assert [found.celsius[day] for day in (0, 9, 10, 15, 20, 100)] == [10, 10, 10, 15, 20, 20]
    assert len(found.celsius) == 101
    assert not any("temperature" in said for said in found.assumed)
    assert any("No temperature" in said for said in history(started("A", 0)).assumed)


def test_an_empty_journal_is_a_history_too() -> None:
    found = history()
    assert (found.events, found.fed, found.calendar.today, len(found.celsius)) == ((), False, 0, 1)
    assert kinds(found) == []
