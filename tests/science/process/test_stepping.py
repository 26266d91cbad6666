"""What a step must hold to: mass, nothing below nothing, and the answer of the equations themselves."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate

from tests.science.process.keepers import Habits, any_habits, stack
from trayturn.science.process.bin_state import FLOWS
from trayturn.science.process.events import Build, Drive, Emptied, Put, TrayOn, Turn, WormsPut, WormsTaken
from trayturn.science.process.rates import Array, Rates, draw_rates, medians
from trayturn.science.process.running import run
from trayturn.science.temperature import activity

HELD = ("quick_kg", "slow_kg", "resistant_kg", "castings_kg", "water_kg")
SEEDS = st.integers(0, 10_000)


def unbalanced(drive: Drive, rates: Rates) -> float:
    """The worst share of the mass that is lost or made up from nothing, over all days and draws."""
    ran = run(drive, rates, (*HELD, *FLOWS))
    s = ran.series
    solids = sum(s[name].sum(axis=1) for name in HELD[:4]) + s["gas_kg"] + s["solids_out_kg"]
    water = s["water_kg"].sum(axis=1) + s["evaporated_kg"] + s["drained_kg"] + s["water_out_kg"]
    off_solids = np.abs(solids - s["solids_in_kg"]) / s["solids_in_kg"].max()
    water_in = s["water_in_kg"] + 0.598 * s["gas_kg"]
    off_water = np.abs(water - water_in) / water_in.max()
    return float(max(off_solids.max(), off_water.max()))


@given(SEEDS)
@settings(max_examples=8)
def test_no_mass_is_lost_or_made_up_on_any_day(seed: int) -> None:
    assert unbalanced(stack(any_habits(seed), 3), draw_rates(20, seed)) < 1e-9


def test_mass_holds_in_a_flood_and_when_trays_are_emptied() -> None:
    drive = stack(Habits(scraps_kg=6, with_it_kg=0), 3)
    more = (Put(70, "A", resistant_kg=0.3, water_kg=9, castings_kg=1), Emptied(80, "A"), Emptied(81, "B"))
    assert unbalanced(drive.then(more, drive.end), draw_rates(50)) < 1e-9


@given(SEEDS, st.floats(0, 4), st.floats(0, 20))
@settings(max_examples=8)
def test_nothing_goes_below_nothing(seed: int, scraps: float, worms: float) -> None:
    habits = replace(any_habits(seed), scraps_kg=scraps, worms_kg=worms)
    ran = run(stack(habits, 2), draw_rates(20, seed), (*HELD, "worms_kg", "sump_l", "tray_worms_kg"))
    assert all(np.all(series >= 0) and np.all(np.isfinite(series)) for series in ran.series.values())


def test_without_anything_put_in_nothing_grows() -> None:
    events = (WormsPut(0, 1.0), TrayOn(0, "A"), TrayOn(0, "B", 2))
    ran = run(Drive(Build(), 200, events), draw_rates(50), (*HELD, "worms_kg", "sump_l"))
    assert all(ran.series[name].max() == 0 for name in (*HELD, "sump_l"))
    assert np.all(np.diff(ran.series["worms_kg"], axis=0) < 0)
    assert ran.series["worms_kg"][-1].max() < 0.5


@pytest.mark.parametrize("celsius", [-5.0, 0.0, 35.0, 40.0])
def test_in_the_cold_and_the_heat_life_stands_still(celsius: float) -> None:
    events = (WormsPut(0, 1.0), TrayOn(0, "A"), Put(0, "A", 1, 1, 1, 6))
    ran = run(Drive(Build(), 30, events, celsius), draw_rates(20), ("castings_kg", "worms_kg", "water_kg"))
    assert ran.series["castings_kg"].max() == 0
    assert np.all(ran.series["worms_kg"] == 1.0)
    assert np.all(ran.series["water_kg"][-1] < ran.series["water_kg"][0])


@pytest.mark.parametrize("n", [1, 50])
def test_a_draw_does_not_depend_on_how_many_run_beside_it(n: int) -> None:
    drive = stack(any_habits(1), 3)
    few, many = (run(drive, draw_rates(draws), ("tray_kg", "worms_kg")) for draws in (n, 400))
    for name in few.series:
        assert np.array_equal(few.series[name], many.series[name][..., :n])
    for one, other in zip(few.harvests, many.harvests, strict=True):
        assert np.array_equal(one.kg, other.kg[:n])
        assert np.array_equal(one.cocoons, other.cocoons[:n])


def harvests(drive: Drive, rates: Rates, steps_per_day: int) -> Array:
    return np.stack([one.kg for one in run(drive, rates, (), steps_per_day=steps_per_day).harvests])


@pytest.mark.parametrize("seed", range(3))
def test_steps_of_an_hour_move_no_harvest_by_much(seed: int) -> None:
    """Two per cent at most in any draw, and half a per cent in nine of ten."""
    drive, rates = stack(any_habits(seed), 3), draw_rates(60, seed)
    fine = harvests(drive, rates, 24)
    off = np.abs(harvests(drive, rates, 1) - fine) / fine
    assert off.max() < 0.02
    assert np.percentile(off, 90) < 0.005


def test_the_error_of_a_step_falls_with_its_square() -> None:
    def castings(steps_per_day: int) -> float:
        ran = run(dry_tray(), medians(), ("castings_kg",), steps_per_day=steps_per_day)
        return float(ran.series["castings_kg"][-1, 0, 0])

    one, two = (abs(castings(steps) - castings(32)) for steps in (1, 2))
    assert 3 < one / two < 6


def dry_tray() -> Drive:
    """Two trays that never drip."""
    events = (
        *(WormsPut(0, 0.8), TrayOn(0, "A", 1), TrayOn(0, "B", 2)),
        *(Put(0, "A", 0.05, 0.6, 0.05, 1.5), Put(0, "B", 0.30, 0.3, 0.05, 1.2)),
    )
    return Drive(Build(), 60, events, 18.0)


def slopes(_: float, y: Array) -> Array:
    """The equations of the model at its medians, in one's own words: quick, slow, resistant, castings, water.

    Of the upper tray B, then of the lower A, then the worms. Only where nothing drips.
    """
    trays, worms = y[:10].reshape(2, 5), y[10]
    f = activity(18) / activity(20)
    k = np.array([0.10, 0.010, 0.003])
    wet = trays[:, 4] / trays.sum(axis=1)
    g = np.clip(np.minimum((wet - 0.30) / 0.25, (0.95 - wet) / 0.10), 0, 1)
    pull = trays[:, :3] @ k * g
    draws_in = pull + 1e-4 * trays.sum(axis=1)
    h = 1 - 0.6 * np.exp(-worms * draws_in / draws_in.sum() / 0.16 / 0.8)
    fades = trays[:, :3] * k * (f * g * h)[:, None]
    lost = fades.sum(axis=1)
    most = 3 * trays[:, 1:4].sum(axis=1) + 5 * trays[:, 0]
    dries = 0.35 * 0.16 * np.array([1, 0.05]) * trays[:, 4] / most
    water = 0.598 * 0.5 * lost - dries
    grows = 0.0115 * f * worms * max(-2.0, 1 - 0.02 * worms / (pull * h).sum())
    change = np.column_stack([-fades, 0.5 * lost, water])
    return np.array([*change.ravel(), grows])


def test_scipy_solves_the_same_equations_to_the_same_end() -> None:
    """SciPy 1.13 or later, `solve_ivp` at a tolerance of 1e-10, on two trays that never drip."""
    ran = run(dry_tray(), medians(), (*HELD, "worms_kg", "drained_kg"))
    start = [0.30, 0.3, 0.05, 0, 1.2, 0.05, 0.6, 0.05, 0, 1.5, 0.8]
    solved = integrate.solve_ivp(slopes, (0, 60), start, rtol=1e-10, atol=1e-12).y[:, -1]
    ours = [float(ran.series[name][-1, row, 0]) for row in (1, 0) for name in HELD]
    assert ran.series["drained_kg"].max() == 0
    assert [*ours, float(ran.series["worms_kg"][-1, 0])] == pytest.approx(list(solved), rel=0.002)


def test_water_runs_from_tray_to_tray_and_what_is_too_much_out() -> None:
    trays = (TrayOn(0, "A", 1), TrayOn(0, "B", 2), Put(0, "A", slow_kg=0.5))
    drive = Drive(Build(), 0, (*trays, Put(0, "B", slow_kg=0.5, water_kg=4)))
    ran = run(drive, medians(), ("water_kg", "sump_l"))
    assert list(ran.series["water_kg"][0, :, 0]) == pytest.approx([1.5, 1.5])
    assert ran.series["sump_l"][0, 0] == pytest.approx(1)


def test_a_full_sump_runs_over() -> None:
    drive = Drive(Build(sump_l=2), 3, (TrayOn(0, "A"), Put(0, "A", slow_kg=0.1, water_kg=9)))
    ran = run(drive, medians(), ("sump_l", "drained_kg"))
    assert ran.series["sump_l"][-1, 0] == 2
    assert ran.series["drained_kg"][-1, 0] > 8


def test_worms_speed_things_as_published() -> None:
    """In 100 days carbon fell 2.2 to 3 times as much with worms (P. Garg et al. 2006): slow things here."""
    tray = (TrayOn(0, "A"), Put(0, "A", slow_kg=1, water_kg=2.6))
    alone, crowd = (
        run(Drive(Build(), 100, (WormsPut(0, kg), *tray)), medians(), ("gas_kg",)).series["gas_kg"][-1, 0]
        for kg in (0.0, 3.0)
    )
    assert 1.6 < crowd / alone < 3


def test_worms_go_where_the_food_is() -> None:
    events = (WormsPut(0, 1), TrayOn(0, "A", 1), TrayOn(0, "B", 2), Put(0, "A", slow_kg=0.5, water_kg=1.5))
    drive = Drive(Build(), 20, (*events, Put(10, "B", 0.3, water_kg=1.2)))
    inside = run(drive, medians(), ("tray_worms_kg", "worms_kg"))
    trays = inside.series["tray_worms_kg"][:, :, 0]
    assert trays[5, 0] == pytest.approx(inside.series["worms_kg"][5, 0])
    assert trays[11, 1] > 0.7 * trays[11].sum()


def test_worms_that_leave_with_a_tray_come_back_with_it() -> None:
    trays = (TrayOn(0, "A", 1), TrayOn(0, "B", 2))
    puts = (Put(0, "A", 0.2, 0.5, water_kg=2.5), Put(0, "B", 0.2, 0.5, water_kg=2.5), WormsPut(0, 1))
    drive = Drive(Build(), 4, (*trays, *puts, Turn(2, ("A",)), Turn(4, ("A", "B"))))
    worms = run(drive, medians(), ("worms_kg", "tray_worms_kg")).series
    assert worms["worms_kg"][2, 0] == pytest.approx(worms["worms_kg"][1, 0] / 2, rel=0.05)
    assert worms["worms_kg"][4, 0] > 0.95 * worms["worms_kg"][1, 0]
    assert worms["tray_worms_kg"][3].sum() == pytest.approx(worms["worms_kg"][4, 0], rel=0.05)


def test_no_more_worms_are_taken_than_there_are() -> None:
    drive = Drive(Build(), 2, (TrayOn(0, "A"), WormsPut(0, 1), WormsTaken(1, 5)))
    assert run(drive, medians()).series["worms_kg"][-1, 0] == 0
