"""Days as the model counts them: whole ones from the first entry, as the keeper's clock has them.

What happens on a day keeps its order, and all of it falls on that day's step. So an outlook is the same at
whatever hour of a day it is made.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from trayturn.domain.words import as_read

WITHIN = 0.4
"""How much of a day its hours take up: less than half, so that a day is rounded to itself."""


@dataclass(frozen=True, slots=True)
class Calendar:
    """Day 0 is `first`; `now` says where the keeper stands and which day is today."""

    first: date
    now: datetime

    @property
    def today(self) -> int:
        """The number of the present day."""
        return (self.now.date() - self.first).days

    def day(self, at: datetime) -> float:
        """The number of a moment's day, and a little more for its hour.

        What came before now is no later than today, though a clock set back may have read otherwise.
        """
        local = as_read(at, self.now)
        hours = timedelta(hours=local.hour, minutes=local.minute, seconds=local.second)
        day = max(0, (local.date() - self.first).days) + WITHIN * (hours / timedelta(days=1))
        return min(day, self.today + WITHIN) if at <= self.now else max(day, float(self.today))

    def noon(self, day: float) -> datetime:
        """The middle of a day."""
        return datetime.combine(self.first + timedelta(days=round(day)), time(12), self.now.tzinfo)


def calendar_of(moments: Iterable[datetime], now: datetime) -> Calendar:
    """Days counted from the earliest of those moments, or from today where there are none."""
    return Calendar(min((as_read(at, now).date() for at in moments), default=now.date()), now)
