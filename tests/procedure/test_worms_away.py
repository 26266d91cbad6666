"""A tray settled with its worms going to another bin: both journals written, and both taken back."""

from __future__ import annotations

import pytest

from tests.builders import a_profile, entry, moment, started
from tests.procedure.bench import SETTLING, Bench, kinds
from trayturn.domain.entries import (
    Settled,
    Step,
    Undone,
    WormsRemoved,
)
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay, standing
from trayturn.procedure import separation as moves
from trayturn.procedure.splitting import CannotSplit, Split
from trayturn.procedure.undoing import are_halves, go_back_both, half_of_a_move, take_back_both

SHED = a_profile(started("A", 50, stage="feeding"), key="shed", name="Shed", trays="ABC")


class Pair:
    """The same bench, its worms moved to the shed with the settling."""

    def __init__(self) -> None:
        self.bench, self.shed = Bench().settling(), SHED
        self.before = self.bench.standing
        split = Split(self.bench.now, 0.4, 1000, tray="A")
        out, into = moves.settle_between(self.bench.profile, self.shed, SETTLING, split, self.bench.now)
        self.out = out
        self.bench.write(out)
        self.shed = self.shed.with_entries(into)

    @property
    def one(self) -> Profile:
        return self.bench.profile

    def take(self, both: tuple[list[Undone], list[Undone]]) -> None:
        self.bench.write(both[0])
        self.shed = self.shed.with_entries(both[1])


def test_worms_left_over_go_to_another_bin_with_the_settling() -> None:
    pair = Pair()
    assert kinds(pair.out)[:2] == [Settled, WormsRemoved]
    assert pair.bench.step is Step.CLEAN_UP
    assert pair.bench.stack.worms_kg == pytest.approx(0.6)
    assert replay(pair.shed, pair.bench.now).worms_kg == pytest.approx(0.4)
    assert pair.bench.stack.lot("A1") is not None
    assert are_halves(pair.one, pair.shed)
    assert are_halves(pair.shed, pair.one)


@pytest.mark.parametrize("way", ["undo", "back"])
def test_both_halves_go_back_with_the_settling(way: str) -> None:
    pair, now = Pair(), moment(121)
    both = take_back_both if way == "undo" else None
    taken = both(pair.one, pair.shed, now) if both else go_back_both(pair.one, pair.shed, "A", now)
    pair.take(taken)
    assert (pair.bench.standing, pair.bench.step) == (pair.before, Step.SETTLE)
    assert [e for _, e in standing(pair.shed.journal)] == list(SHED.journal)


def test_the_other_bin_can_take_both_back() -> None:
    pair = Pair()
    there, here = take_back_both(pair.shed, pair.one, moment(121))
    pair.take((here, there))
    assert (pair.bench.standing, pair.bench.step) == (pair.before, Step.SETTLE)


def test_once_the_other_bin_has_gone_on_only_this_half_goes_back() -> None:
    pair = Pair()
    pair.shed = pair.shed.with_entries([entry("note", pair.bench.now, text="warm")])
    pair.take(go_back_both(pair.one, pair.shed, "A", moment(121)))
    assert pair.bench.standing == pair.before
    assert replay(pair.shed, moment(121)).worms_kg == pytest.approx(0.4)


def test_a_note_written_since_does_not_hide_the_half_from_going_back() -> None:
    pair = Pair()
    note = entry("note", pair.bench.now, text="a neighbour came by")
    pair.bench.write([note])
    assert half_of_a_move(pair.one.journal) is None
    pair.take(go_back_both(pair.one, pair.shed, "A", moment(121)))
    assert pair.bench.standing == [*pair.before, note]
    assert [e for _, e in standing(pair.shed.journal)] == list(SHED.journal)


def test_a_settling_done_in_another_window_is_not_done_again() -> None:
    pair = Pair()
    split = Split(pair.bench.now, 0.4, tray="A")
    with pytest.raises(CannotSplit, match="gone on in another window"):
        moves.settle_between(pair.one, pair.shed, SETTLING, split, pair.bench.now)
