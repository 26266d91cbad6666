"""From an outlook to what is drawn: the band, the keeper's points, turns, today's plan beside it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from trayturn.advice.outlook.misfits import FAR_SD
from trayturn.advice.outlook.result import Fan, Outlook
from trayturn.advice.outlook.topics import CASTINGS, SUMP, misfits_of, points_of, tray_of
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.units import POUND_KG, QUART_L
from trayturn.domain.words import as_read
from trayturn.tui.widgets.chart.plot import Band, Dot, Line, Mark, Plot

PAST_DAYS = 90.0
"""So much of the past stands before today: the greater part of the chart is what will come."""
A_WORD = 0.11
"""The share of the chart that the name of a day takes."""


def scale_of(topic: str, units: Units) -> tuple[str, float]:
    """The unit of a series' axis, and how many of them an SI unit is."""
    us = units is Units.US
    if tray_of(topic) is not None:
        return "%", 100.0
    if topic == SUMP:
        return ("qt", 1 / QUART_L) if us else ("l", 1.0)
    return ("lb", 1 / POUND_KG) if us else ("kg", 1.0)


def plot_of(topic: str, told: Outlook, stack: Stack, planned: Outlook | None = None) -> Plot:
    """The series of a topic; with `planned`, the middle of today's plan as a line beside it."""
    unit, factor = scale_of(topic, stack.setup.units)
    fan = told.series[topic]
    band = _band(fan, factor)
    days = (band.days[0], band.days[-1]) if band.days else (0.0, 1.0)
    return Plot(
        unit,
        band,
        dots=tuple(_dots(topic, told, factor, days[0])),
        lines=tuple(_lines(topic, told, planned, factor)),
        marks=tuple(_marks(told, days)),
        ticks=tuple(_ticks(told.as_of, days)),
        limit=stack.setup.sump_capacity_l * factor if topic == SUMP else None,
        from_zero=tray_of(topic) is None,
    )


def _band(fan: Fan, factor: float) -> Band:
    first = _first(fan)
    five = (fan.p10, fan.p25, fan.p50, fan.p75, fan.p90)
    p10, p25, p50, p75, p90 = (tuple(factor * value for value in part[first:]) for part in five)
    return Band(fan.days[first:], p10, p25, p50, p75, p90)


def _first(fan: Fan) -> int:
    """The place of the first day that is drawn."""
    return next((place for place, day in enumerate(fan.days) if day >= -PAST_DAYS), len(fan))


def day_of(moment: datetime, now: datetime) -> int:
    """Days from today, as the keeper's clock has them."""
    return (as_read(moment, now).date() - now.date()).days


def _dots(topic: str, told: Outlook, factor: float, first: float) -> Iterator[Dot]:
    odd = {(one.entry, one.kind) for one in misfits_of(topic, told)}
    for one in points_of(topic, told):
        day = day_of(one.at, told.as_of)
        if day >= first:
            far = abs(one.misfit_sd or 0.0) > FAR_SD or (one.entry, one.kind) in odd
            yield Dot(float(day), one.value * factor, not far)


def _lines(topic: str, told: Outlook, planned: Outlook | None, factor: float) -> Iterator[Line]:
    """The middle of today's plan, from today on. Castings are only compared in one and the same tray."""
    fan = planned.series.get(topic) if planned is not None else None
    if fan is None or planned is None or (topic == CASTINGS and planned.finishing != told.finishing):
        return
    ahead = [place for place, day in enumerate(fan.days) if day >= 0]
    yield Line(tuple(fan.days[n] for n in ahead), tuple(factor * fan.p50[n] for n in ahead))


def _marks(told: Outlook, days: tuple[float, float]) -> Iterator[Mark]:
    """Turns, named where there is room, and today, which comes last and so is always named."""
    room = A_WORD * (days[1] - days[0])
    named = [0.0]
    for turn in told.turns:
        day = float(day_of(turn, told.as_of))
        free = all(abs(day - other) >= room for other in named)
        if free:
            named.append(day)
        yield Mark(day, "turn" if free else "")
    yield Mark(0.0, "today")


def _ticks(now: datetime, days: tuple[float, float]) -> Iterator[Mark]:
    """The first of each month; the first one and each January with its year."""
    first = (now + timedelta(days=days[0])).date()
    month = first.replace(day=1)
    named = False
    while (at := (month - now.date()).days) <= days[1]:
        if at >= days[0]:
            yield Mark(float(at), f"{month:%b %Y}" if month.month == 1 or not named else f"{month:%b}")
            named = True
        month = (month + timedelta(days=32)).replace(day=1)
