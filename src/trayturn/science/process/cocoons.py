"""Cocoons: how many of those laid in a tray have hatched by a moment.

They hatch with time counted at 20 C: the middle of two published corrections that disagree (`temperature`)
turns a day into days at 20 C, and the middle of the published incubations of Eisenia fetida (`hatching`),
with its spread, says what share has hatched.
"""

from __future__ import annotations

import math
from collections import deque
from functools import lru_cache
from statistics import NormalDist

import numpy as np

from trayturn.science.hatching import KNOWN, SPREAD
from trayturn.science.process.rates import Array
from trayturn.science.temperature import correction_band

HALF_D = sum(KNOWN["eisenia_fetida"].days) / 2
HATCHES = NormalDist(HALF_D, HALF_D * SPREAD)
ALL_D = HALF_D * (1 + 5 * SPREAD)
"""By then all have hatched that will."""


@lru_cache(maxsize=256)
def days_at_20(celsius: float) -> float:
    """How many days at 20 C a day at this temperature is worth to a cocoon."""
    slow, quick = correction_band(celsius, 20.0)
    return math.sqrt(slow * quick)


class Nursery:
    """What was laid of late, tray by tray, so that it can be told how much of it is still in the cocoon."""

    def __init__(self) -> None:
        self._age = 0.0
        self._laid: deque[tuple[float, dict[str, Array]]] = deque()
        self._since: dict[str, float] = {}

    def day(self, laid: dict[str, Array], days: float) -> None:
        """So many cocoons laid in each tray, in a step worth so many days at 20 C."""
        self._laid.append((self._age + days / 2, laid))
        self._age += days
        while self._laid and self._age - self._laid[0][0] > ALL_D:
            self._laid.popleft()

    def unhatched(self, tray: str, draws: int) -> Array:
        """Cocoons in the tray that will still hatch."""
        still = np.zeros(draws)
        for born, laid in self._laid:
            if tray in laid and born >= self._since.get(tray, 0.0):
                still += laid[tray] * (1 - HATCHES.cdf(self._age - born))
        return still

    def emptied(self, tray: str) -> None:
        self._since[tray] = self._age
