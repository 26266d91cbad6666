"""What is due again, kept, measured and put off: what the journal adds up to."""

from __future__ import annotations

from typing import Any

import pytest

from tests.builders import codes, entry, fed, moment, stack_of, started, undone


def follow_up(day: float, **fields: Any) -> Any:
    return entry(
        "follow_up_set", day, **{"code": "too-wet", "what": "Look again", "due": moment(day + 7), **fields}
    )


def test_a_follow_up_stands_until_it_is_done() -> None:
    first, other = follow_up(1, tray="B"), follow_up(1)
    stack = stack_of(first, other)
    assert stack.follow_ups == {"follow_up:too-wet:B": first, "follow_up:too-wet": other}
    stack = stack_of(first, other, entry("done", 5, item="follow_up:too-wet:B"))
    assert stack.follow_ups == {"follow_up:too-wet": other}
    assert stack.done == {"follow_up:too-wet:B": moment(5)}


def test_a_later_follow_up_of_the_same_thing_takes_its_place_and_is_not_put_off() -> None:
    later = follow_up(9)
    stack = stack_of(follow_up(1), entry("snoozed", 2, item="follow_up:too-wet", until=moment(30)), later)
    assert stack.follow_ups == {"follow_up:too-wet": later}
    assert stack.snoozed == {}


def test_the_latest_word_on_a_due_thing_counts_and_undo_brings_the_one_before() -> None:
    first = entry("snoozed", 2, item="check", until=moment(5))
    second = entry("snoozed", 3, item="check", until=moment(9))
    assert stack_of(first, second).snoozed == {"check": moment(9)}
    assert stack_of(first, second, undone(second, 4)).snoozed == {"check": moment(5)}
    assert stack_of(first, second, entry("done", 4, item="check")).snoozed == {}


def test_done_ahead_counts_until_the_day_it_was_due() -> None:
    assert stack_of(entry("done", 4, item="hatch:look:A", due=moment(9))).done == {"hatch:look:A": moment(9)}
    assert stack_of(entry("done", 4, item="hatch:look:A", due=moment(3))).done == {"hatch:look:A": moment(4)}


def test_the_last_check_that_named_a_smell_is_known() -> None:
    smelled = entry("checked", 3, smell="ammonia")
    assert stack_of(smelled, entry("checked", 4, feel="moist")).smelled == smelled
    later = entry("checked", 5, tray="A", smell="earthy")
    assert stack_of(started("A"), smelled, later).smelled == later


def test_a_measure_is_what_was_last_said_of_it() -> None:
    first = entry("measure_set", 1, measure="Handful", kg=0.05)
    second = entry("measure_set", 2, measure="handful", kg=0.06)
    of = entry("measure_set", 2, measure="handful", kg=0.02, of="cardboard")
    assert stack_of(first, second, of).measures == (second, of)


def test_meals_are_kept_by_name_and_dropped() -> None:
    first = entry("meal_kept", 1, name="Sunday", items_kg={"cabbage": 0.5})
    second = entry("meal_kept", 2, name="sunday", items_kg={"cabbage": 0.4})
    assert stack_of(first, second).meals == (second,)
    stack = stack_of(first, entry("meal_dropped", 3, name="SUNDAY"))
    assert (stack.meals, codes(stack)) == ((), [])
    assert codes(stack_of(entry("meal_dropped", 3, name="Monday"))) == ["dropped-unkept"]


def test_the_caddy_holds_what_was_put_off_last() -> None:
    full = entry("put_off", 3, items_kg={"melon": 2.0})
    assert (stack_of(full).caddy_kg, stack_of(full).caddy_at) == ({"melon": 2.0}, moment(3))
    empty = stack_of(full, entry("put_off", 4))
    assert (empty.caddy_kg, empty.caddy_at) == ({}, None)


def test_a_count_of_supplies_is_the_stock_even_when_it_is_nothing() -> None:
    journal = (
        entry("supplies_added", 0, supplies_kg={"grit": 1.0, "leaves": 2.0}),
        entry("supplies_counted", 5, supplies_kg={"grit": 0.0}),
    )
    stack = stack_of(*journal)
    assert stack.supplies_kg == {"grit": 0.0, "leaves": 2.0}
    assert stack.supplies_counted_at == moment(5)
    used = stack_of(*journal, entry("supplies_used", 6, supplies_kg={"leaves": 0.5}))
    assert used.supplies_kg == pytest.approx({"grit": 0.0, "leaves": 1.5})


def test_a_tray_keeps_its_feedings_until_it_is_started_afresh() -> None:
    meals = (fed("A", 2), fed("A", 14, bedding_kg={"leaves": 0.2}))
    (tray,) = stack_of(started("A", stage="feeding"), *meals).trays
    assert tray.meals == meals
    taken_off = entry("turned", 20, order=["B"])
    again = stack_of(started("A", stage="feeding"), *meals, started("B"), taken_off, started("A", 21))
    assert next(t for t in again.trays if t.id == "A").meals == ()
