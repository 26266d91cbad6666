"""How many worms there are, from counting a few weighed samples.

Worms lie in clusters, so that counts spread wider than chance alone would have them: their variance is
m + m^2/k, the negative binomial, m being the mean and k small where they cluster (Bliss & Fisher, Biometrics
1953). No k is published for home bins; it is taken from the samples themselves.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from trayturn.science.errors import OutOfRange, within

MOST = 10**6
FEW_SAMPLES = "Fewer than five samples say little of how worms cluster; the band may be too narrow."
POISSON = "The counts spread no wider than chance would have them; the band counts on worms not clustering."
BY_HAND = "Sorting by hand misses about one worm in five, the small and dark ones (Axelsson 1971)."


@dataclass(frozen=True, slots=True)
class Sampled:
    """A number of worms from samples, with its 95 % interval. `k` is None where no clustering shows.

    `relative_half_width` is half the interval as a share of the number.
    """

    n: float
    se: float
    low: float
    high: float
    mean: float
    k: float | None
    relative_half_width: float
    more_samples_to_halve: int
    warnings: tuple[str, ...]


def from_samples(counts: Sequence[int], sample_kg: float, total_kg: float) -> Sampled:
    """The worms in `total_kg` of material, from counts in samples of `sample_kg` each.

    Raises `OutOfRange` for fewer than two samples, odd counts, or more sampled than there is.
    """
    _check(counts, sample_kg, total_kg)
    number, mean = len(counts), sum(counts) / len(counts)
    if mean == 0:
        raise OutOfRange("No worm was found in any sample, so nothing can be said but that there are few.")
    k = moment_k(counts)
    se_mean = math.sqrt((mean + (mean**2 / k if k else 0.0)) / number)
    half = student_t(number - 1) * se_mean
    scale = total_kg / sample_kg
    width = half / mean
    return Sampled(
        n=mean * scale,
        se=se_mean * scale,
        low=max(float(sum(counts)), (mean - half) * scale),
        high=(mean + half) * scale,
        mean=mean,
        k=k,
        relative_half_width=width,
        more_samples_to_halve=samples_needed(mean, k, width / 2) - number,
        warnings=tuple(
            w for w, holds in ((FEW_SAMPLES, number < 5), (POISSON, k is None), (BY_HAND, True)) if holds
        ),
    )


def moment_k(counts: Sequence[int]) -> float | None:
    """k = m^2 / (s^2 - m), by moments; None where the variance s^2 is no greater than the mean m."""
    mean = sum(counts) / len(counts)
    variance = sum((c - mean) ** 2 for c in counts) / (len(counts) - 1)
    return mean**2 / (variance - mean) if variance > mean else None


def likeliest_k(counts: Sequence[int]) -> float | None:
    """The k that makes the counts likeliest; None where the variance is no greater than the mean.

    Solves sum over counts of (1/k + ... + 1/(k + c - 1)) = n ln(1 + m/k) by bisection (Bliss & Fisher 1953).
    """
    if moment_k(counts) is None:
        return None
    number, mean = len(counts), sum(counts) / len(counts)

    def score(k: float) -> float:
        drawn = sum(1 / (k + step) for c in counts for step in range(c))
        return drawn - number * math.log1p(mean / k)

    low, high = 1e-6, 1e6
    for _ in range(200):
        middle = math.sqrt(low * high)
        low, high = (middle, high) if score(middle) > 0 else (low, middle)
    return math.sqrt(low * high)


def samples_needed(mean: float, k: float | None, half_width: float) -> int:
    """Samples for a 95 % interval of so large a share of the mean on either side: n = t^2/D^2 (1/m + 1/k)."""
    within(half_width, "The precision", 1e-6, 1e6)
    spread = 1 / mean + (1 / k if k else 0.0)

    def enough(number: int) -> bool:
        return number >= (student_t(number - 1) / half_width) ** 2 * spread - 1e-9

    low, high = 1, 2
    while not enough(high):
        low, high = high, 2 * high
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if enough(middle) else (middle, high)
    return high


def student_t(degrees: int) -> float:
    """The two-sided 95 % point of Student's t, by integrating its density in theta = atan(t / sqrt(df))."""
    within(degrees, "The degrees of freedom", 1, 1e9)
    if degrees > 10_000:
        return 1.959964
    scale = math.exp(math.lgamma((degrees + 1) / 2) - math.lgamma(degrees / 2)) / math.sqrt(math.pi)

    def share(theta: float) -> float:
        steps = 400
        ends = 1 + math.cos(theta) ** (degrees - 1)
        inner = sum(
            (4 if n % 2 else 2) * math.cos(theta * n / steps) ** (degrees - 1) for n in range(1, steps)
        )
        return scale * theta / steps / 3 * (ends + inner)

    low, high = 0.0, math.pi / 2
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if share(middle) < 0.475 else (low, middle)
    return math.sqrt(degrees) * math.tan((low + high) / 2)


def _check(counts: Sequence[int], sample_kg: float, total_kg: float) -> None:
    if len(counts) < 2:
        raise OutOfRange("It takes two samples or more to tell how they differ.")
    if any(c < 0 or c != int(c) or c > MOST for c in counts):
        raise OutOfRange("Each count is a whole number of worms from 0 to a million.")
    within(sample_kg, "The mass of a sample", 1e-4, 1000, "kg")
    within(total_kg, "The whole mass", 1e-4, 100_000, "kg")
    if len(counts) * sample_kg > total_kg * (1 + 1e-9):
        raise OutOfRange(
            f"{len(counts)} samples of {sample_kg:g} kg are more than the {total_kg:g} kg there is."
        )
