"""What a run gives back."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.science.process.rates import Array


@dataclass(frozen=True, slots=True)
class Harvest:
    """Castings that left a tray: wet kg, their solids, moisture, cocoons, the share of those hatched by then.

    `age_d` is how long since the tray was started. All but the first three are arrays, one value a draw.
    """

    day: float
    tray: str
    age_d: float
    kg: Array
    solids_kg: Array
    moisture: Array
    cocoons: Array
    hatched: Array
    worms_lost_kg: Array


@dataclass(frozen=True, slots=True)
class Run:
    """`series` holds what was watched, by name, at the end of each day and at the start.

    `tray_kg`, `moisture`, `castings_kg`, `quick_kg`, `slow_kg`, `resistant_kg`, `water_kg` and
    `tray_worms_kg` have the shape (days, trays, draws), `worms_kg` and `sump_l` (days, draws). `read` holds
    what each measurement would have read, (measurements, draws).
    """

    days: Array
    trays: tuple[str, ...]
    series: dict[str, Array]
    harvests: tuple[Harvest, ...]
    read: Array
