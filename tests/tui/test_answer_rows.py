"""Rows that count: steps, digits, and what is not counted yet."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import a_usual_bin, stack_of
from tests.strategies import pieces, trays
from trayturn.domain.entries import Contaminant, LotStage, Piece
from trayturn.domain.lots import Over
from trayturn.domain.setup import Units
from trayturn.domain.stack import Separation
from trayturn.procedure.separation import Thing
from trayturn.tui.screens.separation.rows import (
    LotRow,
    PieceRow,
    Places,
    known_row,
    piece_row,
    thing_row,
    waits_words,
)
from trayturn.tui.screens.separation.settling import NOWHERE, settle_rows, tidied
from trayturn.tui.widgets.answer_rows import MOST, Answer, Count

NOW = stack_of(*a_usual_bin(), as_of=120)


def drawn(row: Answer) -> str:
    return "".join(text for text, _ in row.spans(0, False))


def number(row: Answer) -> int | None:
    assert isinstance(row, Count)
    return row.number


def test_a_count_steps_and_never_goes_below_nothing() -> None:
    row = Count("n", "", step=50)
    assert drawn(row) == "-  not counted  +"
    assert number(row.stepped(1)) == 50
    assert number(row.stepped(-1)) == 0
    assert drawn(row.stepped(30)) == "-  1,500  +"
    assert number(replace(row, number=MOST).stepped(1)) == MOST
    assert row.picked(3) is row


@given(st.lists(st.integers(-3, 3), max_size=20), st.integers(1, 9))
def test_a_digit_is_the_number_whatever_was_stepped(steps: list[int], digit: int) -> None:
    row: Answer = Count("n", "")
    for by in steps:
        row = row.stepped(by)
        assert 0 <= (number(row) or 0) <= MOST
    assert number(row.picked(digit)) == digit


def test_pieces_known_are_all_there_at_the_first_plus_and_none_at_the_first_minus() -> None:
    over = Over("avocado stone", 3, 4.0, "A", NOW.as_of, NOW.as_of, turns=2)
    row = known_row(over, Units.METRIC, 1)
    assert (drawn(row), row.piece) == ("avocado stone-  not seen yet  +", None)
    assert row.note.startswith("3 went in, survived 2 turns.")
    assert number(row.stepped(1)) == 2
    assert number(row.stepped(1).stepped(1)) == 3
    assert number(row.stepped(-1)) == 0


@given(pieces)
def test_a_piece_comes_out_of_its_row_as_it_went_in(piece: Piece) -> None:
    assert piece_row(piece, Units.METRIC).piece == piece
    assert replace(piece_row(piece, Units.US), number=0).piece is None


def test_a_size_is_taken_and_left_out_again() -> None:
    row = piece_row(Piece(what="corn cob"), Units.METRIC).sized(10.0, Units.METRIC)
    assert drawn(row) == "corn cob-  1, 10 cm  +"
    assert row.sized(None, Units.METRIC).piece == Piece(what="corn cob")


@pytest.mark.parametrize("source", ["", "banana"])
def test_a_thing_comes_out_of_its_row_as_it_went_in(source: str) -> None:
    thing = Thing(Contaminant.TAPE, 2, source)
    assert thing_row(thing).thing == thing


def test_a_lot_waits_where_the_keeper_says_at_the_stage_that_is_chosen() -> None:
    waits = ((LotStage.HATCHING, "hatch tub"), (LotStage.DRYING, "drying tray"))
    row = LotRow("lot", "Lot A1", "", tuple(map(waits_words, waits)), 1, "A1", waits)
    placed = row.at("by the window")
    assert placed.waiting == (LotStage.DRYING, "by the window")
    assert placed.at("drying tray").waiting == (LotStage.DRYING, "drying tray")
    assert len(placed.at("by the window").waits) == 3


@given(
    st.lists(st.sampled_from(["worms", "overs", "rest", "lot"]), max_size=8),
    st.lists(pieces, max_size=2),
    trays,
)
def test_rows_stay_the_same_once_they_are_tidy(steps: list[str], found: list[Piece], tray: str) -> None:
    sep = Separation(tray, NOW.as_of, 1)
    rows = settle_rows(NOW, sep, (), {"shed": NOW})
    rows[-1:-1] = [piece_row(piece, Units.METRIC) for piece in found]
    for key in ["", *steps]:
        rows = tidied([row.stepped(1) if row.key == key else row for row in rows], NOW)
        assert tidied(rows, NOW) == rows
        keys = [row.key for row in rows]
        assert len({"moved", "counted"} & set(keys)) in (0, 2)
        overs = next(row for row in rows if row.key == "overs")
        assert isinstance(overs, Places)
        assert not (found and overs.value == NOWHERE)
    assert sum(isinstance(row, PieceRow) for row in rows) == len(found)
