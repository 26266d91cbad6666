"""Plain words for times and lists, and text made safe to draw."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta
from itertools import islice

from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass

LINE_BREAKS = frozenset("\n\r\t\v\f\x1c\x1d\x1e\x85\u2028\u2029")


def clean(text: str, limit: int = 20_000) -> str:
    """Text that a terminal can draw: one line, no control characters, nothing unseen that turns it around.

    Those that turn the line or have no width are all in the Unicode categories C. The keeper's file keeps
    what was typed; this is only for showing it.
    """
    spaced = (" " if ch in LINE_BREAKS else ch for ch in text)
    line = "".join(islice((ch for ch in spaced if unicodedata.category(ch)[0] != "C"), limit + 1))
    return line if len(line) <= limit else line[: limit - 1] + "…"


def span(time: timedelta) -> str:
    """A length of time as it is said: `40 s`, `3 min 30 s`, `2 h 5 min`, `3 days`."""
    seconds = round(abs(time.total_seconds()))
    minutes, s = divmod(seconds, 60)
    if seconds < 60:
        return f"{s} s"
    if minutes < 10 and s:
        return f"{minutes} min {s} s"
    if minutes < 60:
        return f"{minutes} min"
    hours, m = divmod(minutes, 60)
    if hours < 24:
        return f"{hours} h {m} min" if m else f"{hours} h"
    return count(round(hours / 24), "day")


def countdown(time: timedelta) -> str:
    """What is left as a clock would show it: `14:05`, or `1:02:00` from an hour up. Never below zero."""
    seconds = max(0, -int(-time.total_seconds() // 1))
    minutes, s = divmod(seconds, 60)
    hours, m = divmod(minutes, 60)
    return f"{hours}:{m:02d}:{s:02d}" if hours else f"{m:02d}:{s:02d}"


def count(number: int, noun: str, plural: str = "") -> str:
    """`1 day`, `2 days`."""
    return f"{number} {noun if number == 1 else plural or noun + 's'}"


def as_read(moment: datetime, now: datetime) -> datetime:
    """The moment as the keeper's clock reads it.

    An offset at most an hour from the present one is the same place out of summer time or in it, and stays.
    One further off was written elsewhere, or by a script, and is brought to where the keeper stands.
    """
    apart = (moment.utcoffset() or timedelta()) - (now.utcoffset() or timedelta())
    return moment if abs(apart) <= timedelta(hours=1) else moment.astimezone(now.tzinfo)


def day(moment: datetime, now: datetime) -> str:
    """The day as it is said from now: `today`, `tomorrow`, `Tue 3 Mar`, or with the year when far off."""
    local = as_read(moment, now)
    days = (local.date() - now.date()).days
    near = {-1: "yesterday", 0: "today", 1: "tomorrow"}
    if days in near:
        return near[days]
    text = f"{local:%a} {local.day} {local:%b}"
    return text if abs(days) < 180 else f"{text} {local.year}"


def clock(moment: datetime, now: datetime) -> str:
    """The clock time, with the day where it is not today: `10:52`, `tomorrow 00:10`."""
    local = as_read(moment, now)
    return f"{local:%H:%M}" if local.date() == now.date() else f"{day(moment, now)} {local:%H:%M}"


def due(moment: datetime, now: datetime) -> str:
    """When something is due, in days: `today`, `in 3 days`, `2 days ago`."""
    days = (as_read(moment, now).date() - now.date()).days
    if days in (-1, 0, 1):
        return day(moment, now)
    return f"in {days} days" if days > 0 else f"{-days} days ago"


def listed(parts: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    *head, last = list(parts) or [""]
    return f"{', '.join(head)} and {last}" if head else last


def masses(contents: Mapping[str, float], units: Units, most: int = 3) -> str:
    """The heaviest contents with their masses: `cabbage 500 g, apple 250 g and 2 more`."""
    ranked = sorted(contents.items(), key=lambda pair: -pair[1])
    shown = [f"{clean(name, 40)} {show_mass(kg, units)}" for name, kg in ranked[:most]]
    return ", ".join(shown) + (f" and {len(ranked) - most} more" if len(ranked) > most else "")
