"""Past forecasts against what came: a band a harvest on one scale, with what came marked on it."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.outlook.result import Outlook, PastForecast
from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean
from trayturn.tui.widgets.chart.bars import bar

LABEL, WORDS = 16, 18
"""Columns for the tray and its day, and for what came."""


def past_rows(told: Outlook, width: int, rows: int, units: Units, *, plain: bool = False) -> Iterator[str]:
    """The latest forecasts that have room, the newest first, under the ends of their scale."""
    past = list(reversed(told.past))[: max(0, rows - 1)]
    if not past:
        return
    top = max(max(one.p90, one.came or 0.0) for one in past)
    room = max(8, width - LABEL - WORDS)
    end = show_mass(top, units)
    yield f"{'':{LABEL}}0{end:>{room - 1}}"
    for one in past:
        five = (one.p10, one.p50, one.p50, one.p50, one.p90)
        drawn = bar(five, top, room, one.came, plain)
        yield f"{_label(one, told):{LABEL}}{drawn:{room}}  {_came(one, units)}".rstrip()


def _label(one: PastForecast, told: Outlook) -> str:
    at = one.target_at
    year = f" {at:%y}" if at.year != told.as_of.year else ""
    return f"{clean(one.tray, 5)} {at.day} {at:%b}{year}"


def _came(one: PastForecast, units: Units) -> str:
    """What came, and on which side of the band."""
    if one.came is None:
        return "not weighed"
    side = "below" if one.came < one.p10 else "above" if one.came > one.p90 else "held"
    return f"{show_mass(one.came, units)}, {side}"
