"""Bands, which measurement would tell most, and the rule of thumb to compare with."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from trayturn.science.errors import OutOfRange, within
from trayturn.science.process.events import Drive, Measured
from trayturn.science.process.fitting import LEAST, OWN_SPREAD, loosened, scaled
from trayturn.science.process.outcome import Harvest
from trayturn.science.process.rates import Array, Rates, normal_by_draw
from trayturn.science.process.running import run
from trayturn.science.water import SOLIDS_LOST

BAND = (10.0, 25.0, 50.0, 75.0, 90.0)
THUMB_MOISTURE = 0.70


@dataclass(frozen=True, slots=True)
class Telling:
    """A measurement that could be made, and by what share it would narrow the band of the next harvest."""

    what: Measured
    narrows: float


def percentiles(values: Array, of: Sequence[float] = BAND) -> Array:
    """Percentiles over the draws, the last axis, put first. Between two draws they go in a straight line."""
    ordered = np.sort(values, axis=-1)
    places = np.asarray(of) / 100 * (values.shape[-1] - 1)
    below = np.floor(places).astype(int)
    above = np.minimum(below + 1, values.shape[-1] - 1)
    low, high = ordered[..., below], ordered[..., above]
    return np.moveaxis(low + (high - low) * (places - below), -1, 0)


def as_weighed(kg: Array, seed: int = 1, own_spread: float = OWN_SPREAD) -> Array:
    """What the scale will show of one harvest, draw by draw: each harvest differs a little by itself."""
    return kg * np.exp(own_spread * normal_by_draw(len(kg), 1, seed)[:, 0])


def most_telling(
    drive: Drive,
    rates: Rates,
    candidates: Sequence[Measured],
    tray: str | None = None,
    own_spread: float = OWN_SPREAD,
) -> tuple[Telling, ...]:
    """The candidates (their `value` does not count), the one that narrows the next harvest most first.

    The drive runs on to that harvest: the first after the last candidate, of `tray` where it is named. Raises
    `OutOfRange` where there is none.
    """
    ran = run(drive, rates, (), candidates)
    kg = _next(ran.harvests, max(what.day for what in candidates), tray).kg
    harvest = np.log(np.maximum(kg, LEAST))
    told = [
        Telling(what, narrowing(harvest, scaled(what, row), loosened(what, own_spread).sd, own_spread))
        for what, row in zip(candidates, ran.read, strict=True)
    ]
    return tuple(sorted(told, key=lambda one: -one.narrows))


def narrowing(of: Array, read: Array, sd: float, own_spread: float = 0.0) -> float:
    """By what share a reading with error `sd` narrows the band of something: 1 - sqrt(left / before).

    Before, the variance is var(of) + own_spread^2, of which c^2 / (var(read) + sd^2) goes, c being their
    covariance over the draws. Exact where both are normal. Raises `OutOfRange` for no error at all.
    """
    within(sd, "The error", 1e-12, 1e6)
    (spread, together), (_, reads) = np.cov(of, read)
    before = spread + own_spread**2
    told = together**2 / (before * (reads + sd**2)) if before > 0 else 0.0
    return float(1 - np.sqrt(max(0.0, 1 - told)))


def thumb_kg(solids_in_kg: float) -> float:
    """The harvest by a rule of thumb: half of the solids that went into the tray, at 70 % moisture.

    That half is lost is published (50 +- 10 %, Pondicherry University); the moisture of fresh castings is
    from memory.
    """
    return within(solids_in_kg, "The solids", 0, 1e4, "kg") * (1 - SOLIDS_LOST) / (1 - THUMB_MOISTURE)


def _next(harvests: Sequence[Harvest], after: float, tray: str | None) -> Harvest:
    for harvest in sorted(harvests, key=lambda one: one.day):
        if harvest.day > after and tray in (None, harvest.tray):
            return harvest
    raise OutOfRange("There is no harvest after the last of these measurements.")
