"""The bin as the model knows it today: its rates pulled toward what was measured, and how it stands.

The model is imported when it is run; importing this costs nothing.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trayturn.advice.outlook.history import ONE_STEP, History
from trayturn.advice.outlook.measured import Reading

if TYPE_CHECKING:
    from trayturn.science.process.bin_state import BinState
    from trayturn.science.process.fitting import Fitted
    from trayturn.science.process.outcome import Run
    from trayturn.science.process.rates import Array, Rates

WATCHED = ("tray_kg", "moisture", "castings_kg", "water_kg", "worms_kg", "sump_l")
PAST_DAYS = 180
"""How much of the past is kept day by day, for drawing. Our choice."""
FIT_RUNS = 6
"""Runs of the past that a fit takes, and one more to stand today."""

Stop = Callable[[], bool] | None


@dataclass(frozen=True, slots=True)
class Known:
    """The fit, the last stretch of the past day by day, and the bin as it stands today.

    `sump_off` is what the sump was last read to hold above what the model has in it, litres, draw by draw;
    `sump_read` the day of that reading, None where it was never read.
    """

    fitted: Fitted
    recent: Run
    end: BinState
    sump_off: Array | float
    sump_read: int | None

    @property
    def rates(self) -> Rates:
        """The draws."""
        return self.fitted.rates


def know(
    history: History,
    readings: tuple[Reading, ...],
    seed: int,
    draws: int,
    progress: Callable[[int], None],
    stop: Stop,
) -> Known:
    """Fit the model to the readings and run it up to today. `progress` is told the runs done."""
    from trayturn.science.process.fitting import fit
    from trayturn.science.process.rates import draw_rates

    fitted = fit(
        history.drive,
        [one.what for one in readings],
        draw_rates(draws, seed),
        seed,
        progress=lambda done, of: progress(done),
        stop=stop,
    )
    recent = _recent(history, fitted.rates, stop)
    progress(FIT_RUNS)
    off, day = _sump_off(fitted, readings)
    return Known(fitted, recent, recent.end, off, day)


def _recent(history: History, rates: Rates, stop: Stop) -> Run:
    """The past in two runs: only the second is kept day by day, since long journals hold years."""
    from dataclasses import replace

    from trayturn.science.process.running import run

    drive, first = history.drive, max(history.start, history.calendar.today - PAST_DAYS)
    begin = None
    if first > history.start:
        until = first + 0.5 - ONE_STEP
        early = replace(drive, end=until, events=tuple(e for e in drive.events if e.day <= until))
        begin = run(early, rates, (), stop=stop).end
        late = tuple(e for e in drive.events if e.day > until)
        drive = replace(drive, start=float(first), events=late)
    return run(drive, rates, WATCHED, stop=stop, begin=begin)


def _sump_off(fitted: Fitted, readings: tuple[Reading, ...]) -> tuple[Array | float, int | None]:
    for place in reversed(range(len(readings))):
        what = readings[place].what
        if what.kind == "sump_l":
            return what.value - fitted.read[place], round(what.day)
    return 0.0, None
