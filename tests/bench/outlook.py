"""The outlook: how long a run and a fit take, and how often the truth lies in the band.

The keepers are made up: each one's true rates are drawn from those the model begins with, every meal is off
by 15 % from what the keeper believes, and every reading by its error. Besides, they are told with the model
as the truth: meals known exactly, and no spread of a harvest's own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path
from statistics import mean

import numpy as np

from tests.bench.figures import Figure, medians, ms
from tests.science.process.keepers import (
    Habits,
    any_habits,
    cupped,
    measure,
    one_draw,
    readings,
    solids_of,
    stack,
)
from trayturn.science.process.fitting import OWN_SPREAD, fit
from trayturn.science.process.rates import Array, Rates, draw_rates
from trayturn.science.process.running import run
from trayturn.science.process.telling import as_weighed, percentiles, thumb_kg

DRAWS, TRAYS, DAYS = 1000, 5, 365
KEEPERS, KEEPER_DRAWS = 100, 400
TURNS = (0, 1, 2, 4)
SERIES = 6


def figures(folder: Path) -> Iterator[Figure]:
    yield _year()
    yield _bands()
    yield _fit()
    for turns in TURNS:
        yield from _score(turns, exact=False)
    yield from _score(2, exact=True)


def _year() -> Figure:
    drive = replace(stack(Habits(trays=TRAYS), 7), end=DAYS)
    drive = replace(drive, events=tuple(e for e in drive.events if e.day <= DAYS))
    rates, tray_days = draw_rates(DRAWS), DRAWS * TRAYS * DAYS
    ours, floor = medians(9, lambda: ms(lambda: run(drive, rates)), lambda: ms(lambda: _euler(rates)))
    each = 1e6 / tray_days
    return Figure("a year of 5 trays, 1,000 draws, by tray-day", ours * each, floor * each, 2.0, "ns")


def _euler(rates: Rates) -> Array:
    """The same for trays fed alike every day, by plain Euler: 12 things a tray, the same four series kept."""
    state, worms = np.full((12, TRAYS, DRAWS), 0.3), np.full(DRAWS, 1.0)
    kept, of_bin = np.zeros((2, DAYS, TRAYS, DRAWS)), np.zeros((2, DAYS, DRAWS))
    for day in range(DAYS):
        quick, slow, resistant, castings, water, *cocoons = state
        mass = quick + slow + resistant + castings + water
        moist = water / mass
        kept[0, day], kept[1, day], of_bin[0, day], of_bin[1, day] = mass, moist, worms, water[-1]
        food = rates.quick_per_d * quick + rates.slow_per_d * slow + rates.resistant_per_d * resistant
        food = food * np.clip((moist - 0.3) * 4, 0.1, 1)
        share = food / food.sum(axis=0)
        busy = 1 - 0.6 * np.exp(share * worms * -8)
        lost = food * busy
        fed = lost.sum(axis=0)
        worms = worms * np.exp(rates.growth_per_d * np.maximum(1 - rates.need * worms / fed, -2))
        most = rates.holds * (quick + slow + resistant + castings)
        dried = rates.evaporates * 0.16 * water / most
        running = np.maximum(water - most, 0)
        water += 0.15 + 0.3 * lost - dried - running
        water[1:] += running[:-1]
        castings += rates.castings_share * lost - 0.01 * castings
        quick += 0.03 - rates.quick_per_d * busy * quick
        slow += 0.01 - rates.slow_per_d * busy * slow
        resistant += 0.001 - rates.resistant_per_d * busy * resistant
        cocoons[0] += share * worms
        for one, other in pairwise(cocoons):
            hatching = one * 0.3
            one -= hatching
            other += hatching
    return kept


def _bands() -> Figure:
    values = np.random.default_rng(1).random((SERIES, DAYS, DRAWS))
    ours, floor = medians(5, lambda: ms(lambda: percentiles(values)), lambda: ms(lambda: np.sort(values)))
    return Figure("percentiles of six series of a year, against sorting them", ours, floor, 1.5)


def _fit() -> Figure:
    habits = Habits()
    drive = stack(habits, 5)
    values = measure(drive, one_draw(draw_rates(1, 5), 0), readings(drive, habits), 1)
    rates = draw_rates(DRAWS)
    ours, floor = medians(
        3, lambda: ms(lambda: fit(drive, values, rates)), lambda: 5 * ms(lambda: run(drive, rates, ()))
    )
    return Figure("a fit to a journal of 4 harvests, 1,000 draws", ours, floor, 1000, absolute=True)


@dataclass(frozen=True)
class Held(Figure):
    """How many bands hold the truth, where too many is as wrong as too few."""

    least: float = 0.0

    @property
    def within(self) -> bool:
        return self.least <= self.ours <= self.budget


@dataclass(frozen=True)
class Guess:
    """One keeper's next harvest as it comes out, by its band, and by the rule of thumb."""

    true: float
    band: tuple[float, ...]
    thumb: float

    def holds(self, inner: int) -> bool:
        return self.band[inner] <= self.true <= self.band[-1 - inner]


def _score(turns: int, exact: bool) -> Iterator[Figure]:
    guesses = [_guess(seed, turns, exact) for seed in range(KEEPERS)]
    name = f"{turns} harvests {'known exactly' if exact else 'measured'}"
    for inner, percent, least, most in ((0, 80, 70, 92), (1, 50, 38, 62)):
        held = float(sum(guess.holds(inner) for guess in guesses))
        yield Held(f"{name}: in the {percent} % band, of 100", held, percent, most, "", True, least)
    off = 100 * mean(abs(guess.band[2] / guess.true - 1) for guess in guesses)
    thumb = 100 * mean(abs(guess.thumb / guess.true - 1) for guess in guesses)
    yield Figure(f"{name}: middle off, against thumb", off, thumb, 1.0, "%")
    width = 100 * mean((guess.band[-1] - guess.band[0]) / guess.band[2] for guess in guesses)
    yield Figure(f"{name}: width of the 80 % band", width, 0, 80, "%", absolute=True)


def _guess(seed: int, turns: int, exact: bool) -> Guess:
    """The harvest after so many measured ones, foretold by a keeper who fits to all read till then."""
    habits, truth = any_habits(seed), one_draw(draw_rates(KEEPERS, 77), seed)
    drive, now = stack(habits, turns + 2), (turns + 1) * habits.turn_every
    real, own = (drive, 0.0) if exact else (cupped(drive, seed), OWN_SPREAD)
    past = replace(drive, end=now, events=tuple(event for event in drive.events if event.day <= now))
    planned = [what for what in readings(drive, habits) if what.day <= now] if turns else []
    values = measure(real, truth, planned, seed)
    found = fit(past, values, draw_rates(KEEPER_DRAWS, seed + 1000), seed, own_spread=own)
    foretold, came = (
        run(which, rates, ()).harvests[turns] for which, rates in ((drive, found.rates), (real, truth))
    )
    band = percentiles(as_weighed(foretold.kg, seed, own))
    thumb = thumb_kg(solids_of(drive, foretold.tray, foretold.day))
    return Guess(float(came.kg[0]), tuple(float(kg) for kg in band), thumb)
