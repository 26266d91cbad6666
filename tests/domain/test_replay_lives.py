"""The lives of trays: what went in until a separation emptied them, each meal counted in one life."""

from collections import Counter
from datetime import datetime

import pytest
from hypothesis import given

from tests.builders import a_profile, entry, fed, moment, stack_of, started, turned, undone
from tests.domain.test_replay_any import AS_OF, profiles
from trayturn.domain.entries import Entry, Outcome
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay

FIRST = (
    started("A", 0, stage="feeding", water_kg=1.2),
    fed("A", 2, grit_kg=0.02),
    fed("A", 14, water_kg=0.3),
)


def separated(tray: str, day: float, **ended: str) -> tuple[Entry, ...]:
    """A separation of one pass, a day long."""
    return (
        entry("separation_begun", day, tray=tray),
        entry("pass_done", day, tray=tray, pass_number=1, worms_seen="many", skimmed_kg=2.5),
        entry("separation_ended", day + 1, tray=tray, **ended),
    )


def test_a_life_ends_with_the_separation_that_empties_the_tray() -> None:
    (life,) = stack_of(*FIRST, *separated("A", 100)).lives
    assert (life.tray, life.started_at, life.separated_at, life.ended_at) == (
        "A",
        moment(0),
        moment(100),
        moment(101),
    )
    assert life.start == FIRST[0]
    assert life.meals == FIRST[1:]
    assert (life.scraps_kg, life.bedding_kg) == ({"cabbage": 1.0}, {"shredded cardboard": 0.5})
    assert (life.grit_kg, life.water_kg) == (0.02, 1.5)
    assert life.whole
    assert [one.outcome for one in life.separations] == [Outcome.FINISHED]


def test_a_tray_that_comes_back_begins_a_life_of_its_own() -> None:
    again = (started("A", 102, stage="feeding"), fed("A", 110, {"apple": 0.4}))
    one, two = stack_of(*FIRST, *separated("A", 100), *again, *separated("A", 200)).lives
    assert (one.scraps_kg, two.scraps_kg) == ({"cabbage": 1.0}, {"apple": 0.4})
    assert (two.started_at, two.water_kg, len(two.separations)) == (moment(102), 0.0, 1)


def test_a_tray_put_back_goes_on_with_its_life() -> None:
    put_back = separated("A", 50, outcome="put_back")
    more = fed("A", 60, {"apple": 0.4})
    assert stack_of(*FIRST, *put_back, more).lives == ()
    (life,) = stack_of(*FIRST, *put_back, more, *separated("A", 100)).lives
    assert life.scraps_kg == {"cabbage": 1.0, "apple": 0.4}
    assert [one.outcome for one in life.separations] == [Outcome.PUT_BACK, Outcome.FINISHED]
    assert life.separated_at == moment(100)


def test_a_tray_that_left_by_a_turn_alone_has_no_life_in_the_book() -> None:
    stack = stack_of(*FIRST, started("B", 1), turned("B", 60), started("A", 61), *separated("A", 100))
    (life,) = stack.lives
    assert (life.started_at, life.meals) == (moment(61), ())


def test_what_went_in_is_not_all_known_of_a_tray_from_elsewhere() -> None:
    moved = started("A", 0, came_from="Shed")
    assert not stack_of(moved, *separated("A", 100)).lives[0].whole
    turned_in = stack_of(started("B", 0), turned("AB", 1), *separated("A", 100)).lives[0]
    assert turned_in.start is None
    assert not turned_in.whole


def test_the_last_readings_of_a_life_stand_in_it() -> None:
    read = entry("checked", 95, tray="A", moisture_pct=72, gross_kg=6.1)
    (life,) = stack_of(*FIRST, read, *separated("A", 100)).lives
    assert (life.last_moisture, life.gross_kg, life.weighed_at) == (read, 6.1, moment(95))


def test_an_end_taken_back_never_was() -> None:
    journal = (*FIRST, *separated("A", 100))
    assert stack_of(*journal, undone(journal[-1], 102)).lives == ()


@given(profiles(), AS_OF)
def test_each_meal_is_in_one_life_or_in_one_tray(profile: Profile, as_of: datetime) -> None:
    stack = replay(profile, as_of)
    meals = [meal for life in stack.lives for meal in life.meals]
    meals += [meal for tray in stack.trays for meal in tray.meals]
    assert max(Counter(map(id, meals)).values(), default=1) == 1
    written = [one for one in profile.journal if one.kind == "fed"]
    assert sum(len(one.items_kg) for one in meals) <= sum(len(one.items_kg) for one in written)


@given(profiles(), AS_OF)
def test_a_life_is_what_its_separations_and_meals_say(profile: Profile, as_of: datetime) -> None:
    stack = replay(profile, as_of)
    finished = [one for one in stack.past_separations if one.outcome is Outcome.FINISHED]
    assert [life.separations[-1] for life in stack.lives] == finished
    for life in stack.lives:
        assert {one.tray for one in life.separations} == {life.tray}
        assert {one.tray for one in life.meals} <= {life.tray}
        given_kg = sum(kg for meal in life.meals for kg in meal.items_kg.values())
        assert sum(life.scraps_kg.values()) == pytest.approx(given_kg)


def test_old_journals_without_any_of_it_read_as_before() -> None:
    assert replay(a_profile(), moment(0)).lives == ()
