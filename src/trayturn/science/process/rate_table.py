"""The model's uncertain rates: medians, spreads, and what each rests on.

No rate of a tray stack is published as such. Plain data: whoever tells of them needs no numpy.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Basis = Literal["published", "derived", "engineering choice", "common practice"]


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
