"""What a skim and a settling write beside their own entry, and how all of it is taken back together."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import a_profile, entry
from tests.procedure.bench import NOW, SETTLING, STICKERS, STONES, Bench, kinds
from trayturn.advice.came_out import came_out, came_out_lines
from trayturn.domain.entries import (
    Amount,
    Contaminant,
    ContaminantFound,
    Entry,
    LotBegun,
    LotStage,
    OversCarried,
    PassDone,
    Settled,
    Step,
)
from trayturn.domain.setup import Units
from trayturn.procedure import separation as moves
from trayturn.procedure.separation import NewLot, Settling, Skim
from trayturn.procedure.summary import summary, whole_summary
from trayturn.procedure.undoing import take_back


def test_a_skim_writes_what_was_found_with_its_pass() -> None:
    bench = Bench()
    written = moves.skimmed(bench.sep, Skim(Amount.NONE, pieces=(STONES,), found=(STICKERS,)), bench.now)
    done, found, *_ = written
    assert isinstance(done, PassDone)
    assert done.pieces == (STONES,)
    assert found == ContaminantFound(
        at=bench.now, what=Contaminant.STICKER, count=3, source="banana", tray="A"
    )


def test_a_settling_carries_pieces_on_and_begins_a_lot() -> None:
    bench = Bench().settled()
    stack = bench.stack
    assert [(over.what, over.count, over.tray, over.turns) for over in stack.overs] == [
        ("avocado stone", 2, "B", 1),
        ("corn cob", 1, "B", 1),
    ]
    lot = stack.lot("A1")
    assert lot is not None
    assert (lot.tray, lot.kg, lot.stage, lot.place) == ("A", 2.5, LotStage.HATCHING, "hatch tub")
    assert [(one.what, one.tray) for one in stack.found] == [
        (Contaminant.STICKER, "A"),
        (Contaminant.TAPE, "A"),
    ]
    assert stack.findings == ()


@pytest.mark.parametrize(
    "settling",
    [
        Settling(None, lot=NewLot("A1")),
        Settling(2.5, pieces=(STONES,)),
        Settling(2.5, pieces_to="B"),
    ],
)
def test_what_is_not_told_is_not_written(settling: Settling) -> None:
    written = moves.settle(Bench().settling().sep, settling, NOW)
    assert not any(isinstance(one, LotBegun | OversCarried) for one in written)


def test_back_takes_all_that_the_settling_wrote_and_all_that_the_skim_wrote() -> None:
    bench = Bench()
    before_skim = bench.standing
    bench.settling()
    before_settling = bench.standing
    bench.write(moves.settle(bench.sep, SETTLING, bench.now))
    bench.write(moves.back(bench.profile.journal, "A", bench.now))
    assert (bench.standing, bench.step) == (before_settling, Step.SETTLE)
    assert (bench.stack.lots, bench.stack.overs) == ((), ())
    bench.write(moves.back(bench.profile.journal, "A", bench.now))
    bench.write(moves.back(bench.profile.journal, "A", bench.now))
    assert (bench.standing, bench.step, bench.stack.found) == (before_skim, Step.SKIM, ())


def test_undo_does_the_same() -> None:
    bench = Bench().settling()
    before = bench.standing
    bench.write(moves.settle(bench.sep, SETTLING, bench.now))
    bench.write(take_back(bench.profile.journal, bench.now))
    assert bench.standing == before


def test_what_the_keeper_found_meanwhile_stays_also_at_the_same_moment() -> None:
    bench = Bench()
    before = [*bench.standing]
    mine = entry("contaminant_found", bench.now, tray="A", what="glass")
    bench.write([mine], 0)
    bench.write(moves.skimmed(bench.sep, Skim(Amount.FEW, found=(STICKERS,)), bench.now), 0)
    bench.write(moves.back(bench.profile.journal, "A", bench.now))
    assert bench.standing == [*before, mine]
    bench.write(moves.back(bench.profile.journal, "A", bench.now))
    assert bench.step is Step.REST
    assert mine in bench.standing


def test_a_lot_that_has_gone_on_holds_the_settling() -> None:
    bench = Bench().settled()
    assert moves.why_not_back(bench.profile.journal, "A") == ""
    bench.write([entry("lot_moved", bench.now, lot="A1", stage="drying")])
    assert moves.why_not_back(bench.profile.journal, "A") == (
        "Lot A1 has gone on since. Take that back first."
    )
    bench.write(take_back(bench.profile.journal, bench.now))
    assert moves.why_not_back(bench.profile.journal, "A") == ""


def test_what_was_answered_is_found_again_after_going_back() -> None:
    bench = Bench().settled()
    bench.write(moves.back(bench.profile.journal, "A", bench.now))
    before = moves.answered_before(bench.profile.journal, bench.sep, Settled)
    along = moves.answered_with(bench.profile.journal, before)
    assert kinds(along) == [OversCarried, ContaminantFound, LotBegun]
    assert moves.answered_with(bench.profile.journal, None) == ()


def test_the_rest_that_was_chosen_is_the_next_one_and_only_that() -> None:
    bench = Bench()
    bench.write(moves.skimmed(bench.sep, Skim(Amount.FEW), bench.now))
    bench.write(moves.again(bench.sep, bench.profile.bin, bench.now, 10.0))
    bench.write(moves.loosened(bench.sep, bench.profile.bin, bench.now))
    assert bench.sep.step is not None
    assert bench.sep.step.planned == timedelta(minutes=10)
    bench.write(moves.rested(bench.sep, bench.now))
    bench.write(moves.skimmed(bench.sep, Skim(Amount.FEW), bench.now))
    bench.write(moves.again(bench.sep, bench.profile.bin, bench.now))
    bench.write(moves.loosened(bench.sep, bench.profile.bin, bench.now))
    assert bench.sep.step is not None
    assert bench.sep.step.planned == bench.profile.bin.rest_time


def test_the_summary_tells_what_came_out_and_what_went() -> None:
    bench = Bench()
    known = entry("overs_carried", 100, tray="C", to="A", pieces=[{"what": "mango stone"}])
    bench.profile = a_profile(*bench.profile.journal, known)
    done = bench.finished()
    assert came_out_lines(bench.stack, done) == [
        "Lot A1 begun, 2.5 kg, hatching, in hatch tub.",
        "On to tray B: 2 x avocado stone, 4 cm; 1 x corn cob.",
        "Gone with it: mango stone, after 1 turn.",
        "Did not belong: 3 stickers (banana) and 1 piece of tape.",
    ]
    lines = whole_summary(bench.stack, done)
    assert lines[0] == "Tray A was separated in 1 pass in 7 min."
    assert "Pieces went to: tray B." not in lines
    assert lines[-1] == "That rests on 1 tray."
    assert summary(done, Units.METRIC)[-1] == "Pass 1: about 1 kg skimmed, few worms seen: damp."


def test_pieces_picked_out_and_not_carried_on_are_told_as_gone() -> None:
    bench = Bench()
    done = bench.finished(Settling(1.0, overs_to="taken out for good"))
    told = came_out(bench.stack, done)
    assert (told.picked, told.left_out, told.carried) == ((STONES,), (STONES,), ())


@given(st.lists(st.sampled_from(["skim", "stop", "settle", "finish", "back", "undo", "note"]), max_size=14))
def test_whatever_is_pressed_the_journal_holds_together(keys: list[str]) -> None:
    bench = Bench()
    for key in keys:
        bench.write(_pressed(bench, key))
    stack = bench.stack
    assert stack.findings == ()
    done = [*stack.separations, *stack.past_separations]
    settled = [one for one in done if one.settled is not None]
    assert len(stack.lots) == len(stack.harvests) == len(settled)
    assert bool(stack.overs) == bool(settled)


def _pressed(bench: Bench, key: str) -> Sequence[Entry]:
    """What that key writes, where it does anything at this step."""
    journal, now, sep = bench.profile.journal, bench.now, bench.stack.separation("A")
    step = sep.step.step if sep is not None and sep.step is not None else None
    if key == "note":
        return [entry("note", now, text="warm")]
    if key == "undo":
        return take_back(journal, now)
    if key == "back":
        return moves.back(journal, "A", now)
    if sep is None:
        return []
    if key == "skim" and step is Step.SKIM:
        return moves.skimmed(sep, Skim(Amount.FEW, 1.0, pieces=(STONES,), found=(STICKERS,)), now)
    if key == "stop" and step is Step.DECIDE:
        return moves.stop(sep, now)
    if key == "settle" and step is Step.SETTLE:
        return moves.settle(sep, SETTLING, now)
    return moves.finish(sep, now) if key == "finish" and step is Step.CLEAN_UP else []
