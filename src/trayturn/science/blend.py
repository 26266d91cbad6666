"""Mixes of scraps, bedding and water: moisture, carbon to nitrogen, salt and volume, by plain mass balance.

Source: T. Richard & N. Trautmann, Cornell Composting, 1996 (moisture content; C/N ratio). Fractions are
from 0
to 1: moisture of fresh mass, carbon and nitrogen of dry solids, salt of fresh mass.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from trayturn.science.errors import OutOfRange, within

MOST_KG = 100_000.0


@dataclass(frozen=True, slots=True)
class Stuff:
    """What something is made of. None stands for what is not known."""

    name: str
    moisture: float | None
    n: float | None = None
    c: float | None = None
    salt: float | None = None
    density_kg_m3: float | None = None

    def __post_init__(self) -> None:
        for value, what in (
            (self.moisture, "moisture"),
            (self.n, "nitrogen"),
            (self.c, "carbon"),
            (self.salt, "salt"),
        ):
            if value is not None:
                within(value, f"The {what} of {self.name}", 0, 1)
        if self.density_kg_m3 is not None:
            within(self.density_kg_m3, f"The density of {self.name}", 1, 5000, "kg/m3")
        if (self.n or 0) + (self.c or 0) > 1:
            raise OutOfRange(f"{self.name} cannot hold more carbon and nitrogen than it has solids.")


WATER = Stuff("water", 1.0, 0.0, 0.0, 0.0, 1000.0)


@dataclass(frozen=True, slots=True)
class Part:
    """So much of something, kg fresh."""

    stuff: Stuff
    kg: float

    def __post_init__(self) -> None:
        within(self.kg, f"The mass of {self.stuff.name}", 0, MOST_KG, "kg")

    @property
    def dry_kg(self) -> float:
        """Solids, kg. Raises `OutOfRange` where the moisture is not known."""
        if self.stuff.moisture is None:
            raise OutOfRange(f"The moisture of {self.stuff.name} is not known; give it, such as moisture=85.")
        return self.kg * (1 - self.stuff.moisture)


@dataclass(frozen=True, slots=True)
class Blend:
    """A mix of parts. A figure is None where a part that counts toward it is not known; `unknown`
    names those."""

    parts: tuple[Part, ...]

    @property
    def wet_kg(self) -> float:
        return math.fsum(part.kg for part in self.parts)

    @property
    def dry_kg(self) -> float:
        return math.fsum(part.dry_kg for part in self.parts)

    @property
    def moisture(self) -> float:
        """Water as a share of the fresh mass. Raises `OutOfRange` for an empty mix."""
        if self.wet_kg <= 0:
            raise OutOfRange("A mix needs something in it.")
        return 1 - self.dry_kg / self.wet_kg

    @property
    def c_kg(self) -> float | None:
        return _sum((part.dry_kg, part.stuff.c) for part in self.parts)

    @property
    def n_kg(self) -> float | None:
        return _sum((part.dry_kg, part.stuff.n) for part in self.parts)

    @property
    def c_to_n(self) -> float | None:
        """Carbon to nitrogen by mass; None where either is not known or there is no nitrogen."""
        carbon, nitrogen = self.c_kg, self.n_kg
        return carbon / nitrogen if carbon is not None and nitrogen else None

    @property
    def salt(self) -> float | None:
        """Salt (as NaCl) as a share of the fresh mass, at least: what is not known counts as none."""
        known = math.fsum(part.kg * (part.stuff.salt or 0.0) for part in self.parts)
        return known / self.wet_kg if self.wet_kg > 0 else None

    @property
    def volume_m3(self) -> float | None:
        """The loose volume of the parts side by side; mixing and wetting settle it by an unknown share."""
        if any(part.kg > 0 and part.stuff.density_kg_m3 is None for part in self.parts):
            return None
        return math.fsum(part.kg / (part.stuff.density_kg_m3 or 1.0) for part in self.parts)

    def unknown(self, field: str) -> tuple[str, ...]:
        """The names of the parts whose `field` of `Stuff` is not known."""
        return tuple(
            part.stuff.name for part in self.parts if part.kg > 0 and getattr(part.stuff, field) is None
        )

    def plus(self, *parts: Part) -> Blend:
        """The mix with more in it."""
        return Blend((*self.parts, *parts))


def _sum(terms: Iterable[tuple[float, float | None]]) -> float | None:
    """The sum of amount times share; a share that is not known only matters where there is an amount
    of it."""
    known = [(amount, share) for amount, share in terms if amount > 0]
    if any(share is None for _, share in known):
        return None
    return math.fsum(amount * (share or 0.0) for amount, share in known)


def layer_depth_m(blend: Blend, area_m2: float) -> float | None:
    """How deep the mix lies when spread over an area, metres; None where its volume is not known."""
    within(area_m2, "The area", 1e-4, 1000, "m2")
    return None if blend.volume_m3 is None else blend.volume_m3 / area_m2
