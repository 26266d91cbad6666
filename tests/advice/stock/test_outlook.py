"""How long a supply lasts, and what to gather by when: followed by hand through what lies ahead."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.stacks import Case, cases
from tests.builders import a_profile, a_usual_bin, entry, fed, moment, stack_of, started, turned
from trayturn.advice.due import due_list
from trayturn.advice.stock import outlooks, reasons, story
from trayturn.advice.stock.ahead import coming
from trayturn.advice.stock.outlook import Outlook, short_of
from trayturn.advice.stock.words import gather_line, state_word
from trayturn.domain.entries import Entry
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack

CARDBOARD = "shredded cardboard"


def counted(kg: float, day: float = 62, name: str = CARDBOARD) -> Any:
    return entry("supplies_counted", day, supplies_kg={name: kg})


def a_year(bedding_kg: float = 0.1) -> tuple[Entry, ...]:
    """The usual bin with bedding at every feeding; turned on day 60, B fed on 61, 73 and 85, next on 97."""
    before = [fed("A", 50 + n, bedding_kg={CARDBOARD: bedding_kg}) for n in range(3)]
    meals = [fed("B", day, bedding_kg={CARDBOARD: bedding_kg}) for day in (73, 85)]
    first, turn = a_usual_bin()[:6], a_usual_bin()[6:8]
    return (*first, *before, *turn, fed("B", 61, bedding_kg={CARDBOARD: bedding_kg}), *meals)


def one(stack: Stack, name: str = CARDBOARD) -> Outlook:
    return next(found for found in outlooks(stack) if found.name == name)


def test_the_year_ahead_is_walked_by_the_setups_intervals() -> None:
    """Fed on day 85 every 12 days, turned on day 60 every 60: from day 90 on."""
    steps = coming(stack_of(*a_year(), trays="ABCD", tray_count=4, as_of=90))
    told = [(round(step.days), step.feedings, step.trays) for step in steps[:5]]
    assert told == [(7, 1, 0), (19, 2, 0), (30, 2, 1), (31, 3, 1), (43, 4, 1)]


def test_what_is_due_already_counts_as_today() -> None:
    steps = coming(stack_of(*a_year(), trays="ABCD", tray_count=4, as_of=130))
    assert [(step.days, step.feedings, step.trays) for step in steps[:2]] == [(0, 0, 1), (0, 1, 1)]


def test_a_supply_runs_out_at_the_feeding_or_turn_it_cannot_support() -> None:
    """100 g a feeding and 500 g a tray: 450 g see through the feedings of day 97 and 109, not the turn."""
    stack = stack_of(*a_year(), counted(0.45, 86), trays="ABCD", tray_count=4, as_of=90)
    found = one(stack)
    assert found.lasts is not None
    assert found.lasts.mid == moment(120)
    assert found.gather_by == moment(120)
    assert found.gather_kg == pytest.approx(2 * 0.1 + 0.5 - 0.45)
    assert found.turn is not None
    assert found.turn.mid == pytest.approx(0.5)
    assert found.month.mid == pytest.approx(2 * 0.1 + 0.5)


def test_enough_for_the_month_and_the_turn_is_not_due() -> None:
    stack = stack_of(*a_year(), counted(0.75, 86), trays="ABCD", tray_count=4, as_of=90)
    assert one(stack).gather_kg is None
    assert state_word(one(stack)) == "enough"
    assert "supplies" not in [due.kind for due in due_list(stack)]


def test_a_turn_further_off_than_a_month_is_looked_out_for_too() -> None:
    stack = stack_of(*a_year(), counted(0.5, 62), trays="ABCD", tray_count=4, as_of=62)
    assert one(stack).gather_by == moment(120)


def test_what_is_short_is_due_until_more_comes_in() -> None:
    journal = (*a_year(), counted(0.45, 86))
    stack = stack_of(*journal, trays="ABCD", tray_count=4, as_of=90)
    (due,) = [due for due in due_list(stack) if due.kind == "supplies"]
    assert due.what == "Shred about 250 g of shredded cardboard by Mon 29 Jun, in 30 days."
    assert (due.item, due.page, due.late) == ("supplies:shredded-cardboard", "supplies", False)
    more = entry("supplies_added", 89, supplies_kg={"Shredded Cardboard": 1.0})
    after = stack_of(*journal, more, trays="ABCD", tray_count=4, as_of=90)
    assert "supplies" not in [due.kind for due in due_list(after)]


def test_none_left_for_a_feeding_that_is_due_presses() -> None:
    stack = stack_of(*a_year(), counted(0.0, 86), trays="ABCD", tray_count=4, as_of=98)
    (due,) = [due for due in due_list(stack) if due.kind == "supplies"]
    assert due.pressing
    assert due.what.endswith("now.")


def test_a_supply_never_counted_is_of_unknown_stock_and_is_told_how_to_count() -> None:
    stack = stack_of(*a_year(), as_of=90)
    found = one(stack)
    assert (found.supply.kg, found.lasts, found.gather_kg) == (None, None, None)
    assert state_word(found) == "count it"
    assert any("Weigh it in its bag" in line for line in story(found, stack))
    assert "supplies" not in [due.kind for due in due_list(stack)]


def test_a_stock_used_though_none_was_left_is_not_known() -> None:
    stack = stack_of(counted(0.0, 10), *a_year(), as_of=90)
    assert one(stack).supply.kg is None
    assert "though none was left" in story(one(stack), stack)[0]


def test_a_week_is_told_by_the_record_once_it_is_long_enough() -> None:
    """Nine trays and feedings in 90 days; before six weeks it is what the setup leads to expect."""
    stack = stack_of(*a_year(), as_of=90)
    record = one(stack).record
    assert record.own
    assert record.per_week is not None
    used = 6 * 0.1 + 3 * 0.5
    assert record.per_week.mid == pytest.approx(used / (90 / 7))
    young = one(stack_of(started("A"), fed("A", 1, bedding_kg={CARDBOARD: 0.1}), as_of=5))
    assert not young.record.own
    assert young.record.rests_on.startswith("expected of this bin as it is set up, for 1 feeding")


def test_an_empty_stack_needs_its_first_tray() -> None:
    stack = stack_of(counted(0.2, 0), as_of=1)
    found = one(stack)
    assert found.turn_at == moment(1)
    assert gather_line(found, stack.as_of, stack.setup.units) == (
        "Shred about 280 g of shredded cardboard now."
    )
    assert any(line.startswith("The first tray, due now, needs") for line in story(found, stack))


def test_a_lasting_supply_lasts_for_more_than_a_year() -> None:
    stack = stack_of(*a_year(), counted(40, 86), as_of=90)
    assert "It lasts for more than a year." in story(one(stack), stack)


def test_us_keepers_read_ounces_and_pounds() -> None:
    stack = stack_of(*a_year(), counted(0.45, 86), trays="ABCD", tray_count=4, as_of=90, units="us")
    assert gather_line(one(stack), stack.as_of, stack.setup.units).startswith("Shred about 8.8 oz of")


def test_two_names_that_make_one_code_are_told_apart() -> None:
    stack = stack_of(entry("supplies_counted", 0, supplies_kg={"a b": 1, "a-b": 1, "!": 1, "箱": 1}))
    codes = [found.code for found in outlooks(stack)]
    assert len(set(codes)) == 4
    assert all(codes)


def test_feeding_several_times_a_day_is_walked_day_by_day() -> None:
    stack = stack_of(*a_year(), counted(5, 86), as_of=90, days_between_feedings=0.1)
    steps = coming(stack)
    assert len(steps) < 800
    assert steps[-1].feedings == pytest.approx(3650, rel=0.02)


@given(cases(), st.floats(0, 5), st.floats(0, 0.5), st.floats(0, 40))
def test_more_stock_lasts_longer_and_bands_are_in_order(
    case: Case, kg: float, used: float, later: float
) -> None:
    meals = [fed("A", 150 + n, bedding_kg={CARDBOARD: used} if used > 1e-3 else {}) for n in range(5)]

    def outlook(stock: float) -> tuple[Outlook, Stack]:
        profile = a_profile(*case.profile.journal, *meals, counted(stock, 160))
        stack = replay(profile, moment(165 + later))
        return one(stack), stack

    less, stack = outlook(kg)
    more, _ = outlook(kg + 1)
    for found in (less, more):
        assert found.lasts is not None
        days = [found.lasts.early, found.lasts.mid, found.lasts.late]
        known = [day for day in days if day is not None]
        assert known == sorted(known)
        assert days[: len(known)] == known, "a later end is further off than a year, never an earlier one"
        assert found.month.low <= found.month.mid <= found.month.high
    assert (more.gather_kg or 0) <= (less.gather_kg or 0)
    if less.lasts and more.lasts and less.lasts.mid and more.lasts.mid:
        assert less.lasts.mid <= more.lasts.mid
    assert [found.code for found in short_of(stack)] == [
        found.code for found in outlooks(stack) if found.short
    ]
    assert all(line == "" or line.endswith((".", ")")) for line in reasons(less, stack))


@given(cases(), st.floats(0, 3))
def test_the_due_list_holds_with_any_stock(case: Case, kg: float) -> None:
    stack = replay(a_profile(*case.profile.journal, counted(kg, 150), turned("A", 151)), moment(200))
    dues = due_list(stack)
    assert len({due.order for due in dues}) == len(dues)
    assert all(due.what.endswith(".") and due.why for due in dues)
