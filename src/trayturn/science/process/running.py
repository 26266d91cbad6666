"""A run of the model for many draws of its rates at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from trayturn.science.process.events import Drive, Measured
from trayturn.science.process.outcome import Run
from trayturn.science.process.rates import Rates


def run(
    drive: Drive,
    rates: Rates,
    watch: Sequence[str] = ("tray_kg", "moisture", "worms_kg", "sump_l"),
    measured: Sequence[Measured] = (),
    steps_per_day: int = 1,
    stop: Callable[[], bool] | None = None,
) -> Run:
    """The bin from `drive.start` to `drive.end`. Raises `OutOfRange`, and `Stopped` when `stop` says so."""
    raise NotImplementedError
