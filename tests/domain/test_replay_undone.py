"""Entries taken back: as if never written, newest first, and told when there was nothing to take back."""

from __future__ import annotations

from datetime import UTC

import pytest

from tests.builders import a_usual_bin, codes, entry, fed, order, stack_of, started, undone
from trayturn.domain.entries import Entry
from trayturn.domain.replay import standing


def test_an_undone_entry_never_happened_whatever_moment_is_asked_about() -> None:
    feeding = fed("B", 61)
    before = stack_of(*a_usual_bin()[:-1], as_of=62)
    assert stack_of(*a_usual_bin(), undone(feeding, 100), as_of=62) == before


def test_undoing_goes_back_step_by_step() -> None:
    first, second = fed("A", 1), fed("A", 2)
    assert standing([first, second, undone(second, 3), undone(first, 4)]) == []
    again: list[Entry] = [first, undone(first, 3), first]
    assert standing(again) == [(3, first)]


def test_of_two_alike_the_later_is_taken_back_first() -> None:
    one, two = fed("A", 1), fed("A", 1, {"apple": 1})
    assert standing([one, two, undone(one, 2)]) == [(1, one)]
    assert standing([one, two, undone(one, 2), undone(one, 3)]) == []


def test_undoing_finds_the_moment_by_any_offset() -> None:
    feeding = fed("A", 1)
    taken_back = entry("undone", 2, entry_at=feeding.at.astimezone(UTC), entry_kind="fed")
    assert standing([feeding, taken_back]) == []


@pytest.mark.parametrize("times", [2, 3])
def test_undone_twice_is_told_and_takes_nothing_else(times: int) -> None:
    feeding = fed("A", 1)
    stack = stack_of(started("A"), feeding, *(undone(feeding, day) for day in range(2, 2 + times)))
    assert codes(stack) == ["undone-nothing"] * (times - 1)
    assert order(stack) == "A"


def test_undoing_what_is_not_there_is_told() -> None:
    (finding,) = stack_of(started("A"), undone(fed("A", 1), 2)).findings
    assert finding.code == "undone-nothing"
    assert str(finding) == (
        "entry 2 (undone, 2026-03-03 10:00): "
        "No entry fed of 2026-03-02 10:00 stands before it to be taken back. "
        "Correct entry_at or entry_kind."
    )


def test_an_entry_written_after_the_undoing_stands() -> None:
    feeding = fed("A", 1)
    stack = stack_of(started("A"), undone(feeding, 2), feeding)
    assert stack.trays[0].feedings == 1


def test_of_two_trays_worked_on_in_one_second_the_one_that_is_named_is_meant() -> None:
    a, b = fed("A", 1), fed("B", 1)
    for meant, left in ((a, (2, b)), (b, (1, a))):
        gone = entry("undone", 2, entry_at=meant.at, entry_kind="fed", entry_tray=meant.tray)
        assert standing([a, b, gone]) == [left]


def test_a_tray_that_was_not_fed_then_is_not_the_one_that_was() -> None:
    gone = entry("undone", 2, entry_at=fed("A", 1).at, entry_kind="fed", entry_tray="B")
    stack = stack_of(started("A"), fed("A", 1), gone)
    assert stack.trays[0].feedings == 1
    assert [str(finding) for finding in stack.findings] == [
        "entry 3 (undone, 2026-03-03 10:00): "
        "No entry fed of tray B of 2026-03-02 10:00 stands before it to be taken back. "
        "Correct entry_at, entry_kind or entry_tray."
    ]
