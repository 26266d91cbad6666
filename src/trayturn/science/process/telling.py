"""Which measurement would tell most, bands, and the rule of thumb to compare with."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from trayturn.science.process.events import Drive, Measured
from trayturn.science.process.rates import Array, Rates

BAND = (10.0, 25.0, 50.0, 75.0, 90.0)


@dataclass(frozen=True, slots=True)
class Telling:
    """A measurement that could be made, and by what share it would narrow the band of the next harvest."""

    what: Measured
    narrows: float


def percentiles(values: Array, of: Sequence[float] = BAND) -> Array:
    """Percentiles over the draws (the last axis), put first: (percentiles, ...)."""
    raise NotImplementedError


def most_telling(
    drive: Drive, rates: Rates, candidates: Sequence[Measured], tray: str | None = None
) -> tuple[Telling, ...]:
    """The candidates (their `value` does not count), the one that narrows the next harvest most first.

    The drive runs on to the harvest; `tray` names whose, or it is the first after the last candidate.
    """
    raise NotImplementedError


def thumb_kg(solids_in_kg: float) -> float:
    """The harvest by a rule of thumb: half of the solids that went in, at 70 % moisture."""
    raise NotImplementedError
