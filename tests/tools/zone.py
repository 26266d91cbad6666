"""The clock of the invented house: central European time, without a time zone database to depend on."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta, timezone

SUMMER_TIME = ((date(2025, 3, 30), date(2025, 10, 26)), (date(2026, 3, 29), date(2026, 10, 25)))


def at(day: date, hour: int, minute: int = 0, second: int = 0) -> datetime:
    """That clock time in the house, with its offset from UTC. Not for the nights the clocks change."""
    summer = any(start <= day < end for start, end in SUMMER_TIME)
    zone = timezone(timedelta(hours=2 if summer else 1))
    return datetime.combine(day, time(hour, minute, second), zone)
