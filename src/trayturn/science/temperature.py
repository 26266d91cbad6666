"""How warmth speeds worms and rot.

Two published corrections for Eisenia fetida disagree strongly: speeding up by 1.4 from 15 to 25 C (Johnston
et al. 2014, Ecological Modelling 280:5-17) or by 2.5 (the species' energy-budget parameter set, Augustine,
Spurgeon, Rasnaca & Gergs). A rate is therefore given as the band between them. All raise `OutOfRange` for
what is no temperature of a bin, below -40 or above 80 C.
"""

from __future__ import annotations

import math

from trayturn.science.errors import within

KELVIN = 273.15
BOLTZMANN_EV = 8.62e-5
JOHNSTON_EV, JOHNSTON_REF = 0.25, 298.15
BUDGET_K, BUDGET_REF = 8000.0, 293.15
COLDEST, WARMEST = 4.0, 30.0
"""The limits of temperature for Eisenia fetida, C (Earthworm Ecology 2004, table 18.3, after Edwards
1988)."""
FROZEN, COOKED = 0.0, 35.0
"""Where life in the bin comes to a stop, C. Neither correction has an end of its own: 35 C is the upper limit
on an agriculture portal and in a course after Edwards 1995, 0 C the freezing of the bin's water."""


def johnston(celsius: float) -> float:
    """exp(-E/k (1/T - 1/298.15)), E 0.25 eV: 1 at 25 C."""
    kelvin = within(celsius, "The temperature", -40, 80, "C") + KELVIN
    return math.exp(-JOHNSTON_EV / BOLTZMANN_EV * (1 / kelvin - 1 / JOHNSTON_REF))


def energy_budget(celsius: float) -> float:
    """exp(8000/293.15 - 8000/T): 1 at 20 C."""
    kelvin = within(celsius, "The temperature", -40, 80, "C") + KELVIN
    return math.exp(BUDGET_K / BUDGET_REF - BUDGET_K / kelvin)


def speed_band(celsius: float, reference: float) -> tuple[float, float]:
    """How fast things go against `reference`, by both corrections, the lower first."""
    both = [rule(celsius) / rule(reference) for rule in (johnston, energy_budget)]
    return min(both), max(both)


def correction_band(celsius: float, reference: float) -> tuple[float, float]:
    """The same for what lives: nothing at 0 C and below, nor at 35 C and above."""
    low, high = speed_band(celsius, reference)
    return (low, high) if FROZEN < celsius < COOKED else (0.0, 0.0)


def activity(celsius: float, coldest: float = 0.0, best: float = 25.0, warmest: float = 35.0) -> float:
    """A cardinal-temperature curve from 0 at the ends to 1 at the best.

    The form is Rosso et al. 1993's, written from memory; the three temperatures are an engineering choice.
    """
    within(celsius, "The temperature", -40, 80, "C")
    if not coldest < celsius < warmest:
        return 0.0
    top = (celsius - warmest) * (celsius - coldest) ** 2
    inner = (best - coldest) * (celsius - best) - (best - warmest) * (best + coldest - 2 * celsius)
    return top / ((best - coldest) * inner)


def activity_against(celsius: float, reference: float = 20.0) -> float:
    """The activity of a worm against that at a reference: 1 at 20 C, 1.15 at best. From memory, as above.

    Raises `OutOfRange` where there is none at the reference.
    """
    within(reference, "The temperature to compare with", FROZEN + 1, COOKED - 1, "C")
    return activity(celsius) / activity(reference)
