"""From arrays of draws to plain figures: percentiles, fans, and days on which something happens."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, Any

from trayturn.advice.outlook.calendar import Calendar
from trayturn.advice.outlook.result import Days, Fan, Five

if TYPE_CHECKING:
    from trayturn.science.process.outcome import Run
    from trayturn.science.process.rates import Array

TINY = 1e-12
"""Added to what is divided by, kg."""
NEVER = 1e6
"""Days: so far off that no percentile between it and a real day is within an outlook."""


def five(values: Array) -> Five:
    """The percentiles of one figure over its draws."""
    from trayturn.science.process.telling import percentiles

    return Five(*percentiles(values).tolist())


def fan(values: Array, first_day: int) -> Fan:
    """A fan of a series, (days, draws), whose first day is so many from today."""
    from trayturn.science.process.telling import percentiles

    bands = percentiles(values).tolist()
    days = tuple(float(first_day + place) for place in range(len(values)))
    return Fan(days, *(tuple(band) for band in bands))


def joined(past: Fan, coming: Fan) -> Fan:
    """Two fans as one; where both have a day the past has it."""
    skip = sum(1 for day in coming.days if past.days and day <= past.days[-1])
    return Fan(
        past.days + coming.days[skip:],
        past.p10 + coming.p10[skip:],
        past.p25 + coming.p25[skip:],
        past.p50 + coming.p50[skip:],
        past.p75 + coming.p75[skip:],
        past.p90 + coming.p90[skip:],
    )


def castings_wet(run: Run, tray: str) -> Array:
    """The castings in a tray with their water, kg: (days, draws)."""
    row = run.trays.index(tray)
    castings, water = run.series["castings_kg"][:, row], run.series["water_kg"][:, row]
    solids = run.series["tray_kg"][:, row] - water
    wet: Array = castings + water * (castings / (solids + TINY))
    return wet


def first_days(holds: Any) -> Array:
    """For each draw the first day on which something holds; `NEVER` where it does not.

    `holds` is true or false, (days, draws).
    """
    ever = holds.any(axis=0)
    days: Array = holds.argmax(axis=0) * ever + NEVER * ~ever
    return days


def days_band(first: Array, days: int, calendar: Calendar) -> Days | None:
    """Early, middle and late day; None where even the early one is not within so many days from today."""
    found = five(first)
    early, mid, late = (_on(day, days, calendar) for day in (found.p10, found.p50, found.p90))
    return None if early is None else Days(early, mid, late)


def _on(day: float, days: int, calendar: Calendar) -> datetime | None:
    return calendar.noon(calendar.today + day) if day < days else None
