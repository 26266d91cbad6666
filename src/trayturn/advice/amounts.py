"""Numbers of worms, and worms to an area, as a keeper would say them."""

from __future__ import annotations

from trayturn.domain.setup import Units
from trayturn.domain.units import SQUARE_FOOT_M2, show_mass, two_figures


def number_band(number: tuple[float, float]) -> str:
    """A band of counts, its ends to two figures: `470 to 1,000`."""
    few, many = (f"{two_figures(one):,.0f}" for one in number)
    return f"about {few}" if few == many else f"{few} to {many}"


def density(kg_m2: float, units: Units) -> str:
    """So much on so much ground: `1.6 kg a square metre`, `5.24 oz a square foot`."""
    if units is Units.US:
        return f"{show_mass(kg_m2 * SQUARE_FOOT_M2, units)} a square foot"
    return f"{show_mass(kg_m2, units)} a square metre"
