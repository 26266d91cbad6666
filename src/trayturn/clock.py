"""Where `now` comes from. Everything below the two faces takes the time as an argument."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path

Clock = Callable[[], datetime]
CLOCK_FILE = "TRAYTURN_CLOCK"
YEARS = range(1901, 2199)
"""Years that a journal can be kept in, whatever the zone."""


def system_clock() -> datetime:
    """The machine's wall clock, in the local zone, to the second."""
    return datetime.now().astimezone().replace(microsecond=0)


@dataclass(frozen=True)
class FastClock:
    """A clock that starts at a chosen moment and runs `rate` times as fast as the wall clock."""

    start: datetime
    rate: float = 1.0
    began: float = field(default_factory=time.time)

    def __call__(self) -> datetime:
        passed = (time.time() - self.began) * self.rate
        return (self.start + timedelta(seconds=passed)).replace(microsecond=0)


@dataclass
class FileClock:
    """A clock that shows what stands in a file: for tests and demonstrations that move the time by hand.

    A time without an offset counts as local. A file that was just being written keeps the time it showed
    last. Raises `OSError` or `ValueError` when none could be read yet.
    """

    path: Path
    last: datetime | None = None

    def __call__(self) -> datetime:
        try:
            self.last = self._read()
        except (OSError, ValueError):
            if self.last is None:
                raise
        return self.last

    def _read(self) -> datetime:
        shown = datetime.fromisoformat(self.path.read_text(encoding="utf-8").strip())
        if shown.year not in YEARS:
            raise ValueError(f"{shown.year} is not a year from {YEARS[0]} to {YEARS[-1]}")
        return shown if shown.tzinfo else shown.astimezone()


def chosen_clock() -> Clock:
    """The wall clock, or the clock file that the environment names."""
    path = os.environ.get(CLOCK_FILE)
    return FileClock(Path(path)) if path else system_clock
