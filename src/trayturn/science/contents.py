"""What a tray holds after some time: what is still uneaten, and what the rest has become.

Each thing put in is followed by first-order decay (`breakdown`). Of the solids that are worked, a share
`SOLIDS_LOST` leaves as gas and takes its carbon along; nitrogen and salt stay. So a mix that is worked whole
keeps half its carbon to nitrogen ratio, as published: 36 to 21 in manure (Atiyeh et al. 2000), 55.8 to 17
and 20 in household waste (Int. J. Recycl. Org. Waste Agric. 2014). That no nitrogen is lost, and that the
carbon goes in step with the solids, are our simplifications.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from trayturn.science.blend import Part
from trayturn.science.breakdown import left, rate
from trayturn.science.errors import within
from trayturn.science.water import METABOLIC, SOLIDS_LOST


@dataclass(frozen=True, slots=True)
class PutIn:
    """One thing put into a tray: how much, how fast it breaks down, and how many days it has lain there."""

    part: Part
    breakdown: str
    days: float


@dataclass(frozen=True, slots=True)
class Leftover:
    """What became of it. Masses in kg; `uneaten` is fresh mass, low, middle and high.

    `water_in` is the water that came in with it and was made from it, none of it lost: an upper end. Carbon
    or nitrogen is None where that of a part is not known.
    """

    uneaten: tuple[float, float, float]
    solids: float
    carbon: float | None
    nitrogen: float | None
    salt: float
    water_in: float


def left_band(breakdown: str, days: float, celsius: float) -> tuple[float, float, float]:
    """The share of a soft part that is left: low, middle (the geometric mean of the rates) and high.

    Raises `OutOfRange` for an unknown class or an impossible time or temperature.
    """
    slow, quick = rate(breakdown, celsius)
    middle = math.sqrt(slow * quick)
    return left(days, quick), left(days, middle), left(days, slow)


def leftover(put_in: Iterable[PutIn], celsius: float, lost: float = SOLIDS_LOST) -> Leftover:
    """What is left of everything put into a tray. Raises `OutOfRange`."""
    within(lost, "The share lost", 0, 1)
    all_in = list(put_in)
    bands = [left_band(one.breakdown, one.days, celsius) for one in all_in]
    # The share of each thing's solids that is still there, eaten or not, and of its carbon likewise.
    kept = [middle + (1 - middle) * (1 - lost) for _, middle, _ in bands]
    dry = [one.part.dry_kg for one in all_in]
    low, middle, high = (
        math.fsum(one.part.kg * band[n] for one, band in zip(all_in, bands, strict=True)) for n in range(3)
    )
    solids = [kg * share for kg, share in zip(dry, kept, strict=True)]
    gone = math.fsum(dry) - math.fsum(solids)
    water = math.fsum(one.part.kg for one in all_in) - math.fsum(dry)
    return Leftover(
        (low, middle, high),
        math.fsum(solids),
        _sum(solids, [one.part.stuff.c for one in all_in]),
        _sum(dry, [one.part.stuff.n for one in all_in]),
        math.fsum(one.part.kg * (one.part.stuff.salt or 0.0) for one in all_in),
        water + gone * METABOLIC,
    )


def _sum(amounts: list[float], shares: list[float | None]) -> float | None:
    known = [(amount, share) for amount, share in zip(amounts, shares, strict=True) if amount > 0]
    if any(share is None for _, share in known):
        return None
    return math.fsum(amount * (share or 0.0) for amount, share in known)
