"""A row of the ledger: what went in, what came out, by what was weighed, and nothing that was not."""

from __future__ import annotations

import pytest

from tests.advice.ledger.turns import bin_of, book, one_turn, row, separation
from tests.builders import entry, fed, moment, started, turned
from trayturn.advice.bands import Band
from trayturn.advice.ledger.books import ledger_of
from trayturn.advice.ledger.castings import How
from trayturn.advice.ledger.remarks import remarks
from trayturn.advice.ledger.words import entries_behind, story
from trayturn.advice.pantry import shipped_pantry
from trayturn.domain.setup import Units

METRIC = Units.METRIC


def test_one_kilogram_at_85_percent_leaves_a_quarter_of_castings_at_70_percent() -> None:
    """Worked by hand with 50 % lost (Pondicherry University): of 0.15 kg of solids 0.075 kg stays."""
    read = entry("checked", 95, tray="A", moisture_pct=70)
    one = row(*one_turn(items={"food": 1.0}, settled=0.25), read)
    assert one.solids_kg == pytest.approx(0.15)
    assert one.kept is not None
    assert one.kept.mid == pytest.approx(0.5)
    assert one.dry_kg is not None
    assert one.dry_kg.mid == pytest.approx(0.075)
    assert one.per_scraps == pytest.approx(0.25)
    assert one.per_solids == pytest.approx(0.25 / 0.15)
    assert one.days == 100


def test_bedding_counts_among_the_solids_and_water_does_not() -> None:
    one = row(*one_turn(card=0.5, settled=2.0))
    assert (one.scraps_kg, one.bedding_kg) == (4.0, 0.5)
    assert one.solids_kg == pytest.approx(4 * 0.15 + 0.5)


def test_what_is_not_in_the_table_is_reckoned_as_mixed_scraps_and_named() -> None:
    one = row(*one_turn(items={"zzyzx": 1.0}, settled=0.2))
    assert one.stand_ins == ("zzyzx",)
    assert one.solids_kg == pytest.approx(1 - (shipped_pantry().scraps("zzyzx")[0].moisture or 0))
    assert "zzyzx reckoned as mixed kitchen scraps" in " ".join(story(one, moment(200), METRIC))


@pytest.mark.parametrize(
    ("skims", "settled", "kg", "how"),
    [
        ((1.0, 0.5), 1.6, 1.6, How.SETTLED),
        ((1.0, 0.5), None, 1.5, How.SKIMS),
        ((1.0, None), None, 1.0, How.IN_PART),
        ((None, None), None, None, How.NOT),
        ((), None, None, How.NOT),
    ],
)
def test_castings_are_what_was_weighed_of_them(
    skims: tuple[float | None, ...], settled: float | None, kg: float | None, how: How
) -> None:
    one = row(*one_turn(skims=skims, settled=settled))
    assert (one.castings.kg, one.castings.how) == (kg, how)
    assert (one.castings.passes, one.castings.skims) == (len(skims), sum(s is not None for s in skims))
    assert (one.per_scraps is None) is (how in (How.IN_PART, How.NOT))
    assert (one.kept is None) is (how in (How.IN_PART, How.NOT))


def test_a_lot_put_by_is_weighed_in_place_of_skims() -> None:
    lot = entry("lot_begun", 101, lot="A1", tray="A", kg=1.4)
    assert row(*one_turn(skims=(1.0,)), lot).castings.how is How.LOT
    assert row(*one_turn(skims=(1.0,)), lot).castings.kg == 1.4
    more = entry("lot_begun", 102, lot="A2", tray="A", kg=0.2)
    assert row(*one_turn(skims=(1.0,)), lot, more).castings.kg == pytest.approx(1.6)
    unweighed = entry("lot_begun", 102, lot="A2", tray="A")
    assert row(*one_turn(skims=(1.0,)), lot, unweighed).castings.how is How.SKIMS
    assert row(*one_turn(settled=1.5), lot).castings.kg == 1.5
    other = entry("lot_begun", 101, lot="B1", tray="B", kg=9)
    assert row(*one_turn(skims=(1.0,)), other).castings.kg == 1.0


def test_a_lot_belongs_to_the_separation_begun_before_it() -> None:
    lots = [entry("lot_begun", day, lot=f"L{day}", tray="A", kg=kg) for day, kg in ((101, 1.0), (401, 2.0))]
    two, one = book(*one_turn(), *one_turn(day=300), *lots).turns
    assert (one.castings.kg, two.castings.kg) == (1.0, 2.0)


def test_a_tray_put_back_is_one_row_with_all_of_its_castings() -> None:
    put_back = separation("A", 50, (0.6,), outcome="put_back")
    turn = one_turn(settled=1.5)
    one = row(*turn, *put_back)
    assert one.castings.kg == pytest.approx(2.1)
    assert one.castings.whole
    assert one.scraps_kg == 4.0
    unweighed = separation("A", 50, (None,), outcome="put_back")
    assert row(*turn, *unweighed).castings.how is How.IN_PART
    given_up = separation("A", 50, outcome="put_back")
    assert row(*turn, *given_up).castings.how is How.SETTLED
    assert row(*one_turn(), *put_back).castings.how is How.IN_PART


def test_moisture_counts_when_read_after_the_last_meal_and_near_the_end() -> None:
    turn = one_turn(settled=1.0)
    assert row(*turn, entry("checked", 95, tray="A", moisture_pct=72)).water.share.mid == pytest.approx(0.72)
    felt = row(*turn, entry("checked", 95, tray="A", feel="damp")).water
    assert felt.by_feel
    assert list(felt.share) == pytest.approx([0.65, 0.70, 0.75])
    assert row(*turn, entry("checked", 60, tray="A", moisture_pct=72)).water.read_at is None
    fed_after = fed("A", 96, {"food": 0.1})
    assert row(*turn, entry("checked", 95, tray="A", moisture_pct=72), fed_after).water.read_at is None
    assert row(*turn).water.share == (0.65, 0.75, 0.85)


def test_what_went_in_unseen_gives_no_yield_and_says_why() -> None:
    ended = separation("A", 100, settled=2.0)
    moved = row(started("A", 0, came_from="Shed", stage="feeding"), fed("A", 5), *ended)
    assert (moved.per_scraps, moved.kept) == (None, None)
    assert "It came filled from Shed" in " ".join(story(moved, moment(200), METRIC))
    turned_in = row(started("B", 0), turned("BA", 1), fed("A", 5), *ended)
    assert "It came in by a turn without being started" in " ".join(story(turned_in, moment(200), METRIC))


def test_more_solids_out_than_in_says_which_entry_to_look_at() -> None:
    one = book(*one_turn(items={"food": 1.0}, settled=9.0))
    (remark,) = one.remarks
    assert remark.code == "more-than-went-in"
    assert "9 kg of castings hold 900 g of solids or more, and 150 g went in" in remark.what
    assert f"the entry settled of {moment(100.5):%Y-%m-%d}" in remark.look
    assert one.remarks_of(one.turns[0]) == one.remarks
    assert book(*one_turn(items={"food": 1.0}, settled=1.4)).remarks == ()
    dry = entry("checked", 99, tray="A", moisture_pct=50)
    assert len(book(*one_turn(items={"food": 1.0}, settled=1.4), dry).remarks) == 1


def test_grit_stays_as_it_is_and_no_check_is_made_of_what_is_not_known() -> None:
    gritty = (started("A", 0, stage="feeding", bedding_kg={}), fed("A", 5, {"food": 1.0}, grit_kg=1.0))
    assert book(*gritty, *separation("A", 100, settled=9.0)).remarks == ()
    moved = started("A", 0, came_from="Shed", stage="feeding")
    assert book(moved, *separation("A", 100, settled=9.0)).remarks == ()


def test_more_out_than_the_tray_held_is_a_remark_too() -> None:
    weighed = entry("checked", 100, tray="A", gross_kg=4.9)
    begun, meal, first, *rest = one_turn(settled=4.5)
    (remark,) = book(begun, meal, first, weighed, *rest).remarks
    assert remark.code == "more-than-it-held"
    assert "4.5 kg of castings, and the tray held 4 kg" in remark.what
    begun, meal, first, *rest = one_turn(settled=4.1)
    assert book(begun, meal, first, weighed, *rest).remarks == ()
    assert remarks(row(*one_turn(settled=4.1)), 0.9, METRIC) == ()


def test_a_row_tells_its_entries_oldest_first() -> None:
    read = entry("checked", 95, tray="A", moisture_pct=72)
    lot = entry("lot_begun", 101, lot="A1", tray="A", kg=1.4)
    journal = (*one_turn(skims=(1.0,)), read, lot)
    stack, _ = bin_of(*journal)
    lines = entries_behind(row(*journal), stack.lots, METRIC)
    assert [line[:10] for line in lines] == [f"{moment(day):%Y-%m-%d}" for day in (0, 10, 95, 100.01, 101)]
    assert "fed A: food 4 kg" in lines[1]
    assert "lot A1 begun, 1.4 kg" in lines[-1]


def test_a_forecast_is_set_beside_what_came() -> None:
    stack, pantry = bin_of(*one_turn(settled=1.0))
    (none,) = ledger_of(stack, pantry).turns
    assert none.forecast_kg is None
    (one,) = ledger_of(stack, pantry, {("A", moment(0)): Band(0.8, 0.9, 1.1)}).turns
    assert one.forecast_kg == (0.8, 0.9, 1.1)
    assert "it came out within that" in " ".join(story(one, moment(200), METRIC))
    assert (none.held, one.held) == (None, True)
    (off,) = ledger_of(stack, pantry, {("A", moment(0)): Band(2, 3, 4)}).turns
    assert off.held is False
    assert "it came out beside that" in " ".join(story(off, moment(200), METRIC))
