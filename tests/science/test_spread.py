"""Prediction intervals of sums, against SciPy and against draws made anew."""

from __future__ import annotations

import math
import random
from statistics import mean, stdev

import pytest
from scipy import stats

from trayturn.science.errors import OutOfRange
from trayturn.science.spread import product, sum_off, t_80


@pytest.mark.parametrize("degrees", [*range(1, 41), 100, 1000])
def test_the_points_of_t_are_scipys(degrees: int) -> None:
    assert t_80(degrees) == pytest.approx(stats.t.ppf(0.9, degrees), rel=1e-3)


@pytest.mark.parametrize(("seen", "number"), [(3, 1), (4, 6), (24, 3), (24, 30)])
def test_four_sums_in_five_lie_within(seen: int, number: int) -> None:
    """The interval is drawn from past values and tried on further ones of the same normal distribution."""
    draw = random.Random(20261121)
    tries = 4000
    inside = 0
    for _ in range(tries):
        past = [draw.gauss(0.5, 0.1) for _ in range(seen)]
        ahead = sum(draw.gauss(0.5, 0.1) for _ in range(number))
        inside += abs(ahead - number * mean(past)) <= sum_off(stdev(past), seen, number)
    assert inside / tries == pytest.approx(0.8, abs=0.02)


def test_one_value_says_nothing_of_how_they_differ() -> None:
    with pytest.raises(OutOfRange):
        sum_off(0.1, 1, 3)


def test_the_band_of_a_product_is_that_of_its_draws() -> None:
    """Three lognormal estimates with 80 % bands, multiplied draw by draw; SciPy has the exact quantiles."""
    spreads, middles, quantiles = (0.3, 0.5, 0.4), (1.0, 0.1, 340.0), (0.1, 0.5, 0.9)
    bands = [
        [float(stats.lognorm.ppf(quantile, sd, scale=middle)) for quantile in quantiles]
        for sd, middle in zip(spreads, middles, strict=True)
    ]
    found = product(*((low, middle, high) for low, middle, high in bands))
    whole = stats.lognorm(math.hypot(*spreads), scale=math.prod(middles))
    assert found == pytest.approx([float(whole.ppf(quantile)) for quantile in quantiles])
    draw = random.Random(20261121)
    tries = 20_000
    draws = (math.prod(middles) * math.exp(sum(draw.gauss(0, sd) for sd in spreads)) for _ in range(tries))
    assert sum(found[0] <= one <= found[2] for one in draws) / tries == pytest.approx(0.8, abs=0.015)


def test_one_band_is_its_own_product() -> None:
    assert product((1.0, 2.0, 3.0)) == pytest.approx((1.0, 2.0, 3.0))


def test_ends_out_of_order_are_refused() -> None:
    with pytest.raises(OutOfRange):
        product((2.0, 1.0, 3.0))
