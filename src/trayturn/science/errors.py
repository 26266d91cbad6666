"""Input that a calculation cannot take, said in one sentence."""

from __future__ import annotations

import math


class OutOfRange(ValueError):
    """A number outside what the calculation holds for.

    The message says which, what it is and what would do.
    """


def within(value: float, name: str, low: float, high: float, unit: str = "") -> float:
    """The value, when it is a finite number from `low` to `high`. Raises `OutOfRange`."""
    unit = f" {unit}" if unit else ""
    if not math.isfinite(value) or not low <= value <= high:
        raise OutOfRange(f"{name} needs to be from {low:g} to {high:g}{unit}, and {value:g} is not.")
    return value
