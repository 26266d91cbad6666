"""How a worm grows: the published law for Eisenia fetida, solved in closed form.

Source: Johnston et al. 2014, Ecological Modelling 280:5-17: dM/dt = r A(T) (Mm^(1/3) M^(2/3) - M). It stays
below 0.5 g; worms fed afresh every 20 days reached 0.69 g at 25 C (Reinecke & Viljoen 1990).
"""

from __future__ import annotations

import math

from trayturn.science.errors import within
from trayturn.science.temperature import COOKED, FROZEN, johnston

RATE_PER_DAY = 0.177
BIRTH_G, MATURE_G, MOST_G = 0.011, 0.25, 0.5


def mass_g(age_days: float, celsius: float, start_g: float = BIRTH_G) -> float:
    """The mass of a worm of that age, grams, at a fixed temperature with food enough. Raises `OutOfRange`.

    With m the cube root, dm/dt = r A / 3 (mm - m), so that m nears mm exponentially.
    """
    within(age_days, "The age", 0, 1e5, "days")
    within(start_g, "The mass at first", 1e-4, MOST_G, "g")
    if not FROZEN < within(celsius, "The temperature", -40, 80, "C") < COOKED:
        return start_g
    top: float = MOST_G ** (1 / 3)
    short: float = (top - start_g ** (1 / 3)) * math.exp(-RATE_PER_DAY * johnston(celsius) * age_days / 3)
    return float((top - short) ** 3)


def days_to_mature(celsius: float, mature_g: float = MATURE_G) -> float | None:
    """Days from hatching to maturity; None outside 0 to 35 C, where worms do not grow.

    Raises `OutOfRange`.
    """
    within(mature_g, "The mass at maturity", BIRTH_G, MOST_G * 0.999, "g")
    if not FROZEN < within(celsius, "The temperature", -40, 80, "C") < COOKED:
        return None
    top, start = MOST_G ** (1 / 3), BIRTH_G ** (1 / 3)
    return 3 / (RATE_PER_DAY * johnston(celsius)) * math.log((top - start) / (top - mature_g ** (1 / 3)))
