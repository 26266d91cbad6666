"""Ways of running a bin: the turns they make, what comes of them, and which is best for what."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import a_profile, entry, fed, moment, started, turned
from trayturn.advice.comparing.compare import compare, ways_of
from trayturn.advice.comparing.cycle import Needs, cycle
from trayturn.advice.comparing.result import Aim, Comparison, Way
from trayturn.advice.comparing.words import sentences, story
from trayturn.advice.outlook import Stopped
from trayturn.advice.outlook.makeup import Makeup
from trayturn.advice.outlook.result import Plan
from trayturn.domain.profile import Profile
from trayturn.domain.setup import Pattern, Units
from trayturn.science.process.events import Put, Separate, SumpEmptied, Turn, WormsPut

# A meal of 1 kg of scraps at 82 % water with 67 g of dry bedding, and half a kg of dry shreds for a tray.
NEEDS = Needs(
    Makeup(quick_kg=0.18, slow_kg=0.06, water_kg=0.83), Makeup(slow_kg=0.46, water_kg=0.04), 13, 1.0
)
DRAWS = 24


def a_bin(**setup: Any) -> Profile:
    """Four trays fed and turned for half a year."""
    meals = [
        fed(tray, day, {"kitchen scraps": 1.5}, bedding_kg={"shredded cardboard": 0.1})
        for tray, first in (("A", 1), ("B", 61), ("C", 121))
        for day in range(first, first + 55, 13)
    ]
    journal = (
        entry("worms_added", 0, worms_kg=0.8),
        started("A", 0, stage="feeding"),
        started("B", 1, level=1),
        turned("BA", 60, B="feeding", A="finishing"),
        started("C", 60.5, level=1),
        started("D", 61, level=1),
        *meals,
    )
    return a_profile(*sorted(journal, key=lambda one: one.at), trays="ABCD", tray_count=4, **setup)


@pytest.fixture(scope="module")
def found() -> Comparison:
    return compare(a_bin(), moment(180), (3, 4, 5), (45.0, 60.0), draws=DRAWS)


@given(st.integers(1, 6), st.integers(20, 120), st.sampled_from(Pattern))
def test_every_tray_that_is_emptied_comes_back(trays: int, every: int, pattern: Pattern) -> None:
    events = cycle(Way(trays, every, 1.0), NEEDS, pattern, 730)
    orders = [event.order for event in events if isinstance(event, Turn)]
    assert all(len(set(order)) == len(order) <= trays for order in orders)
    assert len(orders[-1]) == trays
    gone = [event for event in events if isinstance(event, Separate)]
    assert all(event.overs_to != event.tray for event in gone)
    turns = sum(isinstance(event, SumpEmptied) for event in events)
    assert turns == (730 - 1) // every
    assert turns - trays <= len(gone) <= turns
    assert sum(isinstance(event, WormsPut) for event in events) == 1


def test_what_is_fed_is_what_was_asked_for() -> None:
    events = cycle(Way(4, 60, 2.0), NEEDS, Pattern.BEDDING_BELOW, 365)
    quick = sum(event.quick_kg for event in events if isinstance(event, Put))
    assert quick == pytest.approx(2.0 * 365 / 7 * NEEDS.meal.quick_kg, rel=0.05)


def test_one_row_a_combination_with_bands_in_order(found: Comparison) -> None:
    assert [(row.way.trays, row.way.every_days) for row in found.rows] == [
        (trays, every) for trays in (3, 4, 5) for every in (45, 60)
    ]
    for row in found.rows:
        for five in (row.castings_kg_per_month, row.castings_kg, row.moisture, row.worms_kg, row.hatched):
            assert five.p10 <= five.p25 <= five.p50 <= five.p75 <= five.p90
        assert 0 <= row.sump_full <= 1
        assert 0 <= row.takes_all <= 1
        assert row.castings_kg_per_month.p50 > 0
    assert found.rows[found.now].way.trays == 4


def test_a_longer_interval_gives_more_at_a_harvest_and_less_work(found: Comparison) -> None:
    for quick, slow in zip(found.rows[::2], found.rows[1::2], strict=True):
        assert slow.castings_kg.p50 > quick.castings_kg.p50
        assert slow.work_min.mid < quick.work_min.mid
        assert slow.bedding_kg_per_month < quick.bedding_kg_per_month
        assert slow.age_days > quick.age_days
        assert slow.hatched.p50 >= quick.hatched.p50


def test_common_practice_comes_out_of_it() -> None:
    """Four trays, a turn every 60 days, 1.5 kg every 13 days: harvests of about 4.5 kg (common practice)."""
    row = compare(a_bin(), moment(180), (4,), (60.0,), (1.5 * 7 / 13,), draws=100).rows[0]
    assert row.castings_kg.p10 < 4.5 < 1.4 * row.castings_kg.p90


def test_the_same_seed_gives_the_same_answer() -> None:
    one = compare(a_bin(), moment(180), (4,), (60.0,), draws=DRAWS, seed=7)
    assert one == compare(a_bin(), moment(180), (4,), (60.0,), draws=DRAWS, seed=7)
    other = compare(a_bin(), moment(180), (4,), (60.0,), draws=DRAWS, seed=8)
    assert other.rows[0].worms_kg != one.rows[0].worms_kg


def test_each_aim_has_its_best_and_no_way_is_as_good_as_itself(found: Comparison) -> None:
    for aim in Aim:
        best = found.of(aim)
        assert best.place not in best.as_good
    least = min(range(len(found.rows)), key=lambda n: found.rows[n].work_min.mid)
    assert found.of(Aim.WORK).place == least


def test_twice_the_scraps_are_harder_to_take() -> None:
    rows = compare(a_bin(), moment(180), (4,), (60.0,), (0.5, 4.0), draws=DRAWS).rows
    assert rows[0].takes_all >= rows[1].takes_all
    assert rows[1].castings_kg_per_month.p50 > rows[0].castings_kg_per_month.p50
    assert rows[1].bedding_kg_per_month > rows[0].bedding_kg_per_month


def test_straight_up_is_run_too() -> None:
    row = compare(a_bin(pattern="straight_up"), moment(180), (3,), (60.0,), draws=DRAWS).rows[0]
    assert row.castings_kg_per_month.p50 > 0


def test_it_is_told_in_words_and_in_the_keepers_units(found: Comparison) -> None:
    told = list(sentences(found, Units.METRIC))
    assert [line.partition(":")[0] for line in told[:4]] == [
        "Most castings",
        "Least work",
        "Most worms",
        "All my scraps",
    ]
    assert "rule of thumb" in told[-1] or "measurement" in told[-1]
    assert any("lb" in line for line in story(found.rows[0], Units.US))


def test_it_tells_how_far_it_is_and_stops_when_asked() -> None:
    steps: list[tuple[int, int]] = []
    compare(a_bin(), moment(180), (3, 4), (60.0,), draws=DRAWS, progress=lambda *step: steps.append(step))
    assert steps[-1][0] == steps[-1][1]
    with pytest.raises(Stopped):
        compare(a_bin(), moment(180), (3, 4), (60.0,), draws=DRAWS + 1, cancel=lambda: True)


def test_too_many_ways_are_refused() -> None:
    plan = Plan(60, 4, 1.0, 0.1, 12, 0.5, 20)
    assert [way.every_days for way in ways_of(plan)] == [60]
    with pytest.raises(ValueError, match="too many"):
        ways_of(plan, range(1, 11), range(10, 80, 10))
