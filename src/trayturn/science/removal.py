"""How many worms there are, from picking again and again: removal estimators.

`c[i]` worms are picked in pass i out of k, T in all, and each pass picks the same share p of what is left.
Sources: Seber, The Estimation of Animal Abundance, 2nd ed., 2002 (two passes: Seber & Le Cren 1967; k passes:
Moran and Zippin); Carle & Strub, Biometrics 1978. That each pass picks the same share seldom holds: the later
passes find the hidden ones, so that the number comes out low (Peterson, Thurow & Guzevich 2004).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import count as counting

from trayturn.science.errors import OutOfRange

NORMAL_95 = 1.959964
LIKELY_95 = 3.841459 / 2
"""Half the 95 % point of chi-squared with one degree: how far the log-likelihood may fall."""
RUNS_LOW = (
    "Counts from repeated picking run low: the worms left are harder to find. Set against marked fish, they "
    "overstated the share caught by 39 % (Peterson, Thurow & Guzevich 2004)."
)
FEW = (
    "With two picks the error is doubtful below about 200 worms (Seber 1973; Bohlin 1982). Pick a third time."
)
FEW_THREE = "With three picks or more the error is doubtful below about 50 worms (Seber 1973; Bohlin 1982)."


class NoEstimate(ValueError):
    """The catches do not fall in a way from which a number follows. The message says why."""


@dataclass(frozen=True, slots=True)
class Estimate:
    """A number of worms: its standard error, 95 % interval, the share p that each pass picks, and
    warnings."""

    n: float
    se: float
    low: float
    high: float
    p: float
    method: str
    warnings: tuple[str, ...]


def two_pass(catches: Sequence[int]) -> Estimate:
    """N = c1^2 / (c1 - c2), for two passes (Seber & Le Cren 1967). Raises `NoEstimate` and `OutOfRange`."""
    _check(catches, least=2)
    if len(catches) != 2:
        raise OutOfRange("The two-pass method takes two picks; use ml for more.")
    c1, c2 = catches
    if c2 >= c1:
        raise NoEstimate(
            "The second pick has to find fewer than the first. Pick again, and longer each time."
        )
    n = c1**2 / (c1 - c2)
    se = math.sqrt(c1**2 * c2**2 * (c1 + c2)) / (c1 - c2) ** 2
    return _estimate(n, se, 1 - c2 / c1, "two-pass", catches)


def maximum_likelihood(catches: Sequence[int]) -> Estimate:
    """The number that makes k picks likeliest (Moran, as in Schnute 1983), its interval by likelihood too.

    The share p is the one that then fits best, and the standard error Zippin's. Raises `NoEstimate` and
    `OutOfRange`.
    """
    _check(catches, least=2)
    k, total, x = _sums(catches)
    if x <= (total - 1) * (k - 1) / 2 - 1:
        raise NoEstimate("The picks do not fall fast enough for this method. Pick on, or use carle-strub.")
    n = _likeliest(catches)
    p = total / (k * n - x)
    low, high = _likely(catches, n)
    return Estimate(n, _standard_error(n, p, k), low, high, p, "ml", _warnings(n, k))


def carle_strub(catches: Sequence[int], alpha: float = 1, beta: float = 1) -> Estimate:
    """The smallest whole N that Carle & Strub's weighted likelihood allows; it nearly always gives one."""
    _check(catches, least=2)
    k, total, x = _sums(catches)
    for n in counting(total):
        product = (n + 1) / (n - total + 1)
        for i in range(1, k + 1):
            product *= (k * n - x - total + beta + k - i) / (k * n - x + alpha + beta + k - i)
        if product <= 1:
            break
        if n > 1000 * total:
            raise NoEstimate("The picks do not fall. Pick on until they do.")
    p = total / (k * n - x)
    return _estimate(n, _standard_error(n, p, k), p, "carle-strub", catches)


def planned_cv(p: float, k: int, n: float) -> float:
    """The coefficient of variation of a k-pass estimate to expect, as a fraction (Bohlin et al. 1989)."""
    if not (0 < p < 1 and k >= 2 and n > 0):
        raise OutOfRange("The share has to lie between 0 and 1, with two picks or more and some worms.")
    return _standard_error(n, p, k) / n


def _standard_error(n: float, p: float, k: int) -> float:
    """Zippin's: the variance is N (1 - q^k) q^k / ((1 - q^k)^2 - (p k)^2 q^(k-1))."""
    q = 1 - p
    spread = (1 - q**k) ** 2 - (p * k) ** 2 * q ** (k - 1)
    return math.sqrt(n * (1 - q**k) * q**k / spread) if spread > 1e-15 else 0.0


def _check(catches: Sequence[int], least: int) -> None:
    if len(catches) < least:
        raise OutOfRange(f"It takes {least} picks or more; {len(catches)} is too few.")
    if any(c < 0 or c != int(c) or c > 10**6 for c in catches):
        raise OutOfRange("Each pick is a whole number of worms from 0 to a million.")
    if sum(catches) == 0:
        raise NoEstimate("No worms were picked, so nothing can be said of how many there are.")


def _sums(catches: Sequence[int]) -> tuple[int, int, int]:
    """k, T and X = sum of (k - i) c_i."""
    k = len(catches)
    return k, sum(catches), sum((k - i) * c for i, c in enumerate(catches, 1))


def _likeliest(catches: Sequence[int]) -> float:
    """The number at the top of the likelihood, which has one top from T worms upward."""
    low = float(sum(catches))
    high = 2 * low + 2
    while _log_likelihood(catches, high) > _log_likelihood(catches, high * 0.99) and high < 1e9:
        high *= 2
    for _ in range(200):
        left, right = low + (high - low) / 3, high - (high - low) / 3
        if _log_likelihood(catches, left) < _log_likelihood(catches, right):
            low = left
        else:
            high = right
    return (low + high) / 2


def _log_likelihood(catches: Sequence[int], n: float) -> float:
    """The log-likelihood of N worms, at the share that then fits best; constants left out."""
    k, total, x = _sums(catches)
    tries = k * n - x
    p = min(1.0, total / tries) if tries > 0 else 1.0
    missed = tries - total
    fits = total * math.log(p) + (missed * math.log1p(-p) if missed > 1e-12 else 0.0)
    return math.lgamma(n + 1) - math.lgamma(n - total + 1) + fits


def _likely(catches: Sequence[int], n: float) -> tuple[float, float]:
    """Where the log-likelihood has fallen by `LIKELY_95`, on either side of the estimate."""
    total = sum(catches)
    best = _log_likelihood(catches, n)

    def falls(number: float) -> bool:
        return _log_likelihood(catches, number) < best - LIKELY_95

    low = _edge(float(total), n, falls) if falls(total) else float(total)
    far = max(n, total + 1.0)
    while not falls(far) and far < 1e9:
        far *= 2
    return low, _edge(far, n, falls)


def _edge(outside: float, inside: float, falls: Callable[[float], bool]) -> float:
    for _ in range(100):
        middle = (outside + inside) / 2
        outside, inside = (middle, inside) if falls(middle) else (outside, middle)
    return (outside + inside) / 2


def _estimate(n: float, se: float, p: float, method: str, catches: Sequence[int]) -> Estimate:
    low, high = max(float(sum(catches)), n - NORMAL_95 * se), n + NORMAL_95 * se
    return Estimate(float(n), se, low, high, p, method, _warnings(n, len(catches)))


def _warnings(n: float, k: int) -> tuple[str, ...]:
    doubtful = (FEW,) if k == 2 and n < 200 else (FEW_THREE,) if k > 2 and n < 50 else ()
    return (RUNS_LOW, *doubtful)
