"""Draws of the model's uncertain rates, each log-normal about its median."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trayturn.science.errors import within
from trayturn.science.process.rate_table import RATES

Array = NDArray[np.float64]
MOST_SHARE = 0.95
"""No draw turns more of the solids than this into castings: some always leaves as gas."""


@dataclass(frozen=True, slots=True)
class Rates:
    """Draws of the rates in the order of `RATES`, each an array with one value a draw."""

    quick_per_d: Array
    slow_per_d: Array
    resistant_per_d: Array
    castings_share: Array
    holds: Array
    evaporates: Array
    growth_per_d: Array
    need: Array
    laid: Array

    @property
    def n(self) -> int:
        """How many draws."""
        return len(self.need)

    def all(self) -> tuple[Array, ...]:
        """The arrays in the order of `RATES`."""
        return tuple(getattr(self, rate.name) for rate in RATES)

    def logs(self) -> Array:
        """Their logarithms, (rates, draws)."""
        return np.log(np.stack(self.all()))


def rates_of(logs: Iterable[Array]) -> Rates:
    """The rates of such logarithms."""
    values = {rate.name: np.exp(row) for rate, row in zip(RATES, logs, strict=True)}
    values["castings_share"] = np.minimum(values["castings_share"], MOST_SHARE)
    return Rates(**values)


def medians() -> Rates:
    """One draw: the medians."""
    return rates_of(np.log([[rate.median] for rate in RATES]))


def draw_rates(n: int, seed: int = 1, first: int = 0) -> Rates:
    """Draws number `first` to `first + n`: each depends on the seed and its own number alone.

    Raises `OutOfRange` below one draw.
    """
    within(n, "The number of draws", 1, 1e6)
    normal = normal_by_draw(first + n, len(RATES), seed)[first:].T
    return rates_of(
        np.log(rate.median) + np.log(rate.spread) * z for rate, z in zip(RATES, normal, strict=True)
    )


def normal_by_draw(n: int, each: int, seed: int) -> Array:
    """A row of normal numbers for each draw, by Box and Muller: each takes the same two uniforms always."""
    uniform = np.random.Generator(np.random.Philox(seed)).random((n, 2, (each + 1) // 2))
    radius, angle = np.sqrt(-2 * np.log1p(-uniform[:, 0])), 2 * np.pi * uniform[:, 1]
    both: Array = np.concatenate([radius * np.cos(angle), radius * np.sin(angle)], axis=1)
    return both[:, :each].copy()
