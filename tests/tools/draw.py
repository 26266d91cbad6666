"""Chance that falls the same way on every Python."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum
from random import Random
from typing import TypeVar

T = TypeVar("T")


class Draw:
    """Chance, from `random()` alone."""

    def __init__(self, seed: int) -> None:
        self._random = Random(seed)

    def between(self, low: float, high: float) -> float:
        return low + (high - low) * self._random.random()

    def whole(self, low: int, high: int) -> int:
        return int(self.between(low, high + 1))

    def chance(self, share: float) -> bool:
        return self._random.random() < share

    def some(self, items: Sequence[T], number: int) -> list[T]:
        left = list(items)
        return [left.pop(self.whole(0, len(left) - 1)) for _ in range(number)]

    def kilograms(self, low: float, high: float) -> float:
        """A mass as a kitchen scale shows it, to 10 g."""
        return round(self.between(low, high), 2)

    def split(self, total: float, parts: int) -> list[float]:
        """A mass in uneven parts of 10 g and up, which add up to it."""
        weights = [self.between(0.6, 1.4) for _ in range(parts)]
        first = [round(total * weight / fsum(weights), 2) for weight in weights[:-1]]
        return [*first, round(total - fsum(first), 2)]
