"""How fast worms multiply: the Euler-Lotka equation, and a cohort's arithmetic.

A worm lays from age `alpha` after hatching for the rest of its life, and each day brings `b` hatchlings,
after an incubation of `inc` days; `s` of them live to lay, and adults die at rate `mu` a day:
1 = b s exp(-r inc) exp(-(r + mu) alpha) / (r + mu).
"""

from __future__ import annotations

import math

from trayturn.science.errors import OutOfRange, within


def growth_rate(b: float, alpha_d: float, inc_d: float, s: float = 1.0, mu: float = 0.0) -> float:
    """r per day from a life table, by bisection; below nothing where worms die faster than they breed.

    Raises `OutOfRange`.
    """
    within(b, "Hatchlings a day", 0, 100)
    within(alpha_d, "The age at first laying", 1, 1000, "days")
    within(inc_d, "The incubation", 0, 1000, "days")
    within(s, "The share that lives", 0, 1)
    within(mu, "The death rate", 0, 1, "a day")
    if b * s == 0:
        raise OutOfRange("Without hatchlings that live there is no growth to reckon.")

    def excess(r: float) -> float:
        return math.log(b * s) - r * inc_d - (r + mu) * alpha_d - math.log(r + mu)

    low, high = -mu + 1e-12, 10.0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if excess(middle) > 0 else (low, middle)
    return (low + high) / 2


def doubling_days(r_per_day: float) -> float | None:
    """Days in which numbers double; None where they do not grow."""
    return math.log(2) / r_per_day if within(r_per_day, "The growth rate", -10, 10) > 0 else None


def cohort(
    adults: float, per_day: float, inc_d: float, viable: float, each: float, days: float
) -> tuple[float, float]:
    """Cocoons not yet hatched, and juveniles, after some days of laying by so many adults.

    Raises `OutOfRange`.
    """
    for value, name in ((adults, "The adults"), (per_day, "Cocoons a day"), (each, "Hatchlings a cocoon")):
        within(value, name, 0, 1e6)
    within(viable, "The share that hatches", 0, 1)
    laid = adults * per_day * within(days, "The days", 0, 1e5)
    hatched_from = adults * per_day * max(0.0, days - within(inc_d, "The incubation", 0, 1000))
    return laid - hatched_from, hatched_from * viable * each
