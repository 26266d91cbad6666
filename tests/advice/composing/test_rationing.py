"""Too much at once: nothing is lost, what spoils soonest goes first, and what keeps waits."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.advice.composing.meals import DAY, WORMS, ground, grounds, items, meal
from tests.builders import moment
from trayturn.advice.composing.draft import EATEN, Draft, Line, Part
from trayturn.advice.composing.ground import Ground
from trayturn.advice.composing.load import load_of
from trayturn.advice.composing.rationing import LIMITED, ration_out

CADDY = {"potato": 1.0, "lettuce": 1.0, "orange peel": 1.0, "cheese": 0.2, "cabbage": 1.0}


def test_what_spoils_and_leaks_soonest_goes_first_and_what_keeps_waits() -> None:
    """The room of half a kilogram of worms for 12 days is 2.1 kg (0.35 a day, the middle of the norm)."""
    on = ground(WORMS)
    found = ration_out(meal(on, CADDY), on)
    assert found.draft.masses(*EATEN) == {"lettuce": 1, "cabbage": 1, "potato": pytest.approx(0.1)}
    assert [(one.name, one.why) for one in found.now] == [
        ("lettuce", "goes fast and leaks"),
        ("cabbage", "goes in weeks and leaks"),
        ("potato", "goes in weeks"),
    ]
    assert load_of(found.draft, on).kg == pytest.approx(2.1)
    assert [one.name for one in found.later] == ["potato", "orange peel", "cheese"]


def test_what_waits_has_the_day_of_its_feeding() -> None:
    on = ground(WORMS)
    potato, peel, cheese = ration_out(meal(on, CADDY), on).later
    assert potato.day == peel.day == moment(DAY + 12)
    assert "freezer" in potato.why
    assert "common practice" in potato.why.lower()
    assert (cheese.day, cheese.why) == (None, "Leave it out: dairy - odour, pests, salt 1.7%.")
    far = ration_out(meal(on, {"potato": 6.0}), on).later[0]
    assert far.day == moment(DAY + 24)
    assert ration_out(meal(on, {"potato": 900.0}), on).later[0].day is None


def test_what_is_to_be_limited_takes_a_small_share() -> None:
    on = ground(WORMS)
    found = ration_out(meal(on, {"orange peel": 2.0, "onion": 2.0}), on)
    assert found.draft.kg(*EATEN) == pytest.approx(LIMITED * 2.1)
    assert found.now[0].why == "a little, since it is to be limited"


def test_when_they_take_nothing_all_waits() -> None:
    on = ground(WORMS)
    found = ration_out(meal(on, {"cabbage": 1.0}), on, room_kg=0)
    assert (found.draft.kg(*EATEN), found.draft.waits) == (0, {"cabbage": 1.0})


def test_bedding_and_shells_are_left_as_they_are() -> None:
    on = ground(WORMS)
    draft = meal(on, {"egg shell": 0.05, "cabbage": 5.0}, cover=0.1, grit=0.005)
    found = ration_out(draft, on).draft
    assert found.masses(Part.COVER, Part.GRIT) == {"shredded cardboard": 0.1, "grit": 0.005}
    assert found.masses(Part.AMENDMENTS) == {"egg shell": 0.05}


def test_what_waits_already_is_shared_out_anew() -> None:
    on = ground(WORMS)
    draft = Draft(
        "A", (Line(Part.SCRAPS, "potato", 3.0, held_kg=3.0), Line(Part.SCRAPS, "lettuce", 0, held_kg=1.0))
    )
    found = ration_out(draft, on).draft
    assert found.masses(*EATEN) == {"lettuce": 1.0, "potato": pytest.approx(1.1)}
    assert found.waits == {"potato": pytest.approx(1.9)}


@settings(max_examples=150, deadline=None)
@given(grounds(), items(), st.none() | st.floats(0, 30))
def test_nothing_is_lost(on: Ground, food: dict[str, float], room: float | None) -> None:
    draft = meal(on, food, bedding=0.1)
    found = ration_out(draft, on, room)
    now, waits = found.draft.masses(*EATEN), found.draft.waits
    for name, kg in ((line.name, line.kg) for line in draft.of(*EATEN)):
        assert now.get(name, 0) + waits.get(name, 0) == pytest.approx(kg, abs=1e-6)
    later = {one.name: one.kg for one in found.later}
    assert later == pytest.approx({name: waits[name] for name in later})
    most = load_of(draft, on).room_kg if room is None else room
    assert sum(line.kg for line in on.food(found.draft)) <= most + 1e-6
