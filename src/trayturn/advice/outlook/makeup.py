"""What a meal or a tray's bedding is to the model: solids by how fast they break down, and water."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from trayturn.advice.contents import SHREDS
from trayturn.advice.pantry import Pantry

QUICK, RESISTANT = ("fast", "medium"), "very slow"
"""Classes of the table of ingredients. What lies between is slow, as bedding is."""
INERT = "mineral"
"""Grit and shells never break down, and leave with the castings. Our simplification."""


@dataclass(frozen=True, slots=True)
class Makeup:
    """Solids by class and water, kg."""

    quick_kg: float = 0.0
    slow_kg: float = 0.0
    resistant_kg: float = 0.0
    inert_kg: float = 0.0
    water_kg: float = 0.0

    @property
    def solids_kg(self) -> float:
        """All solids that worms work."""
        return self.quick_kg + self.slow_kg + self.resistant_kg

    def __add__(self, other: Makeup) -> Makeup:
        return Makeup(
            self.quick_kg + other.quick_kg,
            self.slow_kg + other.slow_kg,
            self.resistant_kg + other.resistant_kg,
            self.inert_kg + other.inert_kg,
            self.water_kg + other.water_kg,
        )


def water(kg: float | None) -> Makeup:
    """Water by itself."""
    return Makeup(water_kg=kg or 0.0)


def grit(kg: float | None) -> Makeup:
    """Ground shell as it is strewn, dry."""
    return Makeup(inert_kg=kg or 0.0)


def scraps(items_kg: Mapping[str, float], pantry: Pantry) -> Makeup:
    """Scraps by name, kg fresh. What is not in the table counts as mixed kitchen scraps."""
    found = Makeup()
    for name, kg in items_kg.items():
        row, _ = pantry.scraps(name)
        found += _of(kg, row.moisture or 0.0, row.breakdown, row.group)
    return found


def bedding(items_kg: Mapping[str, float], pantry: Pantry) -> Makeup:
    """Bedding by name, kg as it is. What is not in the table counts as dry shreds."""
    found = Makeup()
    for name, kg in items_kg.items():
        row = pantry.meant(name)
        if row is None or row.moisture is None or not row.breakdown:
            found += _of(kg, SHREDS.moisture or 0.0, "slow", "")
        else:
            found += _of(kg, row.moisture, row.breakdown, row.group)
    return found


def _of(kg: float, moisture: float, breakdown: str, group: str) -> Makeup:
    dry, wet = kg * (1 - moisture), kg * moisture
    if group == INERT:
        return Makeup(inert_kg=dry, water_kg=wet)
    if breakdown in QUICK:
        return Makeup(quick_kg=dry, water_kg=wet)
    if breakdown == RESISTANT:
        return Makeup(resistant_kg=dry, water_kg=wet)
    return Makeup(slow_kg=dry, water_kg=wet)
