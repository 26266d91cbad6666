"""What drives a run of the process model, and what was measured: plain data, days counted from the run's
start.

Masses are kg of solids and of water apart. Quick solids are soft food, slow ones bedding and fibre,
resistant ones what outlasts several turns. Trays go by any name.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

from trayturn.science.errors import within

Kind = Literal["harvest_kg", "tray_kg", "worms_kg", "moisture", "food_left", "sump_l"]
LOGARITHMIC: frozenset[Kind] = frozenset({"harvest_kg", "tray_kg", "worms_kg"})
"""Kinds whose error is a share of the value."""


class Stopped(Exception):
    """A long run that was asked to stop."""


@dataclass(frozen=True, slots=True)
class Build:
    """The trays' floor in square metres, and what the sump holds in litres before it runs over."""

    area_m2: float = 0.16
    sump_l: float = 5.0


@dataclass(frozen=True, slots=True)
class TrayOn:
    """A tray comes onto the stack, with what it held. `level` counts from 1 at the bottom."""

    day: float
    tray: str
    level: int = 1


@dataclass(frozen=True, slots=True)
class Put:
    """Something comes into a tray, kg: solids by class, and all the water that comes with it.

    Raises `OutOfRange` for a mass below nothing; so do the others.
    """

    day: float
    tray: str
    quick_kg: float = 0.0
    slow_kg: float = 0.0
    resistant_kg: float = 0.0
    water_kg: float = 0.0
    castings_kg: float = 0.0

    def __post_init__(self) -> None:
        for kg in (self.quick_kg, self.slow_kg, self.resistant_kg, self.water_kg, self.castings_kg):
            within(kg, "What comes in", 0, 1e4, "kg")


@dataclass(frozen=True, slots=True)
class Turn:
    """The stack's new order, bottom first. A tray left out is off the stack and stands still, worms and all.

    A tray named that was not on the stack comes onto it with what it held.
    """

    day: float
    order: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Separate:
    """A tray's castings leave with their water and cocoons.

    What is not castings stays in the tray, or goes to the tray `overs_to`; of the worms in the tray the
    share `worms_back` stays in the bin.
    """

    day: float
    tray: str
    worms_back: float = 0.9
    overs_to: str | None = None

    def __post_init__(self) -> None:
        within(self.worms_back, "The share of the worms", 0, 1)


@dataclass(frozen=True, slots=True)
class Emptied:
    """All that a tray holds leaves, worms and all; it is no harvest."""

    day: float
    tray: str


@dataclass(frozen=True, slots=True)
class WormsPut:
    """Worms come into the bin, kg."""

    day: float
    kg: float

    def __post_init__(self) -> None:
        within(self.kg, "The worms", 0, 1e4, "kg")


@dataclass(frozen=True, slots=True)
class WormsTaken:
    """Worms leave the bin, kg; all of them where there are fewer."""

    day: float
    kg: float

    def __post_init__(self) -> None:
        within(self.kg, "The worms", 0, 1e4, "kg")


@dataclass(frozen=True, slots=True)
class SumpEmptied:
    """The sump is poured out."""

    day: float


Event = TrayOn | Put | Turn | Separate | Emptied | WormsPut | WormsTaken | SumpEmptied


@dataclass(frozen=True, slots=True)
class Drive:
    """A bin's past, a plan, or both: from `start` to `end`, in days.

    Events may come in any order; those at one moment happen as they are listed. `celsius` holds one
    temperature of the bedding for each day from day 0, the last one going on; or one for all days.
    """

    build: Build
    end: float
    events: tuple[Event, ...] = ()
    celsius: float | tuple[float, ...] = 20.0
    start: float = 0.0

    def then(self, events: tuple[Event, ...], end: float) -> Drive:
        """The same with a plan behind it."""
        return replace(self, events=self.events + events, end=end)


@dataclass(frozen=True, slots=True)
class Measured:
    """Something the keeper measured.

    `harvest_kg` is the castings of the separation of that tray nearest in time; `tray_kg` what a tray holds;
    `moisture` its fraction of water; `food_left` the share of quick solids that is left of what lay there
    just after the last feeding; `worms_kg` and `sump_l` are of the whole bin. `sd` is a share of the value
    for those in `LOGARITHMIC`, in the value's own unit for the others. A reading at the moment of an event
    comes before it. `key` is the caller's own, to know it again.
    """

    day: float
    kind: Kind
    value: float
    sd: float
    tray: str | None = None
    key: str = field(default="", compare=False)

    def __post_init__(self) -> None:
        within(self.value, "What was measured", -1e6, 1e6)
        within(self.sd, "The error of a measurement", 1e-9, 1e6)
