"""What follows a separation: lots of castings, jars, pieces that go round again, and what does not belong."""

from typing import Any

import pytest

from tests.builders import a_profile, entry, moment, started, undone
from trayturn.domain.entries import Entry, LotStage
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack

BEGUN = entry("lot_begun", 60, lot="C1", tray="C", kg=4.0, place="shed")


def after(*entries: Entry, day: float = 200) -> Stack:
    return replay(a_profile(*entries), moment(day))


def codes(stack: Stack) -> list[str]:
    return [finding.code for finding in stack.findings]


def lot(*entries: Any) -> Any:
    found = after(BEGUN, *entries).lot("C1")
    assert found is not None
    return found


def test_a_lot_goes_through_its_stages_with_what_was_weighed() -> None:
    one = lot()
    assert (one.stage, one.kg, one.begun_kg, one.place, one.tray) == (
        LotStage.HATCHING,
        4.0,
        4.0,
        "shed",
        "C",
    )
    one = lot(entry("lot_moved", 90, lot="C1", stage="drying", kg=3.0, moisture_pct=60))
    assert (one.stage, one.stage_since, one.kg, one.begun_kg) == (LotStage.DRYING, moment(90), 3.0, 4.0)
    assert (one.moisture_pct, one.moisture_at) == (60, moment(90))
    one = lot(
        entry("lot_moved", 90, lot="C1", stage="drying"),
        entry("lot_moved", 95, lot="C1", stage="drying", moisture_pct=40),
    )
    assert (one.stage_since, one.kg, one.moisture_pct) == (moment(90), 4.0, 40)


def test_sieving_leaves_what_fell_through() -> None:
    one = lot(entry("sieved", 100, lot="C1", mesh_mm=6, passed_kg=2.4, oversize_kg=0.4))
    assert one.kg == 2.4
    assert one.sieved[0].oversize_kg == 0.4
    assert lot(entry("sieved", 100, lot="C1", mesh_mm=6)).kg == 4.0


def test_where_only_the_oversize_was_weighed_the_lot_is_what_is_left() -> None:
    assert lot(entry("sieved", 100, lot="C1", mesh_mm=6, oversize_kg=2.5)).kg == pytest.approx(1.5)
    # On kitchen scales parts may come out a little over the whole: nothing is left then, not less.
    assert lot(entry("sieved", 100, lot="C1", mesh_mm=6, oversize_kg=4.1)).kg == 0.0
    nobody_weighed = entry("lot_begun", 60, lot="C2")
    stack = after(nobody_weighed, entry("sieved", 100, lot="C2", mesh_mm=6, oversize_kg=2.5))
    assert stack.lots[0].kg is None


def test_jars_are_filled_and_emptied() -> None:
    filled = entry("packed", 110, lot="C1", label="tall", kg=0.5, count=4)
    more = entry("packed", 111, lot="C1", label="tall", kg=0.5)
    one = lot(filled, more)
    jar = one.jars["tall"]
    assert (jar.kg, jar.count, jar.left_kg, jar.packed_at) == (2.5, 5, 2.5, moment(110))
    assert one.kg == 1.5
    one = lot(
        filled,
        entry("castings_used", 120, lot="C1", label="tall", kg=0.5),
        entry("castings_given", 121, lot="C1", kg=0.25),
    )
    assert (one.jars["tall"].left_kg, one.kg, one.left_kg) == (1.5, 1.75, 3.25)
    assert (len(one.used), len(one.given)) == (1, 1)


def test_a_lot_nobody_weighed_has_no_mass_left_to_tell() -> None:
    stack = after(entry("lot_begun", 60, lot="C1"), entry("packed", 70, lot="C1", label="a", kg=1))
    assert stack.lot("C1") is not None
    assert stack.lots[0].kg is None
    assert stack.lots[0].left_kg is None
    assert stack.lots[0].jars["a"].left_kg == 1


def test_more_than_there_was_is_said_and_stops_at_nothing() -> None:
    stack = after(BEGUN, entry("castings_used", 61, lot="C1", kg=5.0))
    assert stack.lots[0].kg == 0
    assert codes(stack) == ["more-than-there-was"]


@pytest.mark.parametrize(
    ("wrong", "code"),
    [
        (entry("lot_begun", 61, lot="C1"), "lot-twice"),
        (entry("lot_moved", 61, lot="X", stage="ready"), "no-lot"),
        (entry("lure_set", 61, lot="X"), "no-lot"),
        (entry("packed", 61, lot="X", label="a", kg=1), "no-lot"),
        (entry("sieved", 61, lot="X", mesh_mm=6), "no-lot"),
        (entry("castings_used", 61, lot="X"), "no-lot"),
        (entry("castings_given", 61, lot="C1", label="none"), "no-jar"),
        (entry("hatchlings_recovered", 61, lot="X"), "no-lot"),
        (entry("lot_closed", 61, lot="X"), "no-lot"),
        (entry("source_stopped", 61, source="parcels"), "stopped-unknown"),
    ],
)
def test_what_cannot_be_is_a_finding_and_changes_nothing(wrong: Entry, code: str) -> None:
    stack = after(BEGUN, wrong)
    assert codes(stack) == [code]
    assert stack.lots == after(BEGUN).lots


def test_hatchlings_weighed_back_into_a_tray_are_worms_put_in() -> None:
    put = entry("worms_added", 0, worms_kg=0.5)
    back = entry("hatchlings_recovered", 80, lot="C1", counted=50, worms_kg=0.01, tray="B")
    stack = after(put, started("B"), BEGUN, entry("lure_set", 78, lot="C1", bait="melon"), back)
    assert stack.worms_kg == pytest.approx(0.51)
    assert stack.lots[0].lures[0].bait == "melon"
    assert stack.lots[0].hatchlings == (back,)
    elsewhere = entry("hatchlings_recovered", 80, lot="C1", worms_kg=0.01)
    assert after(put, BEGUN, elsewhere).worms_kg == 0.5


def test_a_closed_lot_has_nothing_left_and_undo_opens_it() -> None:
    closed = entry("lot_closed", 150, lot="C1")
    assert after(BEGUN, closed).lots[0].closed_at == moment(150)
    assert after(BEGUN, closed, undone(closed, 151)).lots[0].closed_at is None


def carried(tray: str, to: str, day: float, *pieces: dict[str, Any]) -> Entry:
    made: Entry = entry("overs_carried", day, tray=tray, to=to, pieces=pieces)
    return made


STONE = {"what": "avocado stone", "count": 2, "size_cm": 4}


def test_a_piece_counts_the_turns_it_survives() -> None:
    stack = after(carried("C", "B", 60, STONE))
    (over,) = stack.overs
    assert (over.tray, over.turns, over.first_at, over.count) == ("B", 1, moment(60), 2)
    again = {"what": "Avocado  stone", "count": 1}
    stack = after(carried("C", "B", 60, STONE), carried("B", "A", 120, again))
    left, over = stack.overs
    assert (over.tray, over.turns, over.first_at, over.last_at) == ("A", 2, moment(60), moment(120))
    assert (over.count, over.size_cm) == (1, 4)
    assert (left.tray, left.count, left.turns) == ("B", 1, 1)


def test_pieces_of_another_tray_are_others() -> None:
    stack = after(carried("C", "B", 60, STONE), carried("D", "A", 120, STONE))
    assert [(over.tray, over.turns) for over in stack.overs] == [("B", 1), ("A", 1)]


def test_what_is_not_carried_on_when_its_tray_is_separated_is_gone() -> None:
    journal = (
        started("B"),
        carried("C", "B", 60, STONE),
        entry("separation_begun", 120, tray="B"),
        entry("separation_ended", 121, tray="B"),
    )
    stack = after(*journal)
    assert stack.overs == ()
    assert [(over.what, over.gone_at) for over in stack.overs_gone] == [("avocado stone", moment(121))]
    put_back = (*journal[:3], entry("separation_ended", 121, tray="B", outcome="put_back"))
    assert len(after(*put_back).overs) == 1


def test_a_source_is_stopped_until_more_comes_in_from_it() -> None:
    tape = entry("contaminant_found", 60, what="tape", count=3, source="Parcels", tray="C")
    stopped = entry("source_stopped", 61, source="parcels")
    stack = after(tape, stopped)
    assert [(one.what, one.count, one.source) for one in stack.found] == [("tape", 3, "Parcels")]
    assert stack.sources_stopped == {"parcels": moment(61)}
    again = entry("contaminant_found", 90, what="tape", source="parcels")
    assert after(tape, stopped, again).sources_stopped == {}


def test_what_came_again_after_it_was_stopped_says_since_when_it_was() -> None:
    tape = entry("contaminant_found", 60, what="tape", source="parcels")
    stopped = entry("source_stopped", 61, source="Parcels")
    again = entry("contaminant_found", 90, what="tape", source="parcels")
    later = entry("contaminant_found", 91, what="tape", source="parcels")
    found = after(tape, stopped, again, later).found
    assert [one.stopped_before for one in found] == [None, moment(61), None]


def test_pieces_of_one_kind_that_come_to_lie_together_are_counted_together() -> None:
    many = {"what": "avocado stone", "count": 3, "size_cm": 5}
    stack = after(carried("C", "B", 60, STONE), carried("B", "A", 120, STONE), carried("D", "A", 121, many))
    (over,) = stack.overs
    assert (over.count, over.size_cm, over.turns, over.first_at, over.last_at) == (
        5,
        5,
        2,
        moment(60),
        moment(121),
    )


def test_pieces_written_down_just_after_their_tray_was_emptied_are_those_that_lay_in_it() -> None:
    journal = (
        started("B"),
        carried("C", "B", 60, STONE),
        entry("separation_begun", 120, tray="B"),
        entry("separation_ended", 120.1, tray="B"),
        started("B", 120.2),
    )
    stack = after(*journal, carried("B", "A", 120.5, STONE))
    assert stack.overs_gone == ()
    assert [(over.tray, over.turns, over.gone_at) for over in stack.overs] == [("A", 2, None)]
    late = after(*journal, carried("B", "A", 125, STONE))
    assert [over.turns for over in late.overs_gone] == [1]
    assert [over.turns for over in late.overs] == [1]


def test_pieces_left_behind_are_told_to_have_gone_with_their_tray() -> None:
    many = {"what": "avocado stone", "count": 5, "size_cm": 4}
    journal = (started("B"), carried("C", "B", 60, many), entry("separation_begun", 120, tray="B"))
    ended = entry("separation_ended", 120.1, tray="B")
    before = after(*journal, carried("B", "A", 120, STONE), ended)
    later = after(*journal, ended, carried("B", "A", 120.2, STONE))
    for stack in (before, later):
        assert [(over.tray, over.count, over.turns) for over in stack.overs] == [("A", 2, 2)]
        assert [(over.tray, over.count, over.turns) for over in stack.overs_gone] == [("B", 3, 1)]


def test_pieces_go_with_a_tray_that_leaves_the_stack() -> None:
    off = entry("turned", 70, order=("A",))
    gone = after(started("B"), carried("C", "B", 60, STONE), off, started("B", 80))
    assert gone.overs == ()
    assert [(over.what, over.gone_at) for over in gone.overs_gone] == [("avocado stone", moment(70))]


def test_pieces_cannot_be_carried_to_their_own_tray() -> None:
    stack = after(carried("B", "B", 60, STONE))
    assert (codes(stack), stack.overs) == (["carried-nowhere"], ())


def test_a_tray_that_pieces_went_to_has_to_be_one_of_the_trays() -> None:
    stack = replay(a_profile(carried("A", "ZZ", 60, STONE), trays="AB"), moment(61))
    assert codes(stack) == ["unlisted-tray"]


def test_worms_that_were_never_weighed_are_not_the_few_hatchlings_that_were() -> None:
    back = entry("hatchlings_recovered", 80, lot="C1", worms_kg=0.01, tray="B")
    assert after(started("B"), BEGUN, back).worms_kg is None


@pytest.mark.parametrize(
    ("parts", "told"),
    [
        ({"passed_kg": 9.0}, True),
        ({"passed_kg": 3.0, "oversize_kg": 3.0}, True),
        ({"oversize_kg": 4.5}, True),
        ({"passed_kg": 3.2, "oversize_kg": 0.9}, False),
        ({}, False),
    ],
)
def test_no_more_comes_off_a_sieve_than_was_laid_on_it(parts: dict[str, float], told: bool) -> None:
    stack = after(BEGUN, entry("sieved", 100, lot="C1", mesh_mm=6, **parts))
    assert codes(stack) == ["more-than-there-was"] * told


def test_a_jar_filled_anew_is_a_new_one() -> None:
    first = entry("packed", 101, lot="C1", label="tall", kg=0.5)
    empty = entry("castings_used", 110, lot="C1", label="tall", kg=0.5)
    again = entry("packed", 170, lot="C1", label="tall", kg=0.4, use_by=moment(300))
    jar = lot(first, empty, again).jars["tall"]
    assert (jar.packed_at, jar.use_by, jar.count, jar.left_kg) == (moment(170), moment(300), 1, 0.4)


def test_jars_filled_up_are_used_by_the_earliest_date() -> None:
    first = entry("packed", 101, lot="C1", label="tall", kg=0.5, use_by=moment(200))
    more = entry("packed", 110, lot="C1", label="tall", kg=0.5, use_by=moment(190))
    jar = lot(first, more).jars["tall"]
    assert (jar.packed_at, jar.use_by, jar.count, jar.left_kg) == (moment(101), moment(190), 2, 1.0)


def test_codes_of_lots_are_alike_in_whatever_case() -> None:
    stack = after(BEGUN, entry("lot_begun", 61, lot="c1", kg=1.0))
    assert (codes(stack), len(stack.lots)) == (["lot-twice"], 1)
    used = after(BEGUN, entry("castings_used", 61, lot="c1", kg=1.0))
    assert (codes(used), used.lots[0].kg) == ([], 3.0)


def test_what_is_done_with_a_closed_lot_opens_it_again() -> None:
    closed = entry("lot_closed", 150, lot="C1")
    one = lot(closed, entry("castings_used", 160, lot="C1", kg=1.0))
    assert (one.closed_at, one.kg) == (None, 3.0)
