"""Rations, rot, water, growth, hatching and breeding, against published answers and SciPy."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, optimize

from tests.science.oracles import GUNADI, JOHNSTON_DAYS, LIFE_TABLES
from trayturn.science import breakdown, growth, hatching, population, ration, temperature, water
from trayturn.science.errors import OutOfRange

WARM = st.floats(5, 29)


@pytest.mark.parametrize(
    ("celsius", "a", "b"), [(5, 0.4969, 0.2295), (15, 0.7135, 0.6228), (30, 1.1740, 2.4601)]
)
def test_the_two_published_corrections(celsius: float, a: float, b: float) -> None:
    """Johnston et al. 2014 (against 25 C) and the DEB set (against 20 C), computed from their parameters."""
    assert temperature.johnston(celsius) == pytest.approx(a, abs=2e-4)
    assert temperature.energy_budget(celsius) == pytest.approx(b, abs=2e-4)


@pytest.mark.parametrize(
    ("celsius", "expected"), [(5, 0.0857), (15, 0.6), (25, 1.0), (30, 0.8), (33, 0.4149)]
)
def test_the_activity_curve(celsius: float, expected: float) -> None:
    """The cardinal model with 0, 25 and 35 C, computed; the formula (Rosso et al. 1993) from memory."""
    assert temperature.activity(celsius) == pytest.approx(expected, abs=1e-4)


@given(WARM, st.floats(0.1, 5))
def test_warmer_is_quicker_and_the_band_is_a_band(celsius: float, more: float) -> None:
    low, high = temperature.speed_band(celsius, 20)
    assert 0 < low <= high
    assert temperature.speed_band(celsius + more, 20)[0] >= low


def test_a_ration_at_the_reference_is_the_published_one() -> None:
    """Ndegwa, Thompson & Das 2000: 0.75 and 1.25 kg/kg/d; 0.16 m2 at 1.6 kg/m2 takes 0.192 and 0.320."""
    found = ration.ration(0.256, 20)
    assert (found.optimum, found.ceiling) == pytest.approx((0.192, 0.320))
    assert found.norm == pytest.approx((0.0512, 0.128))
    assert ration.area_rule(0.16) == pytest.approx(0.781, abs=5e-4)
    assert ration.stocking(0.256, 0.16) == pytest.approx((1.6, 1.0))


@given(st.floats(0, 20), WARM)
def test_a_ration_grows_with_the_worms_and_keeps_its_order(worms: float, celsius: float) -> None:
    one, two = ration.ration(worms, celsius), ration.ration(2 * worms, celsius)
    assert two.ceiling == pytest.approx(2 * one.ceiling)
    assert one.norm[0] <= one.norm[1] <= one.optimum <= one.ceiling <= 1.25 * worms + 1e-12


@pytest.mark.parametrize("celsius", [3.9, 30.1, -10, 45])
def test_nothing_is_fed_outside_the_limits(celsius: float) -> None:
    found = ration.ration(2.3, celsius)
    assert (found.norm, found.optimum, found.ceiling) == ((0, 0), 0, 0)
    assert "do not feed" in found.why


def test_a_banana_peel_takes_about_three_weeks() -> None:
    """Common practice, no source: about three weeks indoors; soft leaves much faster, cobs many months."""
    peel, leaf, cob = (breakdown.days_until_gone(speed, 20) for speed in ("medium", "fast", "very slow"))
    assert peel is not None
    assert leaf is not None
    assert cob is not None
    assert peel[0] < 21 < peel[1]
    assert leaf[1] < 14
    assert cob[0] > 180


@given(st.sampled_from(list(breakdown.RATES)), WARM, st.floats(0.35, 1))
def test_gone_is_when_a_tenth_is_left(speed: str, celsius: float, moisture: float) -> None:
    days = breakdown.days_until_gone(speed, celsius, moisture)
    assert days is not None
    for day, rate in zip(days, reversed(breakdown.rate(speed, celsius, moisture)), strict=True):
        assert breakdown.left(day, rate) == pytest.approx(0.1)


def test_nothing_goes_when_frozen_cooked_or_dry() -> None:
    assert breakdown.days_until_gone("fast", -1) is None
    assert breakdown.days_until_gone("fast", 36) is None
    assert breakdown.days_until_gone("fast", 20, 0.2) is None


@pytest.mark.parametrize(("kept", "expected"), [(0.6, 0.7825), (0.7, 0.7200), (0.8, 0.5950)])
def test_the_surplus_water_of_a_feeding(kept: float, expected: float) -> None:
    """Computed: 1 kg at 85 %, half the solids lost, 0.598 kg of water from each kg (stoichiometry)."""
    assert water.surplus(1, 0.85, kept) == pytest.approx(expected, abs=2e-4)


def test_bedding_takes_the_surplus_up() -> None:
    assert water.bedding_for(0.72, 2.0) == pytest.approx(0.36)
    assert water.bedding_for(-0.1) == 0
    assert water.days_dry(0.3, 0.02, (2.0, 4.0)) == pytest.approx((30, 60))
    assert water.days_dry(0.3, 0.0, (2.0, 4.0)) is None


@given(st.floats(0.1, 50), st.floats(0.3, 0.98), st.floats(0, 0.9), st.floats(0, 1))
def test_no_water_is_made_or_lost_but_by_the_solids(
    kg: float, moist: float, kept: float, lost: float
) -> None:
    solids = kg * (1 - moist)
    held = solids * (1 - lost) * kept / (1 - kept)
    assert water.surplus(kg, moist, kept, lost) + held == pytest.approx(kg * moist + 0.598 * lost * solids)


@pytest.mark.parametrize(("celsius", "days"), JOHNSTON_DAYS.items())
def test_days_to_maturity(celsius: float, days: float) -> None:
    found = growth.days_to_mature(celsius)
    assert found == pytest.approx(days, abs=0.01)
    assert found is not None
    assert growth.mass_g(found, celsius) == pytest.approx(0.25)


@pytest.mark.parametrize("celsius", [10, 18, 25])
def test_the_closed_form_is_scipys_solution(celsius: float) -> None:
    speed = growth.RATE_PER_DAY * temperature.johnston(celsius)

    def law(_: float, m: list[float]) -> list[float]:
        return [speed * (0.5 ** (1 / 3) * m[0] ** (2 / 3) - m[0])]

    days = [7, 28, 56, 84]
    solved = integrate.solve_ivp(law, (0, 84), [0.011], t_eval=days, rtol=1e-10, atol=1e-12)
    assert list(solved.y[0]) == pytest.approx([growth.mass_g(day, celsius) for day in days], rel=1e-6)


def test_worms_that_were_weighed_week_by_week() -> None:
    """Gunadi, Blount & Edwards 2002, Pedobiologia 46:15-23, at 20 C: the law is within 25 % from week 4."""
    for week in range(4, 13):
        assert growth.mass_g(7 * week, 20) == pytest.approx(GUNADI[week], rel=0.25)


@pytest.mark.parametrize(("table", "r", "doubling"), LIFE_TABLES)
def test_growth_from_a_life_table(table: tuple[float, ...], r: float, doubling: float) -> None:
    b, alpha, inc, s, mu = table
    found = population.growth_rate(b, alpha, inc, s, mu)
    assert found == pytest.approx(r, rel=0.005)
    assert population.doubling_days(found) == pytest.approx(doubling, rel=0.005)

    def euler_lotka(x: float) -> float:
        return b * s * math.exp(-x * inc) * math.exp(-(x + mu) * alpha) / (x + mu) - 1

    assert found == pytest.approx(optimize.brentq(euler_lotka, 1e-6, 1), rel=1e-6)


def test_a_population_that_dies_faster_than_it_breeds_shrinks() -> None:
    r = population.growth_rate(0.01, 70, 30, 0.1, 0.02)
    assert r < 0
    assert population.doubling_days(r) is None


@pytest.mark.parametrize(("days", "unhatched", "young"), [(14, 49, 0), (28, 80.5, 42), (56, 80.5, 277.2)])
def test_a_cohorts_arithmetic(days: float, unhatched: float, young: float) -> None:
    """Computed: 10 adults, 0.35 cocoons a day, 23 days, 0.8 hatch, 3 each."""
    assert population.cohort(10, 0.35, 23, 0.8, 3, days) == pytest.approx((unhatched, young))


def test_cocoons_laid_by_ten_worms_lie_in_the_published_range() -> None:
    """Reinecke & Viljoen 1990: 694 cocoons of 10 worms in 18 spells of 10 days, 0.386 a worm a day."""
    counts = [30, 31, 39, 36, 41, 36, 48, 40, 44, 42, 38, 36, 42, 41, 34, 40, 36, 40]
    per_day = sum(counts) / 180 / 10
    assert per_day == pytest.approx(0.386, rel=0.005)
    assert population.cohort(10, per_day, 180, 1, 1, 180)[0] == pytest.approx(694)


def test_hatching_at_a_temperature_and_at_another() -> None:
    """DEB data file of E. fetida: 25 days at 20 C; at 15 C 29.7 by one correction and 40 by the other."""
    at_20, at_15 = hatching.hatch(20), hatching.hatch(15)
    assert at_20 is not None
    assert at_15 is not None
    assert at_20.half[1] == pytest.approx(25)
    assert at_15.half[1] == pytest.approx(25 / 0.6228, rel=1e-3)
    assert at_20.most[1] == pytest.approx(25 * (1 + 1.645 * 4.69 / 24))
    assert hatching.hatch(1) is None


@given(st.sampled_from([*hatching.KNOWN, *hatching.SAME]), st.floats(-10, 45))
def test_every_band_has_its_low_end_first(species: str, celsius: float) -> None:
    found = hatching.hatch(celsius, species)
    if found is not None:
        assert 0 < found.half[0] <= found.half[1] <= found.most[1]
        assert found.half[0] <= found.most[0] <= found.most[1]


@given(st.floats(0.01, 50))
def test_numbers_and_mass_go_back_and_forth(kg: float) -> None:
    few, many = growth.worms_in(kg)
    assert few <= many
    assert growth.kg_of(few)[1] == pytest.approx(kg)
    assert growth.kg_of(many)[0] == pytest.approx(kg)


@pytest.mark.parametrize("wrong", [-99.0, math.nan, math.inf, 1e9])
def test_odd_input_is_refused(wrong: float) -> None:
    for call in (
        lambda: ration.ration(wrong, 18),
        lambda: ration.ration(1, wrong),
        lambda: ration.area_rule(wrong),
        lambda: breakdown.rate("fast", wrong),
        lambda: breakdown.moisture_factor(wrong),
        lambda: water.surplus(wrong, 0.8),
        lambda: growth.mass_g(wrong, 20),
        lambda: growth.worms_in(wrong),
        lambda: hatching.hatch(wrong),
        lambda: population.growth_rate(wrong, 60, 25),
        lambda: temperature.activity(wrong),
    ):
        with pytest.raises(OutOfRange):
            call()
    for name in (lambda: breakdown.rate("brisk", 20), lambda: hatching.hatch(20, "dragon")):
        with pytest.raises(OutOfRange, match="use one of"):
            name()
