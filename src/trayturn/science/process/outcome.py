"""What a run gives back."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.science.process.bin_state import BinState
from trayturn.science.process.rates import Array


@dataclass(frozen=True, slots=True)
class Harvest:
    """Castings that left a tray: wet kg, their solids, moisture, the cocoons still in them.

    `age_d` is how long since the tray was started, `hatched` the share of the cocoons laid in it that had
    hatched by then (1 where none were laid). All but the first three are arrays, one value a draw.
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
    """`series` holds what was watched, by name, at the start and after each step: see `watching`.

    `read` holds what each measurement would have read, (measurements, draws). `end` is the bin as it stood
    at the end, from which another run can go on.
    """

    days: Array
    trays: tuple[str, ...]
    series: dict[str, Array]
    harvests: tuple[Harvest, ...]
    read: Array
    end: BinState
