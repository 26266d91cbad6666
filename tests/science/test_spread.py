"""Prediction intervals of sums, against SciPy and against draws made anew."""

from __future__ import annotations

import random
from statistics import mean, stdev

import pytest
from scipy import stats

from trayturn.science.errors import OutOfRange
from trayturn.science.spread import sum_off, t_80


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
