"""The rates pulled toward what was measured."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from trayturn.science.process.events import Drive, Measured
from trayturn.science.process.rates import Array, Rates


@dataclass(frozen=True, slots=True)
class Fitted:
    """The rates after the fit, and what they say of each measurement.

    `read` is (measurements, draws) after the fit; `misfit` how many standard deviations each measured value
    lies from the median of what the fitted draws read (their own spread counted in); `left_out` the places
    in `measured` of those that no draw could have given.
    """

    rates: Rates
    measured: tuple[Measured, ...]
    read: Array
    misfit: tuple[float, ...]
    left_out: tuple[int, ...]


def fit(
    drive: Drive,
    measured: Sequence[Measured],
    rates: Rates,
    seed: int = 1,
    rounds: int = 4,
    progress: Callable[[int, int], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Fitted:
    """The rates given what was measured, which must lie within the drive. `progress(done, of)` is told."""
    raise NotImplementedError
