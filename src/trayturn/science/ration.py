"""What a mass of worms can take in a day."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.science.errors import within
from trayturn.science.temperature import COLDEST, WARMEST, speed_band

NORM = (0.2, 0.5)
"""kg of scraps per kg of worms a day, household norm: 0.21 to 0.5 in extension sheets (New York City,
Louisiana and NC State county sheets)."""
OPTIMUM = 0.75
"""For the best castings (Ndegwa, Thompson & Das 2000, Bioresource Technology 71:5-12)."""
CEILING = 1.25
"""For the most worm growth (the same)."""
STOCKING_KG_M2 = 1.60
"""The best stocking density (the same)."""
AREA_KG_M2_WEEK = 4.88
"""1 lb of waste a week per square foot (NC State AG-473-18)."""
REFERENCE_C = 20.0
HOT = 25.0
"""The upper end of the range that NC State, Illinois and Transylvania County sheets call good, C (77 F)."""


@dataclass(frozen=True, slots=True)
class Ration:
    """What worms can take, kg a day: the household norm as a band, the managed optimum and the ceiling."""

    norm: tuple[float, float]
    optimum: float
    ceiling: float
    why: str


def ration(worms_kg: float, celsius: float) -> Ration:
    """The ration of a mass of worms at a temperature; nothing outside 4 to 30 C. Raises `OutOfRange`.

    No table of intake against temperature is published. It is scaled from 20 C by the two corrections of
    `temperature`, never above what it is at 20: the norm by both, for its two ends, the others by their
    middle.
    """
    within(worms_kg, "The mass of worms", 0, 1000, "kg")
    within(celsius, "The temperature", -40, 80, "C")
    if not COLDEST <= celsius <= WARMEST:
        words = (
            f"At {round(celsius, 1):g} C do not feed: "
            f"worms live at {COLDEST:g} to {WARMEST:g} C (Edwards 1988)."
        )
        return Ration((0.0, 0.0), 0.0, 0.0, words)
    slow, quick = (min(1.0, speed) for speed in speed_band(celsius, REFERENCE_C))
    middle = (slow + quick) / 2
    why = (
        "Household norm 0.2 to 0.5 kg per kg of worms a day (extension sheets); 0.75 gave the best castings "
        f"and 1.25 the most worms (Ndegwa et al. 2000). {_warmth_words(celsius, slow, quick)}"
    )
    low, high = NORM[0] * slow * worms_kg, NORM[1] * quick * worms_kg
    return Ration((low, high), OPTIMUM * middle * worms_kg, CEILING * middle * worms_kg, why)


def _warmth_words(celsius: float, slow: float, quick: float) -> str:
    at = f"At {round(celsius, 1):g} C"
    if celsius > HOT:
        return f"{at} reckoned as at 20 C. Feed thin: scraps heat, and worms stall above 29 C (Sreenivasan)."
    if celsius >= REFERENCE_C:
        return f"{at} reckoned as at 20 C, to stay on the safe side."
    share = f"{slow:.0%} to {quick:.0%}"
    return f"{at} reckoned as {share} of that at 20 C: two published corrections that disagree."


def area_rule(area_m2: float) -> float:
    """What a feeding area takes by the area rule, kg a week."""
    return AREA_KG_M2_WEEK * within(area_m2, "The area", 1e-4, 1000, "m2")


def stocking(worms_kg: float, area_m2: float) -> tuple[float, float]:
    """The stocking density, kg/m2, and what it is against the published best."""
    density = within(worms_kg, "The mass of worms", 0, 1000, "kg") / within(
        area_m2, "The area", 1e-4, 1000, "m2"
    )
    return density, density / STOCKING_KG_M2
