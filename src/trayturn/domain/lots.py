"""What came out of a bin, as it stands: lots of castings with their jars, and pieces that go round again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from itertools import count
from typing import TYPE_CHECKING

from trayturn.domain.entries import (
    CastingsGiven,
    CastingsUsed,
    Contaminant,
    HatchlingsRecovered,
    LotStage,
    LureSet,
    Sieved,
)

if TYPE_CHECKING:
    from trayturn.domain.stack import Stack

LONGEST_CODE = 12
LEAST_KG = 0.001
"""Less than a gram is nothing."""
SCALES = 1.05
"""Parts weighed together may come to so many times the whole: kitchen scales, and what clings. Our choice."""


def heavier(parts_kg: float, whole_kg: float) -> bool:
    """Whether parts weigh more than the whole they came of, beyond what scales explain. Masses in kg."""
    return parts_kg > SCALES * whole_kg + LEAST_KG


@dataclass(frozen=True, slots=True)
class Over:
    """Pieces of one kind in a tray. `turns` counts how often they were carried on; `size_cm` as last seen.

    `tray` is where they lie. Once that tray was separated and they were not carried on, they are gone, since
    `gone_at`.
    """

    what: str
    count: int
    size_cm: float | None
    tray: str
    first_at: datetime
    last_at: datetime
    turns: int = 1
    gone_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Found:
    """What did not belong in the bin: how many, and what it came in with, if that could be told.

    `stopped_before` is when its source was last said to be stopped, where it was and this came all the same.
    """

    at: datetime
    what: Contaminant
    count: int
    source: str
    tray: str | None
    stopped_before: datetime | None = None


@dataclass(frozen=True, slots=True)
class Jar:
    """Jars or bags of one label. Masses in kg; `left_kg` is what was neither used nor given."""

    label: str
    packed_at: datetime
    kg: float
    count: int
    left_kg: float
    use_by: datetime | None = None


@dataclass(frozen=True, slots=True)
class Lot:
    """Castings of one separation. `kg` is what is left of it outside jars; None where nobody weighed it.

    `begun_kg` is what it weighed wet, `moisture_pct` as last read at `moisture_at`; `moisture_kg` is what it
    weighed then, None once anything but water has left it; `weighed_at` is its last weighing after it was
    begun. `worms_kg` and `temperature_c` are the bin's when it was begun; `closed_at` is set once nothing is
    left.
    """

    code: str
    tray: str | None
    begun_at: datetime
    stage: LotStage
    stage_since: datetime
    begun_kg: float | None = None
    kg: float | None = None
    place: str = ""
    moisture_pct: float | None = None
    moisture_at: datetime | None = None
    moisture_kg: float | None = None
    weighed_at: datetime | None = None
    worms_kg: float | None = None
    temperature_c: float | None = None
    lures: tuple[LureSet, ...] = ()
    hatchlings: tuple[HatchlingsRecovered, ...] = ()
    sieved: tuple[Sieved, ...] = ()
    jars: Mapping[str, Jar] = field(default_factory=dict)
    used: tuple[CastingsUsed, ...] = ()
    given: tuple[CastingsGiven, ...] = ()
    closed_at: datetime | None = None

    @property
    def left_kg(self) -> float | None:
        """What is left of it in all, kg; None where what is outside jars was never weighed."""
        return None if self.kg is None else self.kg + sum(jar.left_kg for jar in self.jars.values())


def next_label(stack: Stack) -> str:
    """A label that no jar of this bin has: `jar 1`, `jar 2`."""
    taken = {label.casefold() for lot in stack.lots for label in lot.jars}
    return next(label for n in count(1) if (label := f"jar {n}") not in taken)


def next_code(stack: Stack, tray: str) -> str:
    """The code for the next lot out of that tray: `C1`, `C2`; `12-1` where its name ends in a digit.

    It is free in this bin, and no longer than a code may be.
    """
    taken = {lot.code.casefold() for lot in stack.lots}
    for number in range(1, len(taken) + 2):
        end = f"-{number}" if tray[-1:].isdigit() else str(number)
        code = tray[: LONGEST_CODE - len(end)] + end
        if code.casefold() not in taken:
            break
    return code
