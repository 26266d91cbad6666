"""How advice speaks of days and ages."""

from __future__ import annotations

from datetime import datetime

from trayturn.domain.stack import days_between
from trayturn.domain.units import three_figures
from trayturn.domain.words import as_read, count, day, due


def when(moment: datetime, now: datetime) -> str:
    """A day with its distance from now: `today`, `yesterday`, `on Tue 3 Mar, 12 days ago`."""
    near = day(moment, now)
    return near if near == due(moment, now) else f"on {near}, {due(moment, now)}"


def since(moment: datetime, now: datetime) -> str:
    """A start with the whole days passed: `since today`, `since Tue 3 Mar (12 days)`."""
    days = int(days_between(moment, now))
    return f"since {day(moment, now)}" + (f" ({count(days, 'day')})" if days > 1 else "")


def days_since(moment: datetime, now: datetime) -> int:
    """How many days ago that was by the calendar, as `when` and `due` count them."""
    return max(0, (as_read(now, now).date() - as_read(moment, now).date()).days)


def aged(days: float) -> str:
    """An age in whole days: `less than a day`, `1 day`, `12 days`."""
    return "less than a day" if days < 1 else count(int(days), "day")


def every(days: float) -> str:
    """An interval of the setup: `every day`, `every 12 days`, `every 1.5 days`."""
    return "every day" if days == 1 else f"every {three_figures(days)} days"


SHARES = {0.25: "a quarter of", 0.5: "half", 0.75: "three quarters of", 2.0: "twice"}


def times_words(times: float) -> str:
    """How many times as much, before what it is: `half`, `twice`, `1.5 times`."""
    return SHARES.get(times) or f"{times:g} times"


def day_has_come(moment: datetime, now: datetime) -> bool:
    """Whether the day of that moment has begun, as the keeper's clock reads it."""
    return as_read(moment, now).date() <= now.date()
