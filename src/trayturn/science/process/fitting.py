"""The rates pulled toward what was measured: an ensemble smoother with multiple data assimilation.

The draws are run over the bin's past a few times, and each time moved part of the way toward what was
measured, by how each rate and each reading vary together over the draws (Emerick & Reynolds 2013, Computers
& Geosciences 55:3-15, from memory). Where the model is linear and the rates log-normal it comes to the exact
answer.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from trayturn.science.errors import within
from trayturn.science.process.events import LOGARITHMIC, Drive, Measured
from trayturn.science.process.rate_table import RATES
from trayturn.science.process.rates import Array, Rates, rates_of
from trayturn.science.process.running import run

FAR = 4.0
"""A measurement further than so many of its standard deviations from all draws is left out. Our choice."""
EDGE = 5.0
"""No rate is moved further than so many of its own standard deviations from its median. Our choice."""
OWN_SPREAD = 0.06
"""How far the castings or the weight of a tray lie from what the right rates would say, as a share: what goes
in is known by the cup. Off by 15 % at a time, six things put in are off by 15/sqrt(6) % together. Our
choice."""
OWN = frozenset({"harvest_kg", "tray_kg"})
LEAST = 1e-6
"""The least of a value whose logarithm is taken, in its unit."""


@dataclass(frozen=True, slots=True)
class Fitted:
    """The rates after the fit, and what they say of each measurement.

    `measured` carry the errors that they were fitted with. `read` is what the fitted draws would have read,
    (measurements, draws); `misfit` how many standard deviations each measured value lies above the median of
    that, the draws' own spread counted in; `left_out` the places in `measured` of those that no draw came
    near.
    """

    rates: Rates
    measured: tuple[Measured, ...]
    read: Array
    misfit: tuple[float, ...]
    left_out: tuple[int, ...]


def fit(
    drive: Drive,
    measured: Sequence[Measured],
    rates: Rates,
    seed: int = 1,
    rounds: int = 4,
    progress: Callable[[int, int], None] | None = None,
    stop: Callable[[], bool] | None = None,
    own_spread: float = OWN_SPREAD,
) -> Fitted:
    """The rates given what was measured, which must lie within the drive. `progress(runs done, of)` is told.

    `own_spread` is added to the errors of castings and trays weighed. Raises `OutOfRange` for what cannot be
    measured, and `Stopped` when `stop` says so.
    """
    within(rounds, "The rounds", 1, 100)
    if not measured:
        return Fitted(rates, (), np.zeros((0, rates.n)), (), ())
    known = [loosened(what, own_spread) for what in measured]
    logs, read = rates.logs(), run(drive, rates, (), known, stop=stop).read
    kept = [place for place, what in enumerate(known) if not _far(what, read[place])]
    for done in range(rounds):
        if progress is not None:
            progress(done + 1, rounds + 1)
        logs = _moved(logs, read[kept], [known[place] for place in kept], rounds, (seed, done))
        read = run(drive, rates_of(logs), (), known, stop=stop).read
    if progress is not None:
        progress(rounds + 1, rounds + 1)
    misfit = tuple(misfit_of(what, row) for what, row in zip(known, read, strict=True))
    left_out = tuple(place for place in range(len(known)) if place not in kept)
    return Fitted(rates_of(logs), tuple(known), read, misfit, left_out)


def loosened(what: Measured, own_spread: float = OWN_SPREAD) -> Measured:
    """The measurement with an error that counts in what no rates could tell."""
    return replace(what, sd=math.hypot(what.sd, own_spread)) if what.kind in OWN else what


def scaled(what: Measured, values: Array) -> Array:
    """The values on the scale where the error of such a measurement is the same everywhere."""
    return np.log(np.maximum(values, LEAST)) if what.kind in LOGARITHMIC else values


def misfit_of(what: Measured, read: Array) -> float:
    """How far the measured value lies above the median of what draws read, in standard deviations."""
    off = scaled(what, np.array([what.value]))[0] - np.median(scaled(what, read))
    return float(off / np.hypot(what.sd, np.std(scaled(what, read))))


def update(theta: Array, read: Array, value: Array, sd: Array, weight: float, noise: Array) -> Array:
    """One round: theta + C_td (C_dd + weight R)^-1 (value + sqrt(weight) sd noise - read).

    `theta` is (unknowns, draws), `read` and `noise` (measurements, draws), `value` and `sd` (measurements).
    The readings are divided by their errors first, so that R is the unit matrix. With more readings than
    draws the same is reckoned among the draws, A^T (A A^T + w)^-1 = (A^T A + w)^-1 A^T: a long journal has
    thousands of readings.
    """
    away = (value[:, None] - read) / sd[:, None] + np.sqrt(weight) * noise
    reads = (read - read.mean(axis=1, keepdims=True)) / sd[:, None]
    moves = theta - theta.mean(axis=1, keepdims=True)
    degrees = theta.shape[1] - 1
    if len(reads) > theta.shape[1]:
        among = reads.T @ reads / degrees + weight * np.eye(theta.shape[1])
        by_draws: Array = theta + moves @ np.linalg.solve(among, reads.T @ away) / degrees
        return by_draws
    spread = reads @ reads.T / degrees + weight * np.eye(len(reads))
    moved: Array = theta + moves @ reads.T / degrees @ np.linalg.solve(spread, away)
    return moved


def _far(what: Measured, read: Array) -> bool:
    away = np.abs(scaled(what, read) - scaled(what, np.array([what.value])))
    return bool(away.min() > FAR * what.sd)


def _moved(
    logs: Array, read: Array, measured: Sequence[Measured], rounds: int, seed: tuple[int, int]
) -> Array:
    """The draws a round later. What no measurement can tell of is left as it is: the cocoons laid."""
    if not measured:
        return logs
    on_scale = np.stack([scaled(what, row) for what, row in zip(measured, read, strict=True)])
    value = np.array([scaled(what, np.array([what.value]))[0] for what in measured])
    sd = np.array([what.sd for what in measured])
    noise = np.random.Generator(np.random.Philox(np.random.SeedSequence(seed))).standard_normal(read.shape)
    moved = update(logs[:-1], on_scale, value, sd, rounds, noise)
    return np.concatenate([_kept_near(moved), logs[-1:]])


def _kept_near(logs: Array) -> Array:
    middle = np.log([[rate.median] for rate in RATES[:-1]])
    reach = EDGE * np.log([[rate.spread] for rate in RATES[:-1]])
    return np.clip(logs, middle - reach, middle + reach)
