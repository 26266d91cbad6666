"""When something happened, as a keeper says it: nothing for now, a clock time, a day."""

from __future__ import annotations

import re
from datetime import date, datetime, time, timedelta

DAYS = {"today": 0, "yesterday": 1}
TIME = re.compile(r"([01]?\d|2[0-3])[:.]([0-5]\d)")
EXAMPLES = "10:30, yesterday 18:00 or 2026-03-01 10:00"
YEARS = range(1901, 2200)


def read_moment(text: str, now: datetime) -> datetime:
    """The moment in the zone of `now`; empty text is `now`, a day alone is its first moment.

    Raises `ValueError` for what cannot be read and for what is still to come.
    """
    if not text:
        return now
    moment = _said(text.casefold(), now) or _iso(text, now)
    if moment is None or moment.year not in YEARS:
        raise ValueError(f"{text[:40]!r} is not a time; type {EXAMPLES}, or nothing for now.")
    if moment > now:
        raise ValueError(f"{text[:40]!r} is still to come; type a time that has passed, or nothing for now.")
    return moment


def _said(text: str, now: datetime) -> datetime | None:
    """`10:30`, `yesterday`, `yesterday 18:00`."""
    word, _, rest = text.partition(" ")
    if word not in DAYS:
        word, rest = "today", text
    elif not rest.strip():
        return now - timedelta(days=DAYS[word])
    match = TIME.fullmatch(rest.strip())
    if match is None:
        return None
    day = now.date() - timedelta(days=DAYS[word])
    return _local(day, time(int(match[1]), int(match[2])), now)


def _iso(text: str, now: datetime) -> datetime | None:
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        return None
    return moment if moment.tzinfo or moment.year not in YEARS else _local(moment.date(), moment.time(), now)


def _local(day: date, clock: time, now: datetime) -> datetime:
    """A clock time as the keeper's wall clock showed it on that day, in summer time or out of it."""
    moment = datetime.combine(day, clock)
    at_home = now.astimezone().utcoffset() == now.utcoffset()
    return moment.astimezone() if at_home else moment.replace(tzinfo=now.tzinfo)
