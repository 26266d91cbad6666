"""Worm numbers from picking and from samples, against published answers and SciPy."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize, stats

from tests.science.oracles import BOHLIN, MITES, SCHNUTE
from trayturn.science import removal, sampling
from trayturn.science.errors import OutOfRange

LEAVES = [number for number, leaves in enumerate(MITES) for _ in range(leaves)]


def test_two_passes_as_seber_has_them() -> None:
    """Seber, Estimation of Animal Abundance, 2nd ed. 2002, example 7.4."""
    found = removal.two_pass([79, 28])
    assert (found.n, found.se, found.p) == pytest.approx((122.3725, 8.7970, 0.64557), rel=1e-4)


def test_carle_and_strubs_example() -> None:
    """Carle & Strub, Biometrics 1978: N 91, its error 9.7 (9.687) and p 0.444."""
    found = removal.carle_strub([38, 26, 12])
    assert (found.n, found.se, found.p) == pytest.approx((91, 9.687, 0.4444), rel=1e-3)


@pytest.mark.parametrize(("catches", "n", "interval", "p"), SCHNUTE)
def test_schnutes_sixteen_samples(
    catches: tuple[int, ...], n: float, interval: tuple[float, float], p: float
) -> None:
    found = removal.maximum_likelihood(catches)
    assert found.n == pytest.approx(n, abs=0.06)
    assert (found.low, found.high) == pytest.approx(interval, abs=0.11)
    assert found.p == pytest.approx(p, abs=0.006)


@pytest.mark.parametrize(("share", "passes"), BOHLIN)
def test_bohlins_planning_table(share: float, passes: int) -> None:
    found = [100 * removal.planned_cv(share, passes, n) for n in (50, 100, 200, 400)]
    for ours, printed in zip(found, BOHLIN[share, passes], strict=True):
        assert ours == pytest.approx(printed, abs=0.55 if printed >= 2 else 0.26 if printed == 1 else 0.06)


@pytest.mark.parametrize("catches", [(28, 79), (30, 30)])
def test_picks_that_do_not_fall_give_no_number(catches: tuple[int, int]) -> None:
    with pytest.raises(removal.NoEstimate, match="fewer than the first"):
        removal.two_pass(catches)
    with pytest.raises(removal.NoEstimate, match="do not fall"):
        removal.maximum_likelihood((1, 5, 40))


@pytest.mark.parametrize("wrong", [(), (5,), (-1, 2), (1.5, 1), (10**7, 1)])
def test_odd_picks_are_refused(wrong: tuple[int, ...]) -> None:
    for method in (removal.two_pass, removal.maximum_likelihood, removal.carle_strub):
        with pytest.raises(OutOfRange):
            method(wrong)


def test_no_worms_is_no_number() -> None:
    with pytest.raises(removal.NoEstimate, match="No worms"):
        removal.carle_strub([0, 0, 0])


def test_warnings_say_that_counts_run_low_and_when_they_are_doubtful() -> None:
    assert "run low" in removal.two_pass([79, 28]).warnings[0]
    assert len(removal.two_pass([79, 28]).warnings) == 2
    assert len(removal.maximum_likelihood([300, 100, 30]).warnings) == 1


@given(st.integers(100, 500), st.floats(0.5, 0.9), st.integers(2, 4))
def test_picking_an_even_share_finds_the_number_again(n: int, p: float, k: int) -> None:
    left, catches = float(n), []
    for _ in range(k):
        catches.append(round(left * p))
        left -= catches[-1]
    if left < 0 or catches[-1] == 0 or catches[0] <= catches[1]:
        return
    for found in (removal.maximum_likelihood(catches), removal.carle_strub(catches)):
        assert sum(catches) <= found.low <= found.n + 1e-6
        assert found.n <= found.high + 1e-6
        assert 0 < found.p <= 1
    # Rounding to whole worms moves the share picked, the more so the fewer are left.
    assert removal.carle_strub(catches).n == pytest.approx(n, rel=0.1, abs=6)


def test_mites_on_leaves_as_bliss_and_fisher_have_them() -> None:
    """Bliss & Fisher, Biometrics 1953: mean 1.146667, k by moments 1.16670 and by likelihood 1.024592."""
    assert sum(LEAVES) / len(LEAVES) == pytest.approx(1.146667, rel=5e-4)
    assert sampling.moment_k(LEAVES) == pytest.approx(1.16670, rel=5e-4)
    assert sampling.likeliest_k(LEAVES) == pytest.approx(1.024592, rel=5e-4)


@given(st.lists(st.integers(0, 40), min_size=3, max_size=20))
def test_the_likeliest_k_is_scipys(counts: list[int]) -> None:
    k = sampling.likeliest_k(counts)
    mean = sum(counts) / len(counts)
    if k is None or not 0.05 < k < 100:
        return

    def minus(log_k: float) -> float:
        there = math.exp(log_k)
        return -float(stats.nbinom.logpmf(counts, there, there / (there + mean)).sum())

    best = optimize.minimize_scalar(minus, bounds=(math.log(1e-3), math.log(1e4)), method="bounded")
    assert minus(math.log(k)) == pytest.approx(best.fun, abs=1e-3)


@pytest.mark.parametrize("degrees", [1, 2, 3, 5, 10, 30, 200, 5000, 20_000])
def test_students_t_is_scipys(degrees: int) -> None:
    assert sampling.student_t(degrees) == pytest.approx(stats.t.ppf(0.975, degrees), rel=2e-4)


def test_samples_for_a_wanted_precision() -> None:
    """n = t^2/D^2 (1/m + 1/k), computed: the mites with D 0.2 and t 1.96 want 177.5, and t is 1.973."""
    assert sampling.samples_needed(1.146667, 1.024592, 0.2) in range(178, 183)


def test_worms_from_three_samples() -> None:
    found = sampling.from_samples([12, 9, 20], 0.25, 8)
    mean, k = 41 / 3, sampling.moment_k([12, 9, 20])
    assert k is not None
    half = float(stats.t.ppf(0.975, 2)) * math.sqrt((mean + mean**2 / k) / 3)
    assert found.n == pytest.approx(mean * 32)
    assert found.high == pytest.approx((mean + half) * 32, rel=1e-3)
    assert found.low == max(41, (mean - half) * 32)
    assert found.relative_half_width == pytest.approx(half / mean, rel=1e-3)
    more = found.more_samples_to_halve
    t = float(stats.t.ppf(0.975, 2 + more))
    assert t * math.sqrt((1 / mean + 1 / k) / (3 + more)) <= half / mean / 2 + 1e-3


def test_counts_that_do_not_cluster_say_so() -> None:
    found = sampling.from_samples([10, 10, 11, 9, 10, 10], 0.25, 8)
    assert found.k is None
    assert sampling.POISSON in found.warnings
    assert sampling.FEW_SAMPLES not in found.warnings


@pytest.mark.parametrize(
    ("counts", "sample", "total"),
    [
        ([5], 0.2, 8),
        ([1, -2], 0.2, 8),
        ([0, 0], 0.2, 8),
        ([4, 5], 0.2, 0.3),
        ([4, 5], math.nan, 8),
        ([4, 5], 0.2, -1),
    ],
)
def test_odd_samples_are_refused(counts: list[int], sample: float, total: float) -> None:
    with pytest.raises(OutOfRange):
        sampling.from_samples(counts, sample, total)
