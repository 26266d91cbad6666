"""Lots of castings: cocoons expected, what comes next and when, shares of a mix, and the words for them."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import a_profile, entry, moment, started
from trayturn.advice.castings.cocoons import recovered
from trayturn.advice.castings.stages import KEEPS_FOR, filled_use_by, next_for, open_lots, use_by
from trayturn.advice.castings.use import Verdict, castings_for, judge
from trayturn.advice.castings.words import lot_story
from trayturn.advice.due import due_list
from trayturn.advice.due.hatching import tubs
from trayturn.domain.entries import Entry
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack

BEGUN = entry("lot_begun", 60, lot="C1", tray="C", kg=4.0)


def after(*entries: Entry, day: float, **setup: Any) -> Stack:
    return replay(a_profile(*entries, **setup), moment(day))


def coming(*entries: Entry, day: float) -> tuple[str, float | None]:
    """The code of what comes next for lot C1, and the day it is due."""
    stack = after(BEGUN, *entries, day=day)
    lot = stack.lot("C1")
    assert lot is not None
    found = next_for(lot, stack)
    assert found is not None
    days = (found.due - moment(0)) / timedelta(days=1) if found.due is not None else None
    return found.code, days


def test_a_lot_goes_from_bait_to_jar() -> None:
    lure = entry("lure_set", 83, lot="C1", bait="melon")
    lifted = entry("hatchlings_recovered", 90, lot="C1", counted=40)
    dry = entry("lot_moved", 105, lot="C1", stage="drying")
    sieved = entry("sieved", 120, lot="C1", mesh_mm=6.4, passed_kg=3.0)
    cure = entry("lot_moved", 120, lot="C1", stage="curing")
    ready = entry("lot_moved", 134, lot="C1", stage="ready")
    jar = entry("packed", 135, lot="C1", label="tall", kg=3.0)
    # 23 to 25 days at 20 C, 95 % by 1.32 times that: 33 days after the castings were taken.
    assert coming(day=61) == ("lure", 83)
    assert coming(lure, day=84) == ("look", 90)
    assert coming(lure, lifted, day=91)[0] == "dry"
    assert coming(lure, dry, day=106) == ("sieve", 119)
    assert coming(dry, entry("lot_moved", 110, lot="C1", stage="drying", moisture_pct=55), day=111) == (
        "sieve",
        110,
    )
    assert coming(dry, sieved, cure, day=121) == ("ready", 134)
    assert coming(ready, day=135) == ("pack", 134)
    # A kilogram is loose still, and its 60 days count from being ready.
    assert coming(ready, jar, day=136) == ("use", 134 + 60 - 14)
    used = [
        entry("castings_used", 137, lot="C1", label="tall", kg=3.0),
        entry("castings_used", 137, lot="C1", kg=1.0),
    ]
    assert coming(ready, jar, *used, day=138)[0] == "close"


def test_nothing_comes_next_for_a_closed_lot() -> None:
    stack = after(BEGUN, entry("lot_closed", 70, lot="C1"), day=71)
    assert open_lots(stack) == ()
    assert next_for(stack.lots[0], stack) is None


def test_in_the_cold_cocoons_wait() -> None:
    stack = after(BEGUN, entry("checked", 61, temperature_c=1.0), day=62)
    found = next_for(stack.lots[0], stack)
    assert found is not None
    assert (found.code, found.due) == ("warmth", None)


def test_hatchlings_are_counted_up() -> None:
    back = [entry("hatchlings_recovered", day, lot="C1", counted=n) for day, n in ((80, 30), (87, 12))]
    stack = after(BEGUN, *back, day=90)
    assert recovered(stack.lots[0]) == 42
    assert any("42 hatchlings lifted out in 2 times" in line for line in lot_story(stack.lots[0], stack))


@pytest.mark.parametrize(
    ("percent", "verdict"),
    [
        (10, Verdict.FINE),
        (20, Verdict.FINE),
        (25, Verdict.MUCH),
        (30, Verdict.MUCH),
        (31, Verdict.TOO_MUCH),
        (50, Verdict.TOO_MUCH),
        (51, Verdict.REFUSED),
        (100, Verdict.REFUSED),
    ],
)
def test_a_share_is_judged_by_what_was_published(percent: float, verdict: Verdict) -> None:
    # 10 to 20 % helped (Atiyeh et al. 2000); 50 % is the ceiling for air (Mota et al.).
    assert judge(percent).verdict is verdict


@given(st.floats(0, 100), st.floats(0, 100))
def test_more_is_never_judged_milder(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert judge(low).verdict <= judge(high).verdict


def test_a_mix_takes_its_share_by_volume() -> None:
    litres, kg = castings_for(20, 15)
    # 0.7 to 0.9 kg in a litre: pages repeat it from the Fertiliser (Control) Order 1985.
    assert (litres, kg.low, kg.high) == pytest.approx((3.0, 2.1, 2.7))


def test_the_lot_to_be_used_first_stands_first() -> None:
    def ready(code: str, day: float) -> tuple[Entry, ...]:
        return (
            entry("lot_begun", day, lot=code, kg=2.0),
            entry("lot_moved", day + 1, lot=code, stage="ready"),
        )

    stack = after(*ready("A1", 50), *ready("B1", 20), BEGUN, day=70)
    assert [lot.code for lot in open_lots(stack)] == ["B1", "A1", "C1"]
    assert use_by(stack.lots[0]) == moment(21) + KEEPS_FOR


def test_a_lot_takes_the_place_of_the_tub_it_was() -> None:
    separated = (
        started("C", 0),
        entry("separation_begun", 59.9, tray="C"),
        entry("settled", 60, tray="C", castings_kg=4.0),
        entry("separation_ended", 60, tray="C"),
    )
    assert [tub.tray for tub in tubs(after(*separated, day=61), moment(0))] == ["C"]
    stack = after(*separated, BEGUN, day=61)
    assert list(tubs(stack, moment(0))) == []
    items = [due.item for due in due_list(stack)]
    assert "castings:lure-c1" in items
    assert not any(item.startswith("hatch:") for item in items)


@given(
    st.lists(st.tuples(st.sampled_from(["packed", "castings_used", "castings_given"]), st.floats(0.01, 3))),
    st.floats(0.5, 10),
)
def test_what_came_in_is_what_is_left_and_what_went(steps: list[tuple[str, float]], kg: float) -> None:
    """Where more goes out than there was, that is said; otherwise not a gram comes from nowhere."""
    begun = entry("lot_begun", 60, lot="C1", kg=kg)
    more = {"packed": {"label": "a"}}
    acts = [
        entry(kind, 61 + n, lot="C1", kg=amount, **more.get(kind, {}))
        for n, (kind, amount) in enumerate(steps)
    ]
    stack = after(begun, *acts, day=200)
    lot = stack.lots[0]
    assert lot.kg is not None
    assert 0 <= lot.kg <= kg
    assert lot_story(lot, stack)
    assert lot.left_kg is not None
    went = sum(one.kg or 0.0 for one in lot.used) + sum(one.kg or 0.0 for one in lot.given)
    if any(finding.code == "more-than-there-was" for finding in stack.findings):
        assert sum(amount for _, amount in steps) > kg
    else:
        assert lot.left_kg + went == pytest.approx(kg, abs=1e-6)


def test_what_is_not_ready_has_no_day_to_use_it_by() -> None:
    for stage in ("hatching", "drying", "curing"):
        stack = after(BEGUN, entry("lot_moved", 100, lot="C1", stage=stage), day=120)
        assert use_by(stack.lots[0]) is None
        assert "Best used within 60 days of being ready (Harit et al. 2014)." in lot_story(
            stack.lots[0], stack
        )


def test_filling_jars_makes_castings_no_fresher() -> None:
    """One rule for the lot, what is due and the jar: 60 days from being ready."""
    stack = after(BEGUN, entry("lot_moved", 100, lot="C1", stage="ready"), day=130)
    lot = stack.lots[0]
    assert use_by(lot) == filled_use_by(lot, moment(130)) == moment(160)
    jar = entry("packed", 130, lot="C1", label="tall", kg=3.0, use_by=moment(160))
    assert coming(entry("lot_moved", 100, lot="C1", stage="ready"), jar, day=131) == ("use", 160 - 14)
    stack = after(BEGUN, entry("lot_moved", 100, lot="C1", stage="ready"), jar, day=131)
    told = lot_story(stack.lots[0], stack)
    assert "tall: 3 kg left of 3 kg, use by 2026-08-08, as packed." in told
    assert any(line.startswith("What is loose: use by 2026-08-08, 60 days from being ready") for line in told)
