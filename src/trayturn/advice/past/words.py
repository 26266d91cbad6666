"""The past in words: a week in a sentence, the sums as a table, and how dark a week is drawn."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from datetime import date, datetime, timedelta

from trayturn.advice.past.tally import Sums
from trayturn.advice.past.year import Gap, Past, Week, yields
from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass
from trayturn.domain.words import count, listed

LEVELS = 4
"""How many shades a week can have, besides none."""
ROWS: tuple[tuple[str, Callable[[Sums], float]], ...] = (
    ("feedings", lambda sums: sums.feedings),
    ("scraps", lambda sums: sums.scraps_kg),
    ("checks", lambda sums: sums.checks),
    ("turns", lambda sums: sums.turns),
    ("castings", lambda sums: sums.castings_kg),
)
"""What is drawn of each week, by the word before its row."""


def levels(values: Sequence[float]) -> list[int]:
    """How dark each week of a row is drawn, from 0 for none to 4 for the most of the row."""
    most = max(values, default=0.0)
    return [math.ceil(LEVELS * value / most - 1e-9) if most else 0 for value in values]


def months(weeks: Sequence[Week]) -> str:
    """The names of the months over the weeks in which they begin, one column a week."""
    line = ""
    for place, week in enumerate(weeks):
        begins = week.monday.day <= 7
        if begins and len(line) <= place and place + 3 <= len(weeks):
            line = f"{line:<{place}}{week.monday:%b}"
    return f"{line:<{len(weeks)}}"


def week_name(week: Week) -> str:
    """`Week 47, Mon 16 to Sun 22 Nov 2026`, numbered by ISO 8601."""
    sunday = week.monday + timedelta(days=6)
    month = "" if sunday.month == week.monday.month else f" {week.monday:%b}"
    year = "" if sunday.year == week.monday.year else f" {week.monday.year}"
    return f"Week {week.iso[1]}, Mon {week.monday.day}{month}{year} to Sun {sunday.day} {sunday:%b %Y}"


def week_line(week: Week, as_of: datetime, units: Units) -> str:
    """The week in a sentence: `Week 47, Mon 16 to Sun 22 Nov 2026: 2 feedings and 1 check.`"""
    name = week_name(week)
    if not week.lived:
        return f"{name}: before the bin began."
    so_far = " so far" if as_of.date() < week.monday + timedelta(days=6) else ""
    return f"{name}{so_far}: {week_words(week.sums, units)}."


def week_words(sums: Sums, units: Units) -> str:
    """What a week holds: `2 feedings with 780 g of scraps, 1 check and 100 g of bedding`."""
    scraps = f" with {show_mass(sums.scraps_kg, units)} of scraps" if sums.scraps_kg else ""
    numbers = ((sums.feedings, "feeding", scraps), (sums.checks, "check", ""), (sums.turns, "turn", ""))
    masses = ((sums.castings_kg, "castings"), (sums.bedding_kg, "bedding"), (sums.grit_kg, "grit"))
    parts = [f"{count(number, noun)}{more}" for number, noun, more in numbers if number]
    parts += [f"{show_mass(kg, units)} of {what}" for kg, what in masses if kg]
    return listed(parts) if parts else "nothing written down"


def totals(sums: Sums, gap: Gap | None, units: Units) -> list[tuple[str, str]]:
    """What it all adds up to, as rows of a table."""
    feedings = f" in {count(sums.feedings, 'feeding')}" if sums.feedings else ""
    ratio = yields(sums)
    share = f", {round(100 * ratio)} % of the scraps" if ratio is not None else ""
    apart = f", up to {count(round(gap.days), 'day')} without" if gap is not None else ""
    other = [("used otherwise", _mass(sums.other_kg, units))] if sums.other_kg else []
    return [
        ("scraps diverted", f"{_mass(sums.scraps_kg, units)}{feedings}"),
        ("castings made", f"{_mass(sums.castings_kg, units)}{share}"),
        ("bedding used", _mass(sums.bedding_kg, units)),
        ("grit given", _mass(sums.grit_kg, units)),
        *other,
        ("turns", str(sums.turns)),
        ("checks", f"{sums.checks}{apart}"),
    ]


def _mass(kg: float, units: Units) -> str:
    return show_mass(kg, units) if kg else "none"


def gap_line(past: Past) -> str:
    """When the longest time without a check was, in the year shown. Nothing for less than a day."""
    gap = past.year_gap
    if gap is None or gap.days < 1:
        return ""
    when = f"{_day(gap.since)} to {_day(gap.until)}"
    return f"Longest without a check: {count(round(gap.days), 'day')}, {when}."


def headings(past: Past) -> tuple[str, str]:
    """`since 17 Nov 2025` for the year shown, and for what was ever written down; the same where it is."""
    began = past.began_at.date() if past.began_at else past.weeks[0].monday
    ever = f"since {_day(began)}"
    return (ever if began >= past.weeks[0].monday else f"since {_day(past.weeks[0].monday)}"), ever


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"
