"""Cocoons: laid where the worms are, hatched with time."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from trayturn.science.hatching import hatch
from trayturn.science.process.cocoons import Nursery, days_at_20
from trayturn.science.process.events import Build, Drive, Put, Separate, TrayOn, WormsPut
from trayturn.science.process.outcome import Harvest
from trayturn.science.process.rates import medians
from trayturn.science.process.running import run


def still_there(after: int, celsius: float = 20.0) -> float:
    """The share of the cocoons of one day that has not hatched some days later."""
    nursery = Nursery()
    nursery.day({"A": np.array([100.0])}, days_at_20(celsius))
    for _ in range(after):
        nursery.day({}, days_at_20(celsius))
    return float(nursery.unhatched("A", 1)[0]) / 100


@pytest.mark.parametrize("celsius", [12.0, 16.0, 20.0, 25.0])
def test_half_have_hatched_within_the_band_that_is_published(celsius: float) -> None:
    found = hatch(celsius)
    assert found is not None
    soonest, latest = found.half
    assert still_there(int(soonest) - 2, celsius) > 0.5 > still_there(int(latest) + 2, celsius)


def test_most_have_hatched_after_a_month() -> None:
    """Computed: 24 +- 4.69 days (Eurasian J. Soil Sci. 2025) taken as normal is 31.7 days for 95 %."""
    assert still_there(31) == pytest.approx(0.06, abs=0.02)
    assert still_there(60) == 0


def test_in_the_cold_nothing_hatches() -> None:
    assert days_at_20(-1) == 0
    assert still_there(200, -1) == pytest.approx(1)


def test_the_arithmetic_of_a_cohort() -> None:
    """Computed: ten adults that lay 0.35 a day each have laid 196 after 56 days, of which 80.5 are younger
    than 23 days. Here a cocoon takes 24 days, give or take."""
    nursery = Nursery()
    for _ in range(56):
        nursery.day({"A": np.array([3.5])}, 1.0)
    assert nursery.unhatched("A", 1)[0] == pytest.approx(80.5 * 24 / 23, rel=0.01)


def fed_tray(rest: int, worms: float = 1.0) -> Drive:
    """A tray fed once, separated after 60 days, its worms gone to a fed tray for the last of them."""
    events = (
        *(TrayOn(0, "A", 1), WormsPut(0, worms), Put(0, "A", 0.2, 1.0, water_kg=4)),
        *(TrayOn(60 - rest, "B", 2), Put(60 - rest, "B", 2.0, 1.0, water_kg=9), Separate(60, "A")),
    )
    return Drive(Build(), 60, events)


def separated(rest: int, worms: float = 1.0) -> Harvest:
    return run(fed_tray(rest, worms), medians(), ()).harvests[0]


def test_the_share_hatched_is_that_of_the_cocoons_old_enough() -> None:
    """Worms lay every day as many as they are; 24 +- 4.69 days, taken as normal, is what SciPy says."""
    worms = run(fed_tray(0), medians(), ("worms_kg",)).series["worms_kg"][:60, 0]
    old_enough = stats.norm.cdf(60 - np.arange(60) - 0.5, 24, 4.69)
    assert separated(rest=0).hatched[0] == pytest.approx(np.average(old_enough, weights=worms), abs=0.01)


def test_a_tray_left_by_its_worms_for_a_while_loses_fewer_cocoons() -> None:
    at_once, later = separated(rest=0), separated(rest=20)
    assert later.cocoons[0] < 0.7 * at_once.cocoons[0]
    assert later.hatched[0] > at_once.hatched[0] + 0.05


def test_the_cocoons_that_leave_are_those_not_hatched() -> None:
    one, two = separated(rest=5), separated(rest=5, worms=0.0)
    assert one.cocoons[0] > 0
    assert (two.cocoons[0], two.hatched[0]) == (0, 1)


def test_a_tray_separated_begins_with_no_cocoons() -> None:
    drive = fed_tray(0).then((Separate(61, "A"),), 61)
    first, second = run(drive, medians(), ()).harvests
    assert 0 < second.cocoons[0] < 0.1 * first.cocoons[0]
    assert second.hatched[0] == pytest.approx(0, abs=1e-6)
    assert second.age_d == 1
