"""What passes tell: the usual without any, and Bayes' rule as SciPy integrates it."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, stats

from trayturn.science import passes as p
from trayturn.science.errors import OutOfRange
from trayturn.science.passes import (
    Likely,
    passes_after,
    passes_left,
    rest_needed,
    share_by_sight,
    share_in,
    share_taken,
    usual_of,
)


def test_without_a_pass_it_says_what_common_practice_says() -> None:
    # Four or five passes: a trade figure. A rest of 15 minutes: common practice, no source.
    left = passes_left(1.0, share_taken([]))
    assert left.low <= 4 <= left.mid <= 5 <= left.high
    rest = rest_needed([])
    assert rest.mid == pytest.approx(15, rel=0.02)
    assert 6 < rest.low < 12 < 18 < rest.high < 35


def test_the_share_agrees_with_the_textbook_rule_for_a_normal_mean() -> None:
    # Posterior of a normal mean with known variances, here as SciPy integrates prior times likelihood.
    shares = [0.2, 0.35, 0.3]
    odds = [math.log(share / (1 - share)) for share in shares]
    prior = stats.norm(math.log(p.TAKES / (1 - p.TAKES)), p.TRAYS_DIFFER)

    def density(mean: float) -> float:
        return float(prior.pdf(mean) * math.prod(stats.norm(mean, p.PASSES_DIFFER).pdf(odd) for odd in odds))

    total = integrate.quad(density, -6, 4)[0]
    mean = integrate.quad(lambda m: m * density(m), -6, 4)[0] / total
    assert share_taken(shares).mid == pytest.approx(1 / (1 + math.exp(-mean)), rel=1e-4)


def test_the_rest_agrees_with_scipy() -> None:
    seen = [(15.0, "many"), (20.0, "few")]
    usual = math.log(15 / math.log(20))

    def density(log_tau: float) -> float:
        weight = float(stats.norm(usual, p.WORMS_DIFFER).pdf(log_tau))
        for rest, word in seen:
            eye = stats.norm(-rest / math.exp(log_tau), p.GLANCE)
            none, many = eye.cdf(math.log(p.NONE_BELOW)), eye.sf(math.log(p.MANY_ABOVE))
            weight *= float({"none": none, "few": 1 - none - many, "many": many}[word])
        return weight

    found = rest_needed(seen)
    total = integrate.quad(density, usual - 2, usual + 2, limit=200)[0]
    for value, share in ((found.low, 0.1), (found.mid, 0.5), (found.high, 0.9)):
        below = integrate.quad(density, usual - 2, math.log(value / math.log(20)), limit=200)[0] / total
        assert below == pytest.approx(share, abs=0.01)


def test_many_worms_ask_for_a_longer_rest_and_none_for_a_shorter() -> None:
    assert rest_needed([(15, "many")] * 2).low > 15
    assert rest_needed([(15, "none")] * 3).high < 15
    assert rest_needed([(15, "few")]).mid == pytest.approx(15, rel=0.2)


def test_earlier_trays_count_and_this_tray_counts_more() -> None:
    assert share_taken([], [0.5] * 6).mid > share_taken([]).mid
    assert share_taken([0.1] * 4, [0.5] * 6).mid < 0.25


@given(st.floats(0.26, 1), st.lists(st.floats(0.02, 0.9), max_size=6))
def test_the_passes_left_leave_little_and_one_fewer_would_not(left: float, shares: list[float]) -> None:
    takes = share_taken(shares)
    found = passes_left(left, takes)
    assert 1 <= found.low <= found.mid <= found.high
    assert left * (1 - takes.mid) ** found.mid <= p.LITTLE_LEFT + 1e-9
    assert left * (1 - takes.mid) ** (found.mid - 1) > p.LITTLE_LEFT - 1e-9


@given(st.lists(st.tuples(st.floats(1, 90), st.sampled_from(p.SEEN)), max_size=8))
def test_bands_are_in_order_and_narrow_with_what_is_seen(seen: list[tuple[float, str]]) -> None:
    found = rest_needed(seen)
    assert 0 < found.low <= found.mid <= found.high


def test_little_left_is_the_end_and_odd_input_is_refused() -> None:
    assert passes_left(0.2, share_taken([])) == Likely(0, 0, 0)
    with pytest.raises(OutOfRange):
        passes_left(1.2, share_taken([]))
    with pytest.raises(OutOfRange):
        rest_needed([(15, "some")])


def test_sight_alone_agrees_with_scipy() -> None:
    seen, prior = ["none", "few", "few"], share_taken([])
    mean = math.log(prior.mid / (1 - prior.mid))
    spread = (math.log(prior.high / (1 - prior.high)) - mean) / stats.norm.ppf(0.9)

    def density(odds: float) -> float:
        weight = float(stats.norm(mean, spread).pdf(odds))
        for n, word in enumerate(seen, 1):
            eye = stats.norm(n * math.log(1 - 1 / (1 + math.exp(-odds))), p.GLANCE)
            none, many = eye.sf(math.log(p.NONE_ABOVE)), eye.cdf(math.log(p.MANY_BELOW))
            weight *= float({"none": none, "few": 1 - none - many, "many": many}[word])
        return weight

    found = share_by_sight(seen, prior)
    total = integrate.quad(density, mean - 4, mean + 4, limit=200)[0]
    for value, share in ((found.low, 0.1), (found.mid, 0.5), (found.high, 0.9)):
        below = integrate.quad(density, mean - 4, math.log(value / (1 - value)), limit=200)[0] / total
        assert below == pytest.approx(share, abs=0.02)


def test_worms_early_tell_of_large_passes_and_none_for_long_of_small_ones() -> None:
    usual = share_taken([])
    assert share_by_sight([], usual).mid == pytest.approx(usual.mid, rel=0.01)
    assert share_by_sight(["many"], usual).mid > usual.mid
    assert share_by_sight(["none"] * 5, usual).mid < usual.mid


@given(st.lists(st.sampled_from(p.SEEN), max_size=12), st.lists(st.floats(0.02, 0.9), max_size=4))
def test_sight_alone_tells_less_than_weights(seen: list[str], before: list[float]) -> None:
    takes = share_by_sight(seen, share_taken([], before))
    assert 0 < takes.low <= takes.mid <= takes.high < 1
    left = passes_after(len(seen), takes)
    assert 0 <= left.low <= left.mid <= left.high


def test_a_tray_known_by_its_number_of_passes_or_their_weights() -> None:
    # Odds of 1 to 4 and of 1 to 1: their middle is 1 to 2. Two halvings leave a quarter.
    assert share_in(4.5) == pytest.approx(p.TAKES)
    assert share_in(2) == pytest.approx(0.5)
    assert usual_of([0.3, 0.3]) == pytest.approx(0.3)
    assert usual_of([0.2, 0.5]) == pytest.approx(1 / 3)
    with pytest.raises(OutOfRange):
        usual_of([])
    with pytest.raises(OutOfRange):
        share_in(0)
