"""The fit: against an answer known in closed form, and for keepers made up."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from tests.science.process.keepers import any_habits, cupped, measure, one_draw, readings, stack
from trayturn.science.errors import OutOfRange
from trayturn.science.process.events import Drive, Measured, Stopped
from trayturn.science.process.fitting import OWN_SPREAD, Fitted, fit, update
from trayturn.science.process.rates import Array, Rates, draw_rates
from trayturn.science.process.running import run
from trayturn.science.process.telling import as_weighed, percentiles

DRAWS = 250


@pytest.mark.parametrize("rounds", [1, 4])
def test_where_all_is_linear_it_finds_the_exact_answer(rounds: int) -> None:
    """The Kalman update in closed form: mean and covariance of three unknowns given four readings."""
    rng, draws = np.random.default_rng(1), 40_000
    mean, root = np.array([1.0, -0.5, 2.0]), np.array([[1.0, 0, 0], [0.4, 0.8, 0], [-0.3, 0.2, 0.5]])
    reads = np.array([[1.0, 0.5, 0], [0, 1, -1], [0.3, 0.3, 0.3], [2, 0, 1]])
    value, sd = np.array([2.0, -1.5, 0.4, 5.0]), np.array([0.5, 1.0, 0.2, 0.8])
    before = root @ root.T
    gain = before @ reads.T @ np.linalg.inv(reads @ before @ reads.T + np.diag(sd**2))
    theta: Array = mean[:, None] + root @ rng.standard_normal((3, draws))
    for _ in range(rounds):
        theta = update(theta, reads @ theta, value, sd, rounds, rng.standard_normal((4, draws)))
    assert theta.mean(axis=1) == pytest.approx(mean + gain @ (value - reads @ mean), abs=0.02)
    assert np.cov(theta) == pytest.approx(before - gain @ reads @ before, abs=0.02)


@pytest.mark.parametrize("readings", [4, 12, 13, 40])
def test_many_readings_are_reckoned_as_few_are(readings: int) -> None:
    """More readings than draws are reckoned among the draws; the gain written out is the same."""
    rng, draws = np.random.default_rng(2), 12
    theta, read = rng.standard_normal((3, draws)), rng.standard_normal((readings, draws))
    value, sd = rng.standard_normal(readings), rng.uniform(0.2, 2.0, readings)
    noise, weight = rng.standard_normal((readings, draws)), 4.0
    moved = update(theta, read, value, sd, weight, noise)
    of_both = np.cov(theta, read)
    among = of_both[3:, 3:] + weight * np.diag(sd**2)
    away = value[:, None] + np.sqrt(weight) * sd[:, None] * noise - read
    assert moved == pytest.approx(theta + of_both[:3, 3:] @ np.linalg.solve(among, away), abs=1e-9)


@cache
def fitted(seed: int, turns: int) -> tuple[Drive, Rates, Fitted]:
    """A keeper who measured so many turns: what drives the bin as known, its true rates, the fit."""
    habits = any_habits(seed)
    drive, now = stack(habits, turns + 2), (turns + 1) * habits.turn_every
    past = replace(drive, end=now, events=tuple(e for e in drive.events if e.day <= now))
    truth = one_draw(draw_rates(100, 77), seed)
    planned = [what for what in readings(drive, habits) if what.day <= now]
    values = measure(cupped(drive, seed), truth, planned, seed)
    return drive, truth, fit(past, values, draw_rates(DRAWS, seed + 1000), seed)


def next_off(seed: int, turns: int, rates: Rates | None = None) -> float:
    """How far the middle of the next harvest's band lies off, as a share."""
    drive, truth, found = fitted(seed, turns)
    true = run(cupped(drive, seed), truth, ()).harvests[turns].kg[0]
    kg = run(drive, rates or found.rates, ()).harvests[turns].kg
    return abs(float(np.median(kg) / true - 1))


SEEDS = range(10)


def test_two_turns_measured_bring_the_next_harvest_nearer() -> None:
    before = np.mean([next_off(seed, 2, draw_rates(DRAWS, seed)) for seed in SEEDS])
    after = np.mean([next_off(seed, 2) for seed in SEEDS])
    assert after < before / 2


def test_the_band_narrows_and_still_holds_the_truth() -> None:
    held, widths = 0, []
    for seed in SEEDS:
        drive, truth, found = fitted(seed, 2)
        true = run(cupped(drive, seed), truth, ()).harvests[2].kg[0]
        low, _, middle, _, high = percentiles(as_weighed(run(drive, found.rates, ()).harvests[2].kg))
        held += bool(low <= true <= high)
        widths.append((high - low) / middle)
    assert held >= 6
    assert 2 * 1.28 * OWN_SPREAD * 0.9 < np.mean(widths) < 0.35


def test_what_was_measured_is_met_within_its_errors() -> None:
    misfits = np.concatenate([fitted(seed, 2)[2].misfit for seed in SEEDS])
    assert np.abs(misfits).max() < 4
    assert np.mean(np.abs(misfits) < 2) > 0.9


def test_the_same_seed_gives_the_same_and_another_does_not() -> None:
    drive, _, found = fitted(0, 1)
    past = replace(drive, end=200.0, events=tuple(e for e in drive.events if e.day <= 200))
    measured = [Measured(40, "tray_kg", 3.0, 0.05, "D"), Measured(100, "worms_kg", 1.2, 0.2)]
    one, same, other = (fit(past, measured, draw_rates(60), seed).rates.logs() for seed in (1, 1, 2))
    assert np.array_equal(one, same)
    assert not np.allclose(one, other)
    assert found.rates.n == DRAWS


def some_past() -> Drive:
    drive = stack(any_habits(3), 3)
    return replace(drive, end=120.0, events=tuple(e for e in drive.events if e.day <= 120))


def test_a_reading_that_no_draw_comes_near_is_left_out_and_named() -> None:
    measured = [Measured(30, "worms_kg", 1.0, 0.2), Measured(30, "worms_kg", 40.0, 0.2, key="slip")]
    with_it, without = (fit(some_past(), which, draw_rates(80)) for which in (measured, measured[:1]))
    assert with_it.left_out == (1,)
    assert with_it.misfit[1] > 4
    assert with_it.measured[1].key == "slip"
    assert np.array_equal(with_it.rates.logs(), without.rates.logs())


def test_readings_that_contradict_each_other_show_it_both() -> None:
    measured = [Measured(110, "worms_kg", kg, 0.05) for kg in (0.9, 1.8)]
    low, high = fit(some_past(), measured, draw_rates(200)).misfit
    assert low < -3
    assert high > 3


def test_without_measurements_the_draws_stay_as_they_were() -> None:
    rates = draw_rates(20)
    found = fit(some_past(), (), rates)
    assert found.rates is rates
    assert found.misfit == ()


def test_what_no_reading_tells_of_stays_as_it_was() -> None:
    rates = draw_rates(60)
    found = fit(some_past(), [Measured(30, "worms_kg", 1.0, 0.1)], rates)
    assert found.rates.laid == pytest.approx(rates.laid, rel=1e-12)


def test_weighed_castings_count_in_what_no_rate_can_tell() -> None:
    found = fit(some_past(), [Measured(20, "tray_kg", 3.0, 0.08, "D")], draw_rates(30))
    assert found.measured[0].sd == pytest.approx(math.hypot(0.08, OWN_SPREAD))
    assert fit(some_past(), [Measured(20, "worms_kg", 1, 0.2)], draw_rates(30)).measured[0].sd == 0.2


def test_it_tells_how_far_it_is_and_can_be_stopped() -> None:
    told: list[tuple[int, int]] = []
    fit(
        some_past(),
        [Measured(30, "worms_kg", 1, 0.2)],
        draw_rates(10),
        progress=lambda done, of: told.append((done, of)),
    )
    assert told == [(done, 5) for done in range(1, 6)]
    with pytest.raises(Stopped):
        fit(some_past(), [Measured(30, "worms_kg", 1, 0.2)], draw_rates(10), stop=lambda: True)


def test_no_rounds_are_refused() -> None:
    with pytest.raises(OutOfRange):
        fit(some_past(), [Measured(30, "worms_kg", 1, 0.2)], draw_rates(10), rounds=0)
