"""A turn that the stock cannot support: what is said, and the turn made with one tray fewer."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given

from tests.advice.stacks import Case, cases
from tests.builders import a_profile, a_usual_bin, codes, entry, fed, moment, order, stack_of, stages, started
from trayturn.advice.due import due_list
from trayturn.advice.entry_words import entry_words
from trayturn.advice.stock import bedding_at_hand, support_lines, turn_supported
from trayturn.advice.turning import next_turn, turn_entries
from trayturn.domain.entries import Entry, Stage, Turned
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack

CARDBOARD = "shredded cardboard"
FOUR: dict[str, Any] = {"trays": "ABCD", "tray_count": 4}


def stock(kg: float, day: float = 110, name: str = CARDBOARD) -> Any:
    return entry("supplies_counted", day, supplies_kg={name: kg})


def usual(*more: Entry) -> tuple[Entry, ...]:
    """C bedding, A finishing, B fed; the turn of day 120 brings tray D in with 500 g of cardboard."""
    return (*a_usual_bin(), fed("B", 109), *more)


def at_turn(*more: Entry, day: float = 121) -> Stack:
    return stack_of(*usual(*more), as_of=day, **FOUR)


def lines(*more: Entry, day: float = 121) -> tuple[str, ...]:
    support = turn_supported(at_turn(*more, day=day))
    assert support is not None
    return support_lines(support)


def test_enough_bedding_says_nothing() -> None:
    assert lines(stock(0.5)) == ()
    assert lines() == (), "a stock that nobody counted is not called short"


def test_a_short_stock_says_what_to_do_instead_in_order() -> None:
    short, gather, without, thinner = lines(stock(0.3))
    assert short == (
        "Tray D takes about 500 g of shredded cardboard (the middle of 3 trays of yours), "
        "and about 300 g is in stock."
    )
    assert gather == "Shred about 200 g more first."
    assert without == (
        "Or turn without tray D: 2 trays stand instead of 3, and tray C is fed. "
        "Put tray D in once there is bedding."
    )
    assert thinner == (
        "Or fill tray D thinner, with the 300 g there is: at least 250 g, half of the usual; our choice."
    )


def test_too_little_for_a_thin_tray_says_the_least() -> None:
    assert lines(stock(0.2))[-1] == (
        "There is too little for a thinner tray: it needs at least 250 g, half of the usual; our choice."
    )


def test_other_bedding_in_stock_is_used_first() -> None:
    assert lines(stock(0.3), stock(0.3, name="leaf mould")) == ()
    told = lines(stock(0.3), stock(0.1, name="leaf mould"), stock(5, name="grit"))
    assert told[1] == "Use all the other bedding in stock too: leaf mould, 100 g."
    assert told[2] == "Shred about 100 g more first."


def test_feedings_before_the_turn_have_theirs_first() -> None:
    """Fed on day 109 with 200 g, as the two before; once more on 121, before the turn of day 122."""
    meals = [fed("B", day, bedding_kg={CARDBOARD: 0.2}) for day in (85, 97, 109)]
    journal = (*a_usual_bin()[:8], fed("B", 61), fed("B", 62), *meals, stock(0.6))
    stack = stack_of(*journal, as_of=112, days_between_turns=62, **FOUR)
    support = turn_supported(stack)
    assert support is not None
    assert support.stock_kg == pytest.approx(0.6 - 0.2)
    assert support.short_kg == pytest.approx(0.1)
    assert "by the turn, in 10 days." in support_lines(support)[1]
    now = turn_supported(stack, stack.as_of)
    assert now is not None
    assert now.stock_kg == pytest.approx(0.6)


def test_the_turn_in_the_due_list_tells_it_first_and_the_supply_is_due_below() -> None:
    dues = due_list(at_turn(stock(0.3)))
    (turn,) = [due for due in dues if due.kind == "turn"]
    (supply,) = [due for due in dues if due.kind == "supplies"]
    assert turn.why[0].startswith("Tray D takes about 500 g")
    assert turn.why[2].startswith("Or turn without tray D")
    assert any(line.startswith("Or turn without tray D") for line in supply.why)
    assert dues.index(turn) < dues.index(supply)


def after_a_turn_without(*more: Entry, day: float = 121) -> tuple[Profile, list[Entry]]:
    profile = a_profile(*usual(*more), **FOUR)
    entries = turn_entries(replay(profile, moment(day)), moment(day), bring=False)
    return profile.with_entries(entries), entries


def test_the_turn_is_made_with_one_tray_fewer() -> None:
    profile, entries = after_a_turn_without(stock(0.1))
    assert [entry.kind for entry in entries] == ["turned"]
    stack = replay(profile, moment(122))
    assert (order(stack), codes(stack)) == ("BCA", [])
    assert stages(stack) == {"B": "finishing", "C": "feeding", "A": "finishing"}
    assert "no fresh tray, for want of bedding" in entry_words(entries[0])


def test_nothing_nags_about_the_missing_tray_until_there_is_bedding() -> None:
    profile, _ = after_a_turn_without(stock(0.1))
    emptied = (
        entry("separation_begun", 121.1, tray="A"),
        entry("separation_ended", 121.2, tray="A"),
    )
    without = profile.with_entries(emptied)
    assert "start" not in [due.kind for due in due_list(replay(without, moment(123)))]
    more = without.with_entries([entry("supplies_added", 123, supplies_kg={CARDBOARD: 0.6})])
    (due,) = [due for due in due_list(replay(more, moment(124))) if due.kind == "start"]
    assert due.what == "There is room for tray A with fresh bedding."
    back = more.with_entries([started("D", 124)])
    assert order(replay(back, moment(125))) == "DBC"


def test_a_stock_nobody_counted_is_taken_at_the_keepers_word() -> None:
    """Left out without a word on the stock: nothing is said until some came in, or a tray is started."""
    profile, _ = after_a_turn_without()
    stack = replay(profile, moment(122))
    assert not bedding_at_hand(stack)
    assert "start" not in [due.kind for due in due_list(stack)]
    some = entry("supplies_added", 123, supplies_kg={CARDBOARD: 0.6})
    assert bedding_at_hand(replay(profile.with_entries([some]), moment(124)))
    other = entry("supplies_added", 123, supplies_kg={"torn newspaper": 0.6})
    assert bedding_at_hand(replay(profile.with_entries([other]), moment(124)))
    assert bedding_at_hand(replay(profile.with_entries([started("D", 123)]), moment(124)))


def test_room_in_the_stack_is_not_told_of_while_there_is_no_bedding() -> None:
    journal = (*a_usual_bin(), stock(0.1, 62))
    assert "start" not in [due.kind for due in due_list(stack_of(*journal, as_of=63))]
    assert "start" in [due.kind for due in due_list(stack_of(*journal, stock(0.3, 62.5), as_of=63))]


def test_the_next_turn_after_it_goes_on() -> None:
    profile, _ = after_a_turn_without(stock(0.1))
    emptied = (entry("separation_begun", 121.1, tray="A"), entry("separation_ended", 121.2, tray="A"))
    refilled = (entry("supplies_added", 130, supplies_kg={CARDBOARD: 2.0}), started("D", 130))
    stack = replay(profile.with_entries((*emptied, *refilled)), moment(190))
    turn = next_turn(stack)
    assert (turn.ready, turn.fed, turn.fresh) == (True, "D", "A")


def test_where_only_the_fresh_tray_could_be_fed_the_turn_is_put_off() -> None:
    journal = (started("A", 0, stage="feeding"), *(fed("A", day) for day in (2, 14, 26)), stock(0.1, 50))
    stack = stack_of(*journal, trays="AB", tray_count=2, as_of=61)
    support = turn_supported(stack)
    assert support is not None
    assert support.without is None
    assert support_lines(support)[2] == (
        "Or put the turn off until there is bedding: tray A goes on being fed. "
        "Only a fresh tray could be fed after it."
    )


def test_a_tray_that_comes_back_is_left_off_after_its_separation() -> None:
    """Three trays, and no other free: the leaving one is itself the fresh one."""
    stack = stack_of(*usual(stock(0.1)), trays="ABC", tray_count=3, as_of=121)
    support = turn_supported(stack)
    assert support is not None
    assert support.comes_back
    assert support_lines(support)[2].startswith(
        "Or leave tray A off after its separation: 2 trays stand instead of 3, and tray C is fed."
    )


def test_a_turn_that_brings_no_tray_needs_no_bedding() -> None:
    assert turn_supported(stack_of()) is None
    full = (started("A", 0, stage="feeding"), started("B", 0), started("C", 0))
    assert turn_supported(stack_of(*full, trays="ABC", tray_count=3, as_of=61)) is None


@given(cases())
def test_a_turn_without_a_fresh_tray_is_the_usual_turn_but_for_that_tray(case: Case) -> None:
    stack = case.stack
    usual_turn, without = next_turn(stack), next_turn(stack, bring=False)
    assert without.fresh is None
    leave = [move.tray for move in usual_turn.moves if move.to_level is None]
    assert [move.tray for move in without.moves if move.to_level is None] == leave
    entries = turn_entries(stack, stack.as_of, bring=False)
    assert [entry.kind for entry in entries] in ([], ["turned"])
    after = replay(case.profile.with_entries(entries), stack.as_of)
    assert len(after.findings) == len(stack.findings)
    assert {tray.id for tray in after.trays} == {tray.id for tray in stack.trays}
    said = [entry for entry in entries if isinstance(entry, Turned) and entry.no_fresh]
    assert bool(said) == (bool(entries) and usual_turn.fresh is not None)
    if usual_turn.fed is not None and usual_turn.fed != usual_turn.fresh:
        tray = after.tray(usual_turn.fed)
        assert tray is not None
        assert tray.stage is Stage.FEEDING
