"""Draws of the rates: medians, spreads, and that no draw knows of the others."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.science.errors import OutOfRange
from trayturn.science.population import doubling_days, growth_rate
from trayturn.science.process.rate_table import RATES
from trayturn.science.process.rates import MOST_SHARE, draw_rates, medians, rates_of
from trayturn.science.process.telling import percentiles
from trayturn.science.temperature import activity_against

CROWDED = {"b": 0.1875, "alpha_d": 70, "inc_d": 30, "s": 0.3, "mu": 0.003}
"""A life table of a crowded home bin, computed from published inputs."""
COCOONS = (30, 31, 39, 36, 41, 36, 48, 40, 44, 42, 38, 36, 42, 41, 34, 40)
MASSES = (0.31, 0.34, 0.35, 0.43, 0.5, 0.54, 0.61, 0.69, 0.69, 0.67, 0.69, 0.64, 0.68, 0.66, 0.66, 0.68)
"""Reinecke & Viljoen 1990, Biology and Fertility of Soils 10:184-187: ten worms at 25 C, every 10 days."""


@pytest.mark.parametrize("place", range(len(RATES)), ids=[rate.name for rate in RATES])
def test_draws_have_the_median_and_the_spread_that_is_said(place: int) -> None:
    rate, logs = RATES[place], draw_rates(20_000, seed=3).logs()[place]
    assert np.median(logs) == pytest.approx(math.log(rate.median), abs=0.03 * math.log(rate.spread))
    low, high = np.percentile(logs, [15.87, 84.13])
    assert (high - low) / 2 == pytest.approx(math.log(rate.spread), rel=0.03)


def test_rates_are_drawn_apart_from_each_other() -> None:
    together = np.corrcoef(draw_rates(20_000, seed=5).logs())
    assert np.abs(together - np.eye(len(RATES))).max() < 0.03


@given(st.integers(0, 2**31), st.integers(0, 300), st.integers(1, 60))
def test_a_draw_depends_on_the_seed_and_its_own_number_alone(seed: int, first: int, n: int) -> None:
    many = draw_rates(400, seed).logs()
    assert np.array_equal(draw_rates(n, seed, first).logs(), many[:, first : first + n])


def test_another_seed_gives_other_draws() -> None:
    assert not np.any(draw_rates(50, 1).need == draw_rates(50, 2).need)


def test_no_draw_makes_more_castings_than_there_were_solids() -> None:
    assert draw_rates(100_000, seed=2).castings_share.max() == MOST_SHARE


def test_logarithms_go_there_and_back() -> None:
    assert np.allclose(rates_of(draw_rates(30).logs()).logs(), draw_rates(30).logs(), rtol=1e-12)
    assert medians().n == 1


def test_no_draws_are_refused() -> None:
    with pytest.raises(OutOfRange):
        draw_rates(0)


def test_the_life_table_of_a_crowded_bin_is_in_the_band_and_the_laboratory_is_not() -> None:
    """Euler and Lotka's equation, computed from published inputs; worms in a laboratory are not crowded."""
    low, *_, high = percentiles(draw_rates(4000).growth_per_d)
    crowded = growth_rate(**CROWDED)
    assert crowded == pytest.approx(0.01147, rel=0.005)
    assert low < crowded < high < growth_rate(b=0.8871, alpha_d=60, inc_d=25)


def test_a_bin_doubles_in_two_to_three_months() -> None:
    """The field rule of the practice literature (NOFA, The Natural Farmer; an extension hand-out)."""
    low, *_, high = percentiles(draw_rates(4000).growth_per_d)
    soonest, latest = doubling_days(float(high)), doubling_days(float(low))
    assert soonest is not None
    assert latest is not None
    assert soonest < 60 < 90 < latest


def test_the_published_cocoons_are_in_the_band() -> None:
    """The cocoons of the ten worms from their mass, all together; the bench worms were well fed."""
    worm_days = sum(MASSES) / 1000 * 10 * 10
    low, *_, high = percentiles(draw_rates(4000).laid * activity_against(25.0) * worm_days)
    assert low < sum(COCOONS) < high
