"""The stock: names written in any case are one supply, and what cannot be known is not made up."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import codes, entry, fed, moment, stack_of, started, turned
from trayturn.domain.entries import Entry
from trayturn.domain.stack import Stack
from trayturn.domain.supplies import LAST_FEEDINGS, LAST_STARTS, Supply, fold


def added(day: float, **supplies: float) -> Any:
    return entry("supplies_added", day, supplies_kg=supplies)


def counted(day: float, **supplies: float) -> Any:
    return entry("supplies_counted", day, supplies_kg=supplies)


def used(day: float, **supplies: float) -> Any:
    return entry("supplies_used", day, supplies_kg=supplies)


def held(*entries: Entry, name: str = "leaves") -> Supply:
    return next(one for one in stack_of(*entries).supplies if fold(one.name) == name)


def test_a_supply_is_one_however_its_name_is_written() -> None:
    stack = stack_of(
        entry("supplies_added", 0, supplies_kg={"Shredded Cardboard": 2.0, "shredded  cardboard": 0.5}),
        started("A", 1, bedding_kg={"shredded cardboard": 0.5}),
        fed("A", 2, bedding_kg={"SHREDDED CARDBOARD": 0.25}),
    )
    assert stack.supplies_kg == pytest.approx({"Shredded Cardboard": 1.75})
    assert codes(stack) == []


def test_two_ways_of_writing_are_counted_together() -> None:
    stack = stack_of(entry("supplies_counted", 0, supplies_kg={"Grit": 0.2, "grit": 0.1}))
    assert stack.supplies_kg == pytest.approx({"Grit": 0.3})


def test_when_it_came_in_and_was_counted_is_known() -> None:
    one = held(added(0, leaves=1), counted(3, leaves=0.9), added(4, leaves=1))
    assert one.kg == pytest.approx(1.9)
    assert (one.came_in_at, one.counted_at) == (moment(4), moment(3))


def test_a_supply_never_stocked_is_of_unknown_stock() -> None:
    assert held(used(1, leaves=0.5)).kg is None
    assert stack_of(started("A"), fed("A", 1, bedding_kg={"leaves": 0.1})).supplies == ()


def test_what_is_used_though_none_was_left_puts_the_stock_in_doubt_until_some_comes() -> None:
    journal = (
        added(0, leaves=0.3),
        started("A", 0),
        fed("A", 1, bedding_kg={"leaves": 0.31}),
        fed("A", 2, bedding_kg={"leaves": 0.1}),
    )
    assert held(*journal[:3]).kg == 0, "a little too much is the end of the stock"
    assert (held(*journal).kg, held(*journal).doubted_at) == (None, moment(2))
    assert held(*journal, added(3, leaves=1)).kg == 1
    assert held(*journal, counted(3, leaves=0)).kg == 0


def test_scraps_kept_in_stock_are_drawn_from_it() -> None:
    meal = {"Coffee grounds": 0.2, "cabbage": 0.5}
    stack = stack_of(entry("supplies_added", 0, supplies_kg={"coffee grounds": 1.0}), started("A"))
    assert stack.supplies_kg == {"coffee grounds": 1.0}
    after = stack_of(
        entry("supplies_added", 0, supplies_kg={"coffee grounds": 1.0}), started("A"), fed("A", 1, meal)
    )
    assert after.supplies_kg == pytest.approx({"coffee grounds": 0.8})


def test_only_the_last_feedings_and_trays_are_kept_in_sight() -> None:
    many = [fed("A", 1 + n / 10) for n in range(100)]
    trays = [entry for n in range(20) for entry in (started("A", n), turned("B", n + 0.5, B="bedding"))]
    stack = stack_of(started("A"), *many)
    assert stack.last_feedings == tuple(many[-LAST_FEEDINGS:])
    assert len(stack_of(*trays).last_starts) == LAST_STARTS


def test_a_turn_without_a_fresh_tray_is_remembered_until_a_tray_is_started() -> None:
    journal = (started("A", 0, stage="feeding"), started("B", 0), turned("AB", 60, B="feeding"))
    assert stack_of(*journal).left_out_at is None
    short = entry("turned", 60, order=("A", "B"), stages={"A": "finishing", "B": "feeding"}, no_fresh=True)
    assert stack_of(*journal[:2], short).left_out_at == moment(60)
    assert stack_of(*journal[:2], short, started("C", 70)).left_out_at is None


KG = st.floats(min_value=0.001, max_value=50)
ACTS = st.lists(st.tuples(st.sampled_from(["add", "count", "use", "feed"]), KG), max_size=25)


@given(ACTS)
def test_what_is_left_is_what_there_was_and_what_came_in_less_what_went(
    acts: list[tuple[str, float]],
) -> None:
    """The stock is followed by hand: it never goes below nothing, and a count stands for itself."""
    kinds = {"add": added, "count": counted, "use": used}
    entries: list[Entry] = [started("A", 0, bedding_kg={})]
    left = 0.0
    for n, (act, kg) in enumerate(acts, 1):
        made = fed("A", n, bedding_kg={"Leaves": kg}) if act == "feed" else kinds[act](n, leaves=kg)
        entries.append(made)
        left = kg if act == "count" else left + kg if act == "add" else max(0.0, left - kg)
    stack: Stack = stack_of(*entries)
    assert sum(stack.supplies_kg.values()) == pytest.approx(left, abs=1e-6)
