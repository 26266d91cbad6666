"""How many cocoons a lot holds: by its worms, its tray, its species and its warmth, as the bin stood then."""

from __future__ import annotations

from typing import Any

import pytest

from tests.builders import a_profile, entry, moment, started
from trayturn.advice.castings.cocoons import Expected, expected, laid_for, not_told, share_recovered
from trayturn.advice.castings.words import lot_story
from trayturn.domain.entries import Entry
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack

BEGUN = entry("lot_begun", 60, lot="C1", tray="C", kg=4.0)
WORMS = entry("worms_added", 0, worms_kg=1.0)
FILLED = started("C", 0)


def after(*entries: Entry, day: float = 61, **setup: Any) -> Stack:
    return replay(a_profile(*entries, **setup), moment(day))


def found(*entries: Entry, day: float = 61, **setup: Any) -> Expected:
    stack = after(*entries, day=day, **setup)
    told = expected(stack.lots[0], stack)
    assert told is not None
    return told


def test_what_was_laid_in_the_time_that_a_cocoon_takes_is_still_there() -> None:
    told = found(FILLED, WORMS, BEGUN)
    # A tenth of 1 kg of worms (ours), 340 cocoons per kg and day, 24 days of 23 to 25 at 20 C.
    assert told.cocoons.mid == pytest.approx(1.0 * 0.10 * 340 * 24, rel=0.01)
    assert told.cocoons.low < told.cocoons.mid < told.cocoons.high
    assert told.young is not None
    # 82.5 to 87.5 % hatch, 2.4 to 3.3 from each (Eurasian J. Soil Sci. 2025; Ali & Kashem 2018).
    assert 0.825 * 2.4 < told.young.mid / told.cocoons.mid < 0.875 * 3.3


def test_a_tray_that_was_filled_of_late_holds_fewer() -> None:
    told = found(started("C", 48), WORMS, BEGUN)
    assert told.cocoons.mid == pytest.approx(1.0 * 0.10 * 340 * 12, rel=0.01)


def test_only_the_days_since_it_was_put_back_skimmed_count() -> None:
    skimmed = (
        entry("separation_begun", 45, tray="C"),
        entry("pass_done", 45.1, tray="C", pass_number=1, skimmed_kg=1.0, worms_seen="few"),
        entry("separation_ended", 45.2, tray="C", outcome="put_back"),
    )
    stack = after(FILLED, WORMS, *skimmed, BEGUN)
    assert laid_for(stack.lots[0], stack) == pytest.approx(60 - 45.2)


def test_a_tray_emptied_and_filled_since_tells_of_the_life_it_had() -> None:
    begun, ended = entry("separation_begun", 59.9, tray="C"), entry("separation_ended", 60.1, tray="C")
    stack = after(FILLED, WORMS, begun, BEGUN, ended, started("C", 62), day=100)
    assert laid_for(stack.lots[0], stack) == pytest.approx(60)


def test_a_cooler_bin_lays_slower_and_keeps_its_cocoons_longer() -> None:
    told = found(FILLED, WORMS, entry("checked", 59, temperature_c=12.0), BEGUN)
    # The one makes up for the other, since 60 days are enough for a cocoon to take its time at 12 C.
    assert told.cocoons.mid == pytest.approx(1.0 * 0.10 * 340 * 24, rel=0.01)
    assert "12 °C" in told.basis


def test_what_is_done_later_changes_nothing() -> None:
    later = (
        entry("checked", 70, temperature_c=8.0),
        entry("worms_removed", 71, worms_kg=0.6),
        entry("hatchlings_recovered", 72, lot="C1", counted=30, worms_kg=0.02, tray="C"),
    )
    assert found(FILLED, WORMS, BEGUN, *later, day=80) == found(FILLED, WORMS, BEGUN)


def test_without_worms_written_down_the_floor_of_a_tray_is_the_rule() -> None:
    told = found(FILLED, BEGUN)
    assert "rule of thumb" in told.basis
    # 1.6 kg/m2 (Ndegwa et al. 2000) over 0.16 m2.
    assert told.cocoons.mid == pytest.approx(1.6 * 0.16 * 0.10 * 340 * 24, rel=0.01)


def test_dendrobaena_lays_fewer_and_few_hatch() -> None:
    fetida, veneta = found(FILLED, WORMS, BEGUN), found(FILLED, WORMS, BEGUN, species="dendrobaena_veneta")
    assert veneta.young is not None
    assert fetida.young is not None
    # About 20 % hatch, 1.1 young from each (Dominguez 2004; Viljoen 1991).
    assert veneta.young.mid / veneta.cocoons.mid == pytest.approx(0.2 * 1.1)
    assert veneta.young.mid < 0.1 * fetida.young.mid


@pytest.mark.parametrize(
    ("setup", "lot", "said"),
    [
        ({"species": "perionyx_excavatus"}, BEGUN, "no source was found for how much a kg of Perionyx"),
        ({}, entry("lot_begun", 60, lot="C1", kg=1.0), "no tray of this bin"),
        ({}, entry("lot_begun", 0, lot="C1", tray="C", kg=1.0), "only just been filled"),
    ],
)
def test_where_nothing_can_be_reckoned_it_is_said_why(setup: dict[str, Any], lot: Entry, said: str) -> None:
    stack = after(FILLED, WORMS, lot, **setup)
    assert expected(stack.lots[0], stack) is None
    assert said in not_told(stack.lots[0], stack)
    assert any(said in line for line in lot_story(stack.lots[0], stack))


def test_no_cocoons_in_the_cold() -> None:
    stack = after(FILLED, WORMS, entry("checked", 59, temperature_c=1.0), BEGUN)
    assert expected(stack.lots[0], stack) is None
    assert "temperature" in not_told(stack.lots[0], stack)


def test_hatchlings_are_a_share_of_the_young_to_be_expected() -> None:
    stack = after(FILLED, WORMS, BEGUN, entry("hatchlings_recovered", 85, lot="C1", counted=200), day=90)
    young = found(FILLED, WORMS, BEGUN).young
    assert young is not None
    share = share_recovered(stack.lots[0], stack)
    assert share == pytest.approx((200 / young.high, min(1.0, 200 / young.low)))
    assert any("% of the young to be expected" in line for line in lot_story(stack.lots[0], stack))


def test_more_than_was_expected_is_all_of_it() -> None:
    stack = after(FILLED, WORMS, BEGUN, entry("hatchlings_recovered", 85, lot="C1", counted=500_000), day=90)
    assert share_recovered(stack.lots[0], stack) == (1.0, 1.0)
    assert any("all that were expected" in line for line in lot_story(stack.lots[0], stack))
