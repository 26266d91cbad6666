"""How far a lot of castings has dried, by reading its moisture or by its weight since."""

from __future__ import annotations

from trayturn.domain.lots import Lot
from trayturn.domain.setup import Units
from trayturn.science.drying import mass_at, moisture_at
from trayturn.science.errors import OutOfRange

SIEVES_BELOW_PCT = 60.0
"""A 4 mm drum recovered 80 to 95 % at 40 to 60 % moisture, best at 40 (Manyuchi & Phiri 2013)."""

USUAL_MESH_MM = 6.4
"""Most castings pass a quarter of an inch, with cocoons and small worms (grower guidance)."""
TRIED_MESH_MM = 4.0
"""The drum of that trial."""


def mesh_words(units: Units) -> str:
    """Why that mesh is offered first, and what speaks for a finer one."""
    usual, tried = ("1/4 in", "0.16 in") if units is Units.US else ("6.4 mm", "4 mm")
    return (
        f"The sources differ on the mesh: growers use {usual}, which most castings pass (with cocoons and "
        f"small worms), a trial used {tried} (Manyuchi & Phiri 2013); {usual} stands here unless you choose."
    )


def moisture_now(lot: Lot) -> float | None:
    """Its moisture, percent: as last read, or by the weight it lost since. None where it was never read."""
    if lot.moisture_pct is None or lot.moisture_kg is None or lot.kg is None or lot.kg == lot.moisture_kg:
        return lot.moisture_pct
    try:
        return 100 * moisture_at(lot.moisture_kg, lot.moisture_pct / 100, lot.kg)
    except OutOfRange:
        # It weighs less than its solids did: the reading does not fit, and is left as it is.
        return lot.moisture_pct


def by_weight(lot: Lot) -> bool:
    """Whether that moisture was reckoned from a later weight."""
    return moisture_now(lot) != lot.moisture_pct


def sieves_at_kg(lot: Lot) -> float | None:
    """What the lot weighs once it is dry enough to sieve, kg; None where it was already, or nothing tells."""
    if lot.moisture_pct is None or lot.moisture_kg is None or lot.moisture_pct <= SIEVES_BELOW_PCT:
        return None
    return mass_at(lot.moisture_kg, lot.moisture_pct / 100, SIEVES_BELOW_PCT / 100)


def share_passed(passed_kg: float | None, oversize_kg: float | None) -> float | None:
    """Which part of what was sieved fell through, 0 to 1; None unless both parts were weighed."""
    if passed_kg is None or oversize_kg is None or passed_kg + oversize_kg <= 0:
        return None
    return passed_kg / (passed_kg + oversize_kg)
