"""Pieces by name: what is offered, how those of several passes add up, and what they may have come with."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tests.builders import a_usual_bin, entry, fed, stack_of
from tests.strategies import pieces
from trayturn.advice.entry_words import entry_words
from trayturn.advice.pieces import (
    MOST_NAMED,
    USUAL,
    gathered,
    kinds_of_pieces,
    known_overs,
    piece_told,
    sources_named,
)
from trayturn.domain.entries import Piece
from trayturn.domain.setup import Units
from trayturn.domain.supplies import fold


def test_pieces_of_one_kind_add_up_however_they_are_written() -> None:
    first = (Piece(what="Avocado stone", count=2, size_cm=4.0), Piece(what="corn cob"))
    second = (Piece(what="avocado  stone", size_cm=5.0),)
    assert gathered([first, second, ()]) == [
        Piece(what="Avocado stone", count=3, size_cm=5.0),
        Piece(what="corn cob"),
    ]


@given(st.lists(st.lists(pieces, max_size=4), max_size=4))
def test_no_piece_is_lost_and_none_is_counted_twice(passes: list[list[Piece]]) -> None:
    found = gathered(passes)
    names = [fold(piece.what) for piece in found]
    assert len(names) == len(set(names))
    assert sum(piece.count for piece in found) == sum(piece.count for one in passes for piece in one)
    assert gathered([found]) == found


def test_pieces_that_this_bin_has_had_are_offered_first() -> None:
    carried = entry(
        "overs_carried", 60, tray="C", to="A", pieces=[{"what": "peach stone"}, {"what": "Corn cob"}]
    )
    names = kinds_of_pieces(stack_of(*a_usual_bin(), carried))
    assert names[:2] == ["peach stone", "Corn cob"]
    assert len(names) == len(USUAL) + 1
    assert not any("bone" in name for name in names)


def test_pieces_known_to_lie_in_a_tray_are_those_carried_into_it() -> None:
    told = [entry("overs_carried", 60, tray="C", to=to, pieces=[{"what": f"cob {to}"}]) for to in "AB"]
    assert [over.what for over in known_overs(stack_of(*a_usual_bin(), *told), "A")] == ["cob A"]


def test_sources_named_before_stand_before_what_the_tray_holds() -> None:
    found = [
        entry("contaminant_found", 60 + n, what="tape", source=source)
        for n, source in enumerate(["parcels", "tea bags", "Parcels", ""])
    ]
    stack = stack_of(*a_usual_bin(), fed("B", 62, {"apple": 2.0, "cabbage": 0.1}), *found)
    names = sources_named(stack, "B", ["lunch boxes"])
    assert names == ["lunch boxes", "Parcels", "tea bags", "apple", "cabbage", "shredded cardboard"]


def test_a_long_list_of_sources_still_leaves_room_for_the_trays_own() -> None:
    found = [entry("contaminant_found", 60 + n, what="tape", source=f"shop {n}") for n in range(20)]
    names = sources_named(stack_of(*a_usual_bin(), *found), "B")
    assert names[0] == "shop 19"
    assert len(names) == MOST_NAMED + 2
    assert sources_named(stack_of(*a_usual_bin()), "nowhere") == []


def test_a_piece_is_told_in_the_keepers_units() -> None:
    assert piece_told(Piece(what="corn cob", count=2, size_cm=10.16), Units.US) == "2 x corn cob, 4 in"
    assert piece_told(Piece(what="corn cob"), Units.METRIC) == "1 x corn cob"


def test_pieces_of_a_pass_and_a_chosen_rest_are_told_in_the_journal() -> None:
    done = entry(
        "pass_done", 1, tray="A", pass_number=1, worms_seen="few", pieces=[{"what": "corn cob", "count": 2}]
    )
    assert "picked out 2 corn cob" in entry_words(done, Units.METRIC)
    begun = entry("step_started", 1, tray="A", step="loosen", pass_number=2, rest_minutes=10.0)
    assert entry_words(begun, Units.METRIC).endswith("a rest of 10 min to follow")
