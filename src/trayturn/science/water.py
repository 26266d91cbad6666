"""The water that a feeding brings, and the dry bedding that takes it up."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.science.errors import OutOfRange, within

METABOLIC = 0.598
"""kg of water per kg of solids oxidised, by the stoichiometry of C16H27O8N."""
SOLIDS_LOST = 0.50
"""The share of solids that leaves as gas: 50 +- 10 % (Pondicherry University)."""


@dataclass(frozen=True, slots=True)
class Holding:
    """What a dry bedding soaks up before it drips, kg of water per kg, as a band; and who measured it."""

    low: float
    high: float
    source: str


_NEWSPRINT = "Iowa State R2153 (2); Ward et al. 2000 (over 4)"
HOLDS = {
    "newspaper": Holding(2.0, 4.0, _NEWSPRINT),
    "cardboard": Holding(2.0, 4.0, f"no figure found; assumed like newspaper: {_NEWSPRINT}"),
    "wheat straw": Holding(2.0, 3.6, "Ward et al. 2000; Deherain in Whisenand 1918; Spiehs 2013"),
    "barley straw": Holding(2.85, 2.85, "Deherain in Whisenand 1918"),
    "oat straw": Holding(2.28, 3.0, "Deherain in Whisenand 1918; Iowa State R2153"),
    "leaves": Holding(1.62, 1.62, "Deherain in Whisenand 1918: oak leaves, part decomposed"),
    "peat": Holding(5.0, 7.0, "Deherain in Whisenand 1918"),
    "coir": Holding(7.5, 11.0, "Evans, Konduru & Stamps 1996"),
    "sawdust": Holding(1.0, 4.35, "Iowa State R2153 (ground lumber); Deherain in Whisenand 1918 (poplar)"),
}
"""By material. Measurements differ with the size of the pieces and the time to drain, and are a ceiling."""
SOAKED = 3.0
"""The working value for shreds, 75 % moisture (Solomon 1993: three times their weight)."""


def surplus(
    fresh_kg: float, moisture: float, kept_moisture: float = 0.70, lost: float = SOLIDS_LOST
) -> float:
    """The water of a feeding that its castings will not hold, kg; it has to evaporate, drain or be taken up.

    Scraps of `fresh_kg` at `moisture` become castings at `kept_moisture` after a share `lost` of their solids
    is gone; the oxidised solids add `METABOLIC` water. Below nothing, the castings need water. Fractions are
    0 to 1. Raises `OutOfRange`.
    """
    within(fresh_kg, "The mass", 0, 1e5, "kg")
    within(moisture, "The moisture", 0, 1)
    within(kept_moisture, "The moisture of the castings", 0, 0.95)
    within(lost, "The share lost", 0, 1)
    solids = fresh_kg * (1 - moisture)
    kept = solids * (1 - lost)
    return fresh_kg * moisture + solids * lost * METABOLIC - kept * kept_moisture / (1 - kept_moisture)


def bedding_for(water_kg: float, holds: float = SOAKED) -> float:
    """The dry bedding that takes up so much water, kg; none for no surplus."""
    within(holds, "What the bedding holds", 0.1, 20, "kg/kg")
    return max(0.0, within(water_kg, "The water", -1e5, 1e5, "kg")) / holds


def days_dry(
    bedding_kg: float, drip_kg_per_day: float, holds: tuple[float, float]
) -> tuple[float, float] | None:
    """How many days a dry bottom tray takes up what drips into it, as a band; None where nothing drips.

    That a dry layer keeps the sump dry until it is full is common practice, no source; no trial was found.
    """
    within(bedding_kg, "The bedding", 0, 1e4, "kg")
    within(drip_kg_per_day, "What drips", 0, 1e3, "kg a day")
    low, high = holds
    if not 0 < low <= high:
        raise OutOfRange("What bedding holds is a band above nothing.")
    return (
        None
        if drip_kg_per_day == 0
        else (bedding_kg * low / drip_kg_per_day, bedding_kg * high / drip_kg_per_day)
    )
