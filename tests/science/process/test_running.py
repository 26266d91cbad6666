"""What happens on which day, what can be watched, and a run that goes on from another."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.science.process.keepers import Habits, any_habits, stack
from trayturn.science.errors import OutOfRange
from trayturn.science.process.events import (
    Build,
    Drive,
    Measured,
    Put,
    Separate,
    Stopped,
    SumpEmptied,
    TrayOn,
    WormsPut,
    WormsTaken,
)
from trayturn.science.process.rates import draw_rates, medians
from trayturn.science.process.running import run
from trayturn.science.process.watching import OF_BIN, OF_TRAYS

TRAY = (TrayOn(0, "A"), WormsPut(0, 1), Put(0, "A", 0.3, 0.5, 0.05, 3))


def test_the_series_are_by_day_tray_and_draw() -> None:
    ran = run(Drive(Build(), 9, (*TRAY, TrayOn(3, "B"))), draw_rates(7), (*OF_TRAYS, *OF_BIN))
    assert ran.trays == ("A", "B")
    assert list(ran.days) == list(range(10))
    assert all(ran.series[name].shape == (10, 2, 7) for name in OF_TRAYS)
    assert all(ran.series[name].shape == (10, 7) for name in OF_BIN)


def test_the_same_again_gives_the_same() -> None:
    one, other = (run(stack(any_habits(4), 3), draw_rates(30, 8), ("tray_kg",)) for _ in range(2))
    assert np.array_equal(one.series["tray_kg"], other.series["tray_kg"])


def test_events_in_any_order_happen_by_their_day_and_at_one_moment_as_listed() -> None:
    worms = (WormsTaken(2, 5), WormsPut(1, 1), WormsPut(2, 3))
    series = run(Drive(Build(), 3, worms), medians(), ("worms_kg",)).series["worms_kg"][:, 0]
    assert series[0] == 0
    assert series[1] == 1
    assert series[2] == 3


def test_what_happens_in_the_course_of_a_day_falls_on_the_nearest_step() -> None:
    series = run(Drive(Build(), 3, (WormsPut(1.4, 1),)), medians(), ("worms_kg",)).series["worms_kg"]
    assert list(series[:2, 0]) == [0, 1]


def test_a_separation_takes_the_castings_and_their_share_of_the_water() -> None:
    drive = Drive(Build(), 60, (*TRAY, Separate(60, "A", worms_back=0.8)))
    before = run(replace(drive, events=TRAY), medians(), ("castings_kg", "moisture", "worms_kg"))
    ran = run(drive, medians(), ("castings_kg", "slow_kg", "worms_kg"))
    harvest, castings = ran.harvests[0], before.series["castings_kg"][-1, 0, 0]
    assert harvest.solids_kg[0] == pytest.approx(castings)
    moisture = before.series["moisture"][-1, 0, 0]
    assert harvest.moisture[0] == pytest.approx(moisture)
    assert harvest.kg[0] == pytest.approx(castings / (1 - moisture))
    assert harvest.age_d == 60
    assert harvest.worms_lost_kg[0] == pytest.approx(0.2 * before.series["worms_kg"][-1, 0])
    assert ran.series["castings_kg"][-1, 0, 0] == 0
    assert ran.series["slow_kg"][-1, 0, 0] > 0


def test_overs_go_where_they_are_put() -> None:
    drive = Drive(Build(), 60, (*TRAY, TrayOn(0, "B", 2), Separate(60, "A", overs_to="B")))
    slow = run(drive, medians(), ("slow_kg",)).series["slow_kg"][:, :, 0]
    assert slow[59, 0] > 0 == slow[60, 0]
    assert slow[60, 1] == pytest.approx(slow[59, 0], rel=0.02)


def test_a_tray_off_the_stack_stands_still() -> None:
    drive = stack(Habits(), 3)
    beyond = Put(100, "spare", quick_kg=0.2, water_kg=1)
    held = run(drive.then((beyond,), drive.end), medians(), ("tray_kg",))
    assert held.series["tray_kg"][150, held.trays.index("spare"), 0] == pytest.approx(1.2)


def test_the_warmth_of_each_day_counts() -> None:
    cold, warm = (
        run(Drive(Build(), 20, TRAY, celsius), medians(), ("castings_kg",)).series["castings_kg"][-1, 0, 0]
        for celsius in ((10.0,), (10.0,) * 10 + (24.0,))
    )
    assert warm > 1.5 * cold


def test_readings_are_taken_before_what_happens_at_the_same_moment() -> None:
    flood = (TrayOn(0, "A"), Put(0, "A", slow_kg=0.1, water_kg=3), SumpEmptied(5))
    readings = (Measured(5, "sump_l", 0, 0.1), Measured(5, "moisture", 0, 0.05, "A"))
    read = run(Drive(Build(), 6, flood), medians(), ("sump_l",), readings)
    assert read.read[0, 0] > 2
    assert read.series["sump_l"][5, 0] == 0
    assert 0.5 < read.read[1, 0] < 0.76


def test_what_each_kind_of_reading_is() -> None:
    readings = (
        *(Measured(7, "tray_kg", 0, 0.1, "A"), Measured(7, "worms_kg", 0, 0.1)),
        *(Measured(7, "food_left", 0, 0.1, "A"), Measured(20, "harvest_kg", 0, 0.1, "A")),
    )
    drive = Drive(Build(), 20, (*TRAY, Separate(9, "A"), Separate(19, "A")))
    ran = run(drive, medians(), ("tray_kg", "worms_kg", "quick_kg"), readings)
    s = ran.series
    expected = (
        s["tray_kg"][7, 0, 0],
        s["worms_kg"][7, 0],
        s["quick_kg"][7, 0, 0] / 0.3,
        ran.harvests[1].kg[0],
    )
    assert list(ran.read[:, 0]) == pytest.approx(expected)


def test_a_run_goes_on_where_another_ended() -> None:
    whole, rates = stack(Habits(), 4), draw_rates(20)
    day = 130
    first = replace(whole, end=day, events=tuple(e for e in whole.events if e.day <= day))
    rest = replace(whole, start=day, events=tuple(e for e in whole.events if e.day > day))
    at_once = run(whole, rates)
    begun = run(first, rates)
    gone_on = run(rest, rates, begin=begun.end)
    again = run(rest, rates, begin=begun.end)
    for ran in (gone_on, again):
        assert np.array_equal(ran.series["tray_kg"], at_once.series["tray_kg"][day:])
        both = zip(ran.harvests, at_once.harvests[1:], strict=True)
        assert all(np.array_equal(one.kg, other.kg) for one, other in both)
    assert np.allclose(gone_on.harvests[0].hatched, at_once.harvests[1].hatched, rtol=1e-12)


def test_a_run_can_be_stopped() -> None:
    asked = iter([False, False, True])
    with pytest.raises(Stopped):
        run(Drive(Build(), 100, TRAY), medians(), stop=lambda: next(asked))


@pytest.mark.parametrize(
    ("drive", "measured"),
    [
        (Drive(Build(), 10, (WormsPut(11, 1),)), ()),
        (Drive(Build(), -1), ()),
        (Drive(Build(area_m2=0), 1), ()),
        (Drive(Build(), 10, TRAY), (Measured(3, "moisture", 0.7, 0.05),)),
        (Drive(Build(), 10, TRAY), (Measured(3, "harvest_kg", 4, 0.05, "A"),)),
    ],
)
def test_what_makes_no_sense_is_refused(drive: Drive, measured: tuple[Measured, ...]) -> None:
    with pytest.raises(OutOfRange):
        run(drive, medians(), (), measured)


def test_what_cannot_be_watched_is_refused() -> None:
    with pytest.raises(OutOfRange, match="tray_kg"):
        run(Drive(Build(), 1), medians(), ("joy",))
