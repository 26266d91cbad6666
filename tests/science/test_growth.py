"""The growth law over its whole published range, and numbers against mass."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from trayturn.science.errors import OutOfRange
from trayturn.science.growth import (
    BIRTH_G,
    MATURE_G,
    MOST_G,
    RATE_PER_DAY,
    days_to_mature,
    mass_g,
)
from trayturn.science.temperature import johnston

AGES = (7, 14, 21, 28, 35, 42, 56, 70, 84)
MASSES = {
    # Computed in grams by age from the law and parameters of Johnston et al. 2014, Ecol. Modelling 280:5-17.
    10: (0.0419, 0.0881, 0.1415, 0.1958, 0.2468, 0.2923, 0.3645, 0.4139, 0.4461),
    15: (0.0499, 0.1084, 0.1734, 0.2359, 0.2912, 0.3374, 0.4046, 0.4454, 0.4692),
    20: (0.0598, 0.1326, 0.2093, 0.2781, 0.3348, 0.3790, 0.4371, 0.4681, 0.4840),
    25: (0.0718, 0.1606, 0.2479, 0.3203, 0.3752, 0.4148, 0.4614, 0.4828, 0.4924),
    30: (0.0863, 0.1922, 0.2879, 0.3603, 0.4104, 0.4434, 0.4780, 0.4916, 0.4968),
}
REINECKE = (0.31, 0.34, 0.35, 0.43, 0.5, 0.54, 0.61, 0.69, 0.69, 0.67, 0.69, 0.64, 0.68, 0.66, 0.66, 0.68)
"""Reinecke & Viljoen 1990, Biol. Fertil. Soils 10:184-187: g at 25 C, every 10 days from day 25."""
ALIVE = st.floats(0.5, 34.5)
AGE = st.floats(0, 2000)


@pytest.mark.parametrize("celsius", MASSES)
def test_the_law_at_every_age_and_temperature(celsius: int) -> None:
    assert [mass_g(age, celsius) for age in AGES] == pytest.approx(MASSES[celsius], abs=6e-5)


def test_the_parameters_are_the_published_ones() -> None:
    assert (RATE_PER_DAY, BIRTH_G, MATURE_G, MOST_G) == (0.177, 0.011, 0.25, 0.5)
    assert mass_g(0, 20) == pytest.approx(BIRTH_G)


def test_well_fed_worms_outgrow_the_law() -> None:
    """The law tops out at 0.5 g; worms fed every 20 days reached 0.69, so it is a floor for them."""
    for place, grams in enumerate(REINECKE[4:], start=4):
        assert mass_g(25 + 10 * place, 25) <= MOST_G <= grams


@given(ALIVE, AGE, AGE)
def test_a_worm_grows_and_never_past_the_most(celsius: float, one: float, other: float) -> None:
    young, old = sorted((one, other))
    assert BIRTH_G - 1e-12 <= mass_g(young, celsius) <= mass_g(old, celsius) + 1e-12
    assert mass_g(old, celsius) <= MOST_G + 1e-12


@given(ALIVE, ALIVE, AGE)
def test_warmer_is_heavier_and_sooner_mature(one: float, other: float, age: float) -> None:
    cold, warm = sorted((one, other))
    assert mass_g(age, cold) <= mass_g(age, warm) + 1e-12
    late, soon = days_to_mature(cold), days_to_mature(warm)
    assert late is not None
    assert soon is not None
    assert soon <= late * (1 + 1e-12)


@given(ALIVE, st.floats(0, 300), st.floats(0, 300))
def test_growing_twice_is_growing_once_for_the_sum(celsius: float, first: float, then: float) -> None:
    assert mass_g(then, celsius, mass_g(first, celsius)) == pytest.approx(mass_g(first + then, celsius))


@pytest.mark.parametrize("celsius", [5, 15, 33])
def test_scipy_finds_the_day_of_maturity(celsius: float) -> None:
    def law(_: float, m: list[float]) -> list[float]:
        return [RATE_PER_DAY * johnston(celsius) * (MOST_G ** (1 / 3) * m[0] ** (2 / 3) - m[0])]

    def mature(_: float, m: list[float]) -> float:
        return m[0] - MATURE_G

    solved = integrate.solve_ivp(law, (0, 200), [BIRTH_G], events=mature, rtol=1e-10, atol=1e-12)
    assert days_to_mature(celsius) == pytest.approx(float(solved.t_events[0][0]), rel=1e-6)


@pytest.mark.parametrize("celsius", [-5, 0, 35, 40])
def test_nothing_grows_outside_the_limits_of_life(celsius: float) -> None:
    assert mass_g(100, celsius) == BIRTH_G
    assert days_to_mature(celsius) is None


@pytest.mark.parametrize("wrong", [-1.0, math.nan, math.inf, 1e12])
def test_odd_input_is_refused(wrong: float) -> None:
    with pytest.raises(OutOfRange):
        mass_g(wrong, 20)
    with pytest.raises(OutOfRange):
        mass_g(10, 20, wrong)
    with pytest.raises(OutOfRange):
        days_to_mature(20, wrong)
