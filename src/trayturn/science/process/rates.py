"""The model's uncertain rates, and draws of them.

Each is log-normal about its median. No rate of a tray stack is published as such: what each rests on stands
beside it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from trayturn.science.errors import within

Array = NDArray[np.float64]
Basis = Literal["published", "derived", "engineering choice", "common practice"]
MOST_SHARE = 0.95
"""No draw turns more of the solids than this into castings: some always leaves as gas."""


@dataclass(frozen=True, slots=True)
class Rate:
    """One rate: its median and its spread, by which one standard deviation multiplies or divides it."""

    name: str
    median: float
    spread: float
    unit: str
    basis: Basis
    why: str


RATES = (
    Rate(
        *("quick_per_d", 0.10, 1.4, "per day", "common practice"),
        "a banana peel goes in about three weeks; whole food waste loses 0.010 to 0.033 a day (derived)",
    ),
    Rate(*("slow_per_d", 0.010, 1.5, "per day", "engineering choice"), "inside the derived 0.005 to 0.02"),
    Rate(
        *("resistant_per_d", 0.003, 1.5, "per day", "derived"),
        "cobs, seeds and skins are still there after 6 to 8 months (Solomon 1993, after Appelhof)",
    ),
    Rate(
        *("castings_share", 0.50, 1.2, "kg/kg of solids broken down", "published"),
        "50 +- 10 % of the solids leave as gas (Pondicherry University)",
    ),
    Rate(
        *("holds", 3.0, 1.25, "kg of water per kg of solids", "derived"),
        "soaked bedding holds 2 to over 4; three times its weight is the working value (Solomon 1993)",
    ),
    Rate(
        *("evaporates", 0.35, 1.5, "kg per m2 and day", "engineering choice"),
        "well under the 4.4 of an open water face",
    ),
    Rate(
        *("growth_per_d", 0.0115, 1.4, "per day", "derived"),
        "0.01147 by the life table of a crowded home bin, twice as many in 60 days",
    ),
    Rate(
        *("need", 0.020, 1.6, "kg of solids per kg of worms and day", "engineering choice"),
        "at common feeding it keeps 1 to 2 kg of worms, near the 5,000 to 6,000 of common practice",
    ),
    Rate(
        *("laid", 340.0, 1.7, "cocoons per kg of worms and day", "derived"),
        "the middle of 200 (0.1 a day by a worm of 0.5 g, as in a crowded home bin) and 590 (0.386 by one of "
        "0.57 g at 25 C: Reinecke & Viljoen 1990)",
    ),
)
"""At 20 C, damp, with plenty of worms."""


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
