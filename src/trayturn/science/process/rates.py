"""The model's uncertain rates, and draws of them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Rates:
    """Draws of the rates, each an array with one value a draw."""

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


def draw_rates(n: int, seed: int = 1, first: int = 0) -> Rates:
    """Draws number `first` to `first + n`: each depends on the seed and its own number alone."""
    raise NotImplementedError
