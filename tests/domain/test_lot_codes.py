"""The code of the next lot: short, free in the bin, and one that a lot may have."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import entry, stack_of
from tests.strategies import TRAYS
from trayturn.domain.entries import Entry, LotBegun
from trayturn.domain.lots import next_code
from trayturn.domain.stack import Stack


def having(*codes: str) -> Stack:
    return stack_of(*(entry("lot_begun", day, lot=code) for day, code in enumerate(codes)))


@pytest.mark.parametrize(
    ("codes", "tray", "expected"),
    [
        ((), "C", "C1"),
        (("C1",), "C", "C2"),
        (("C1", "C2", "B1"), "C", "C3"),
        (("C2",), "C", "C1"),
        (("c1",), "C", "C2"),
        ((), "12", "12-1"),
        (("12-1",), "12", "12-2"),
        ((), "Cellar-tray", "Cellar-tray1"),
        ((), "Cellar-trays", "Cellar-tray1"),
        (("Cellar-tray1",), "Cellar-trays", "Cellar-tray2"),
    ],
)
def test_it_is_the_tray_with_the_next_free_number(codes: tuple[str, ...], tray: str, expected: str) -> None:
    assert next_code(having(*codes), tray) == expected


@given(st.sampled_from([*TRAYS, "x" * 12, "9" * 12, "T" + "_" * 11]), st.integers(0, 30))
def test_lots_of_one_tray_never_share_a_code(tray: str, number: int) -> None:
    stack = having()
    told: list[Entry] = []
    for _ in range(number):
        told.append(LotBegun(at=stack.as_of, lot=next_code(stack, tray)))
        stack = stack_of(*told)
    assert len(stack.lots) == number
    assert not stack.findings
