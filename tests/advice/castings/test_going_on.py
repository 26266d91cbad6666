"""Drying, sieving and going on: by what was read, by weight, by what the bait brings; what is then due."""

from __future__ import annotations

import pytest

from tests.builders import a_profile, entry, moment, started
from trayturn.advice.castings.coming import next_line
from trayturn.advice.castings.drying import by_weight, mesh_words, moisture_now, share_passed, sieves_at_kg
from trayturn.advice.castings.stages import Next, next_for
from trayturn.advice.castings.taking_up import as_lot, old_tubs
from trayturn.advice.castings.use import minded
from trayturn.advice.castings.words import lot_line, lot_story
from trayturn.advice.due import Due, due_list
from trayturn.advice.due.castings import lot_of
from trayturn.advice.due.keepers_word import mark_done
from trayturn.domain.entries import Entry
from trayturn.domain.lots import next_label
from trayturn.domain.replay import replay
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack

BEGUN = entry("lot_begun", 60, lot="C1", tray="C", kg=4.0)
DRIES = entry("lot_moved", 95, lot="C1", stage="drying", kg=4.0, moisture_pct=75)
READY = (entry("lot_begun", 10, lot="B1", kg=2.0), entry("lot_moved", 20, lot="B1", stage="ready"))
SEPARATED = (
    started("C", 0),
    entry("separation_begun", 59.9, tray="C"),
    entry("settled", 60, tray="C", castings_kg=4.0),
    entry("separation_ended", 60.1, tray="C"),
)


def after(*entries: Entry, day: float) -> Stack:
    return replay(a_profile(*entries), moment(day))


def weighed(kg: float) -> Entry:
    made: Entry = entry("lot_moved", 110, lot="C1", stage="drying", kg=kg)
    return made


def coming(stack: Stack) -> Next:
    found = next_for(stack.lots[0], stack)
    assert found is not None
    return found


def due_castings(*entries: Entry, day: float) -> list[Due]:
    return [due for due in due_list(after(*entries, day=day)) if due.kind == "castings"]


def test_a_drying_lot_says_what_it_weighs_once_it_sieves() -> None:
    """4 kg at 75 % are 1 kg of solids, which is 2.5 kg at 60 %: by the definition of moisture."""
    stack = after(BEGUN, DRIES, day=96)
    lot = stack.lots[0]
    assert sieves_at_kg(lot) == pytest.approx(2.5)
    assert not by_weight(lot)
    assert any("2.5 kg" in line for line in lot_story(lot, stack))
    assert (coming(stack).code, coming(stack).due) == ("weigh", moment(102))


def test_its_weight_since_tells_its_moisture() -> None:
    stack = after(BEGUN, DRIES, weighed(2.4), day=111)
    lot = stack.lots[0]
    assert by_weight(lot)
    assert moisture_now(lot) == pytest.approx(100 * (1 - 1 / 2.4))
    assert (coming(stack).code, coming(stack).due) == ("sieve", moment(110))


def test_still_too_wet_it_is_weighed_again_a_week_later() -> None:
    stack = after(BEGUN, DRIES, weighed(3.5), day=111)
    assert (coming(stack).code, coming(stack).due) == ("weigh", moment(117))


def test_once_some_of_it_went_its_weight_says_nothing_of_its_water() -> None:
    lot = after(BEGUN, DRIES, entry("castings_used", 100, lot="C1", kg=1.0), weighed(2.4), day=111).lots[0]
    assert moisture_now(lot) == 75
    assert sieves_at_kg(lot) is None


def test_less_than_its_solids_leaves_the_reading_as_it_is() -> None:
    assert moisture_now(after(BEGUN, DRIES, weighed(0.5), day=111).lots[0]) == 75


def test_what_passed_is_a_share_of_both() -> None:
    assert share_passed(2.0, 0.5) == pytest.approx(0.8)
    assert share_passed(2.0, None) is None
    assert share_passed(0.0, 0.0) is None
    sieved = entry("sieved", 120, lot="C1", mesh_mm=4, passed_kg=2.0, oversize_kg=0.5)
    stack = after(BEGUN, DRIES, sieved, day=121)
    assert any("80 % passed" in line for line in lot_story(stack.lots[0], stack))


def test_two_looks_without_any_end_the_hatching() -> None:
    lure = entry("lure_set", 83, lot="C1")
    first, second = (entry("hatchlings_recovered", day, lot="C1", counted=0) for day in (85, 87))
    over = coming(after(BEGUN, lure, first, second, day=88))
    assert (over.code, over.due) == ("dry", moment(87))
    assert "None came" in over.why[0]
    not_counted = entry("hatchlings_recovered", 87, lot="C1")
    still = coming(after(BEGUN, lure, first, not_counted, day=88))
    assert (still.code, still.due) == ("dry", moment(93))
    assert not any("None came" in why for why in still.why)
    early = [entry("hatchlings_recovered", day, lot="C1", counted=0) for day in (70, 71)]
    assert coming(after(BEGUN, *early, day=72)).code == "look"


def test_castings_of_a_past_separation_are_taken_up_as_they_were() -> None:
    stack = after(*SEPARATED, day=70)
    (tub,) = old_tubs(stack)
    begun = as_lot(tub, stack)
    assert (begun.at, begun.lot, begun.tray, begun.kg) == (moment(60), "C1", "C", 4.0)
    assert old_tubs(after(*SEPARATED, begun, day=70)) == ()


@pytest.mark.parametrize(("percent", "said"), [(None, ""), (15, ""), (25, "Above 20 %"), (40, "40 %")])
def test_what_is_to_be_minded_of_a_share(percent: float | None, said: str) -> None:
    assert minded(percent).startswith(said)
    assert bool(minded(percent)) is bool(said)


def test_due_things_of_lots_say_when() -> None:
    said = {due.code.partition("-")[0]: due.what for due in due_castings(BEGUN, *READY, day=70)}
    assert said == {
        "lure": "Lay a bait on lot C1 in 13 days.",
        "pack": "Fill lot B1 into jars or use it now.",
    }
    (late,) = due_castings(BEGUN, entry("lure_set", 83, lot="C1"), day=91)
    assert late.what == "Lift hatchlings out of lot C1 now."
    cures = entry("lot_moved", 100, lot="C1", stage="curing")
    assert due_castings(BEGUN, cures, day=104)[0].what == "Lot C1 is ready to use in 10 days."
    assert due_castings(BEGUN, cures, day=114)[0].what == "Lot C1 is ready to use now."
    jar = entry("packed", 21, lot="B1", label="tall", kg=2.0)
    assert due_castings(*READY, jar, day=70)[0].what == "Use lot B1 by Thu 21 May, in 11 days."


def test_a_due_thing_leads_to_its_lot() -> None:
    stack = after(BEGUN, *READY, day=70)
    lots = {due.item: lot_of(due, stack) for due in due_castings(BEGUN, *READY, day=70)}
    assert {item: lot.code for item, lot in lots.items() if lot is not None} == {
        "castings:pack-b1": "B1",
        "castings:lure-c1": "C1",
    }


def test_a_bait_is_done_by_laying_it_and_using_up_by_word() -> None:
    (bait,) = due_castings(BEGUN, day=84)
    assert (bait.item, bait.done_by_word) == ("castings:lure-c1", False)
    assert due_castings(BEGUN, entry("lure_set", 84, lot="C1"), day=84)[0].item == "castings:look-c1"
    jar = entry("packed", 21, lot="B1", label="tall", kg=1.0)
    (use,) = due_castings(*READY, jar, day=70)
    assert (use.item, use.done_by_word) == ("castings:use-b1", True)
    assert due_castings(*READY, jar, mark_done(use, moment(70)), day=71) == []


def test_too_cold_for_cocoons_is_done_by_word() -> None:
    (due,) = due_castings(BEGUN, entry("checked", 61, temperature_c=1.0), day=62)
    assert (due.item, due.done_by_word) == ("castings:warmth-c1", True)


def test_days_are_counted_in_one_way() -> None:
    """Begun in the evening and looked at in the morning: 8 days and a half passed, 9 days by the calendar."""
    dries = entry("lot_moved", moment(100, 22), lot="C1", stage="drying")
    stack = replay(a_profile(BEGUN, dries), moment(109, 10))
    lot = stack.lots[0]
    assert lot_line(lot, stack) == "C1: drying, 9 days; 4 kg"
    assert next_line(next_for(lot, stack), stack) == "Sieve lot C1 in 5 days."
    assert lot_line(lot, replay(a_profile(BEGUN, dries), moment(100, 23))) == "C1: drying, since today; 4 kg"


def test_jars_are_numbered_on_through_the_bin() -> None:
    assert next_label(after(*READY, day=70)) == "jar 1"
    jars = [
        entry("packed", 21 + n, lot="B1", label=label, kg=0.1) for n, label in enumerate(("Jar 1", "jar 3"))
    ]
    assert next_label(after(*READY, *jars, BEGUN, day=70)) == "jar 2"


def test_the_mesh_and_the_trial_are_told_apart() -> None:
    stack = after(BEGUN, entry("lot_moved", 100, lot="C1", stage="drying"), day=101)
    why = " ".join(coming(stack).why)
    assert "The sources differ on the mesh: growers use 6.4 mm" in why
    assert "a trial used 4 mm (Manyuchi & Phiri 2013)" in why
    assert "1/4 in" in mesh_words(Units.US)


@pytest.mark.parametrize("percent", [25, 40])
def test_the_trial_of_salts_is_named(percent: float) -> None:
    assert "(Simsek Ersahin et al. 2017)" in minded(percent)
