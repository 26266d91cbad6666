"""Worms, supplies and cautions: what the journal adds up to."""

from __future__ import annotations

from typing import Any

import pytest

from tests.builders import codes, entry, fed, moment, stack_of, started, undone


def added(day: float, **supplies: float) -> Any:
    return entry("supplies_added", day, supplies_kg=supplies)


def used(day: float, **supplies: float) -> Any:
    return entry("supplies_used", day, supplies_kg=supplies)


def test_worms_are_what_was_put_in_and_taken_out() -> None:
    put_in = (entry("worms_added", 0, worms_kg=0.5), entry("worms_added", 5, worms_kg=0.25, tray="A"))
    assert stack_of(started("A"), *put_in).worms_kg == 0.75
    assert stack_of(started("A"), *put_in, entry("worms_removed", 9, worms_kg=0.5)).worms_kg == 0.25


def test_the_first_worms_are_the_earliest_whatever_was_written_first() -> None:
    late, early = entry("worms_added", 5, worms_kg=0.25), entry("worms_added", 1, worms_kg=0.5)
    assert stack_of(started("A"), late, early).first_worms_at == early.at
    assert stack_of(started("A"), late, early, undone(early, 6)).first_worms_at == late.at
    assert stack_of(started("A"), entry("worms_removed", 5, worms_kg=0.25)).first_worms_at is None


def test_worms_breed_so_more_may_leave_than_came() -> None:
    stack = stack_of(entry("worms_added", 0, worms_kg=0.5), entry("worms_removed", 300, worms_kg=2))
    assert (stack.worms_kg, codes(stack)) == (0, [])


def test_worms_never_weighed_in_stay_unknown() -> None:
    assert stack_of(entry("worms_removed", 9, worms_kg=0.5)).worms_kg is None


def test_supplies_come_and_go() -> None:
    stack = stack_of(added(0, grit=1, leaves=2), added(1, grit=0.5), used(2, leaves=0.5))
    assert stack.supplies_kg == {"grit": 1.5, "leaves": 1.5}
    assert stack.findings == ()


def test_feedings_and_fresh_trays_draw_on_what_is_in_stock() -> None:
    stack = stack_of(
        added(0, grit=1, leaves=2),
        started("A", 1, bedding_kg={"leaves": 0.5, "cardboard": 0.5}),
        fed("A", 2, bedding_kg={"leaves": 0.25}, grit_kg=0.1),
    )
    assert stack.supplies_kg == pytest.approx({"grit": 0.9, "leaves": 1.25})
    assert codes(stack) == []


def test_a_tray_from_another_bin_brings_its_own_bedding() -> None:
    came = started("A", 1, bedding_kg={"leaves": 0.5}, came_from="Pantry")
    stack = stack_of(added(0, leaves=2), came)
    assert stack.supplies_kg == {"leaves": 2}
    assert stack.trays[0].bedding_kg == {"leaves": 0.5}


def test_amendments_kept_in_stock_go_down_with_a_meal_and_the_kitchen_gives_the_rest() -> None:
    stack = stack_of(
        added(0, oats=0.2, leaves=1),
        started("A"),
        fed("A", 2, {"oats": 0.05, "cabbage": 0.5}, bedding_kg={"leaves": 0.1}),
    )
    assert stack.supplies_kg == pytest.approx({"oats": 0.15, "leaves": 0.9})
    more = stack_of(added(0, oats=0.2), started("A"), fed("A", 2, {"oats": 0.3}), fed("A", 3, {"oats": 0.3}))
    assert more.supplies_kg == {"oats": 0}


def test_grit_given_as_bedding_and_as_grit_is_drawn_twice() -> None:
    stack = stack_of(added(0, grit=1), started("A"), fed("A", 2, bedding_kg={"grit": 0.2}, grit_kg=0.1))
    assert stack.supplies_kg["grit"] == pytest.approx(0.7)


def test_more_used_than_stocked() -> None:
    stack = stack_of(added(0, grit=1), used(1, grit=1.5))
    (finding,) = stack.findings
    assert (finding.code, finding.severity) == ("more-used-than-stocked", "warning")
    assert str(finding) == (
        "entry 2 (supplies used, 2026-03-02 10:00): 1.5 kg of grit was used and 1 kg was in stock. "
        "Add what came in, or correct the mass."
    )
    assert stack.supplies_kg == {"grit": 0}


def test_what_was_never_stocked_cannot_be_used_up() -> None:
    stack = stack_of(used(1, grit=1.5))
    assert codes(stack) == ["more-used-than-stocked"]
    assert stack.supplies_kg == {"grit": 0}


def test_a_supply_that_feedings_used_up_is_told_once() -> None:
    stack = stack_of(
        added(0, leaves=0.3), started("A"), *(fed("A", n, bedding_kg={"leaves": 0.2}) for n in range(1, 9))
    )
    assert codes(stack) == ["more-used-than-stocked"]
    assert stack.supplies_kg == {"leaves": 0}


def test_sums_that_round_are_no_shortage() -> None:
    stack = stack_of(added(0, grit=0.3), *(used(n, grit=0.1) for n in (1, 2, 3)))
    assert codes(stack) == []


def test_cautions_keep_the_latest_time_each_was_ticked() -> None:
    first = entry("cautions_read", 0, work="grit", codes=["grit-dust", "gloves"])
    later = entry("cautions_read", 9, work="separation", codes=["gloves"])
    assert stack_of(later, first).cautions_read == {"grit-dust": moment(0), "gloves": moment(9)}
