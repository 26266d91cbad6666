"""How much a new bin begins with: dry bedding, the water that soaks it, and worms."""

from __future__ import annotations

from trayturn.science.errors import within
from trayturn.science.ration import STOCKING_KG_M2
from trayturn.science.water import SOAKED

Band = tuple[float, float]

DRY_KG_M3 = (16.0, 24.0)
"""kg of dry bedding for a cubic metre of box: 1 to 1.5 lb per cubic foot (Solomon, Organic Gardener's
Composting, 1993)."""
DEEPEST_M = 0.20
"""A bed begins 15 to 20 cm deep (Sherman, Ways with Worm Farming, for windrows). Few trays are deeper."""
WINDROW_KG_M2 = 5.0
"""0.5 kg per 0.09 m2, about 5 kg/m2, in windrows (Sherman): three times the best of the densities that
Ndegwa, Thompson & Das 2000 tried."""


def filled_m(depth_m: float) -> float:
    """How deep a tray is filled at the start, metres: to its rim, or as deep as a bed begins."""
    return min(within(depth_m, "The depth", 0.001, 2, "m"), DEEPEST_M)


def bedding_to_start(area_m2: float, depth_m: float) -> Band:
    """The dry bedding of a first tray, kg. Raises `OutOfRange`."""
    volume = within(area_m2, "The area", 1e-4, 1000, "m2") * filled_m(depth_m)
    return DRY_KG_M3[0] * volume, DRY_KG_M3[1] * volume


def water_to_soak(bedding_kg: float) -> float:
    """The water that makes dry bedding about 75 % moist, kg: three times its weight (Solomon 1993)."""
    return SOAKED * within(bedding_kg, "The bedding", 0, 1e5, "kg")


def worms_to_start(area_m2: float) -> Band:
    """Worms for a feeding area, kg: by the best density tried, and as windrows are stocked, the upper end."""
    within(area_m2, "The area", 1e-4, 1000, "m2")
    return STOCKING_KG_M2 * area_m2, WINDROW_KG_M2 * area_m2
