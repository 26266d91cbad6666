"""What a composer opens with, what it writes down, and the order of the work."""

from __future__ import annotations

from typing import Any

import pytest

from tests.advice.composing.meals import WORMS, a_tray, ground, meal
from tests.builders import entry, fed, moment
from trayturn.advice.composing.draft import Draft, Line, Part
from trayturn.advice.composing.offers import Offer, offers
from trayturn.advice.composing.order import feeding_order
from trayturn.advice.composing.recent import history_of
from trayturn.advice.composing.writing import entries, meal_of
from trayturn.domain.entries import Fed, PutOff

LAST = fed("A", 18, {"cabbage": 0.3, "coffee grounds": 0.1}, bedding_kg={"coir": 0.1}, grit_kg=0.01)
EARLIER = fed("A", 6, {"apple": 0.2, "oats": 0.05})
KEPT = entry("meal_kept", 7, name="Sunday", items_kg={"leek": 0.4}, bedding_kg={"coir": 0.3}, grit_kg=0.01)
WAITS = entry("put_off", 19, items_kg={"melon rind": 0.6, "cheese": 0.1})


def offered(*rows: Any) -> list[Offer]:
    return offers(ground(WORMS, *rows), history_of(a_tray(*rows)))


def test_the_scraps_of_late_are_offered_at_nothing_with_what_went_in_last() -> None:
    (last,) = offered(LAST, EARLIER)
    assert last.said == "as last time"
    assert last.draft.empty
    assert [(one.name, one.last_kg) for one in last.draft.of(Part.SCRAPS)] == [
        ("cabbage", 0.3),
        ("coffee grounds", 0.1),
        ("apple", 0.2),
    ]
    assert [one.name for one in last.draft.of(Part.AMENDMENTS)] == ["oats"]
    assert [one.name for one in last.draft.of(Part.BEDDING, Part.GRIT, Part.COVER)] == [
        "coir",
        "grit",
        "coir",
    ]


def test_a_first_meal_has_its_standing_lines() -> None:
    (last,) = offered()
    assert last.said == "the first"
    assert [one.key for one in last.draft] == [
        "bedding:shredded cardboard",
        "grit:grit",
        "cover:shredded cardboard",
    ]


def test_what_waits_in_the_caddy_comes_first_but_for_what_is_best_left_out() -> None:
    caddy, last = offered(LAST, WAITS)
    assert (caddy.said, last.said) == ("from the caddy", "as last time")
    assert caddy.draft.masses(Part.SCRAPS) == {"melon rind": 0.6}
    assert caddy.draft.waits == {"cheese": 0.1}
    assert last.draft.waits == {"melon rind": 0.6, "cheese": 0.1}


def test_kept_meals_are_offered_whole_with_their_cover() -> None:
    _, kept = offered(LAST, KEPT)
    assert kept.said == "meal Sunday"
    assert kept.draft.masses(Part.SCRAPS, Part.GRIT) == {"leek": 0.4, "grit": 0.01}
    assert kept.draft.kg(Part.COVER) == pytest.approx(0.24)
    assert kept.draft.kg(Part.BEDDING) == pytest.approx(0.06)
    dropped = entry("meal_dropped", 8, name="sunday")
    assert len(offered(LAST, KEPT, dropped)) == 1


def test_a_meal_is_written_as_one_feeding() -> None:
    on = ground(WORMS)
    draft = meal(on, {"cabbage": 0.5, "oats": 0.05}, bedding=0.1, cover=0.08, grit=0.005, water=0.2)
    (written,) = entries(draft, {}, moment(30))
    assert isinstance(written, Fed)
    assert (written.tray, written.at) == ("A", moment(30))
    assert written.items_kg == {"cabbage": 0.5, "oats": 0.05}
    assert written.bedding_kg == {"shredded cardboard": pytest.approx(0.18)}
    assert (written.grit_kg, written.water_kg) == (0.005, 0.2)


def test_the_caddy_is_written_where_it_changed() -> None:
    held = {"cabbage": 0.8}
    line = Line(Part.SCRAPS, "cabbage", 0.5, held_kg=0.8)
    fed_some, put_off = entries(Draft("A", (line,)), held, moment(30))
    assert (fed_some.kind, put_off.at) == ("fed", fed_some.at)
    assert isinstance(put_off, PutOff)
    assert put_off.items_kg == {"cabbage": pytest.approx(0.3)}
    untouched = Draft("A", (Line(Part.SCRAPS, "cabbage", held_kg=0.8), Line(Part.SCRAPS, "leek", 0.1)))
    assert [one.kind for one in entries(untouched, held, moment(30))] == ["fed"]
    thrown = Draft("A").out("scraps:cabbage")
    assert [one.kind for one in entries(thrown, held, moment(30))] == ["put_off"]
    assert entries(Draft("A"), {}, moment(30)) == []


def test_a_meal_is_kept_under_a_name() -> None:
    on = ground(WORMS)
    kept = meal_of(meal(on, {"cabbage": 0.5}, bedding=0.1, cover=0.08, water=0.2), "Sunday", moment(30))
    assert (kept.name, kept.items_kg) == ("Sunday", {"cabbage": 0.5})
    assert kept.bedding_kg == {"shredded cardboard": pytest.approx(0.18)}
    with pytest.raises(ValueError, match="at least one"):
        meal_of(Draft("A"), "Sunday", moment(30))


def test_the_order_of_the_work_is_bedding_scraps_amendments_cover() -> None:
    on = ground(WORMS)
    draft = meal(on, {"cabbage": 0.5, "oats": 0.05}, bedding=0.1, cover=0.08, grit=0.005)
    told = feeding_order(draft, on)
    assert [line[0] for line in told] == ["1", "2", "3", "4"]
    assert told[0] == "1  Bedding: lay 100 g of shredded cardboard in as a layer of its own."
    assert told[2] == "3  Then over them: 50 g of oats and 5 g of grit."
    assert told[3] == "4  Cover: 80 g of shredded cardboard, loose, about 2.5 cm, so that no scraps show."
    us = ground(WORMS, units="us")
    assert "3.53 oz" in feeding_order(meal(us, {"cabbage": 0.1}), us)[0]
    assert feeding_order(Draft("A"), on) == []
