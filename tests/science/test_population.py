"""Breeding: doubling times, a cohort day by day, and the root against SciPy's for any life table."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize

from trayturn.science.errors import OutOfRange
from trayturn.science.population import cohort, doubling_days, growth_rate

COHORT = {14: (49, 0), 28: (80.5, 42.0), 56: (80.5, 277.2), 63: (80.5, 336.0)}
"""Computed: ten adults, 0.35 cocoons a day, 23 days, 0.8 hatch, 3 each; cocoons and juveniles by day."""


@pytest.mark.parametrize(("days", "r"), [(30, 0.023105), (60, 0.011552), (75, 0.009242), (90, 0.007702)])
def test_doubling_times(days: float, r: float) -> None:
    """Computed: ln 2 over r. Practice literature says two to three months in a good bin."""
    assert doubling_days(r) == pytest.approx(days, rel=1e-4)


@pytest.mark.parametrize(("day", "expected"), COHORT.items())
def test_a_cohort_by_day(day: float, expected: tuple[float, float]) -> None:
    assert cohort(10, 0.35, 23, 0.8, 3, day) == pytest.approx(expected)


def test_adults_taken_out_after_four_weeks() -> None:
    """Computed: all 98 cocoons of the first 28 days have hatched by day 56, into 235.2."""
    unhatched, young = cohort(10, 0.35, 23, 0.8, 3, 28)
    assert young + unhatched * 0.8 * 3 == pytest.approx(235.2)


LIVELY = (st.floats(0.05, 5), st.floats(10, 150), st.floats(5, 90), st.floats(0.05, 1), st.floats(0, 0.02))


@given(*LIVELY)
def test_the_root_is_scipys(b: float, alpha: float, inc: float, s: float, mu: float) -> None:
    def excess(r: float) -> float:
        return math.log(b * s) - r * inc - (r + mu) * alpha - math.log(r + mu)

    assert growth_rate(b, alpha, inc, s, mu) == pytest.approx(
        optimize.brentq(excess, -mu + 1e-9, 9, xtol=1e-14), abs=1e-9
    )


@given(*LIVELY, st.floats(1.01, 3))
def test_more_young_and_fewer_deaths_grow_faster(
    b: float, alpha: float, inc: float, s: float, mu: float, more: float
) -> None:
    base = growth_rate(b, alpha, inc, s, mu)
    assert growth_rate(b * more, alpha, inc, s, mu) > base
    assert growth_rate(b, alpha, inc, s, mu + 0.001) < base


@given(st.floats(0, 1000), st.floats(0, 2), st.floats(0, 1), st.floats(0, 5), st.floats(0, 500))
def test_no_cocoon_is_lost(adults: float, a_day: float, viable: float, each: float, days: float) -> None:
    unhatched, young = cohort(adults, a_day, 23, viable, each, days)
    laid = adults * a_day * days
    assert 0 <= unhatched <= laid + 1e-9
    assert young == pytest.approx((laid - unhatched) * viable * each, abs=1e-6)


@pytest.mark.parametrize("wrong", [-1.0, math.nan, math.inf, 1e9])
def test_odd_life_tables_are_refused(wrong: float) -> None:
    for call in (
        lambda: growth_rate(wrong, 60, 25),
        lambda: growth_rate(1, wrong, 25),
        lambda: growth_rate(1, 60, wrong),
        lambda: growth_rate(1, 60, 25, wrong),
        lambda: growth_rate(1, 60, 25, 1, wrong),
        lambda: cohort(wrong, 0.35, 23, 0.8, 3, 14),
        lambda: cohort(10, 0.35, 23, wrong, 3, 14),
        lambda: cohort(10, 0.35, 23, 0.8, 3, wrong),
        lambda: doubling_days(wrong * 20),
    ):
        with pytest.raises(OutOfRange):
            call()


def test_no_young_no_growth_rate() -> None:
    with pytest.raises(OutOfRange, match="Without hatchlings"):
        growth_rate(0, 60, 25)
    assert doubling_days(0) is None
