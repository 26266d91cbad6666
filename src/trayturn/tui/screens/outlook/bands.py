"""Harvests as bands beside each other on one scale: those to come, and past forecasts with what came."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.bands import rough_mass
from trayturn.advice.outlook.result import Five, Outlook, PastForecast
from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass
from trayturn.domain.words import as_read, clean
from trayturn.tui.widgets.chart.bars import bar

LABEL, WORDS = 15, 16
"""Columns for the tray and its day, and for words behind the bar."""


@dataclass(frozen=True, slots=True)
class BandRow:
    """A bar: what stands before and behind it, its figures in kg, and a mark on it where there is one."""

    label: str
    five: Five
    mark: float | None
    words: str


def band_lines(
    found: Sequence[BandRow], width: int, height: int, *, units: Units, plain: bool = False
) -> str:
    """As many bars as have room, below the ends of their scale."""
    if not found:
        return ""
    top = max(max(one.five.p90, one.mark or 0.0) for one in found)
    room = max(8, width - LABEL - WORDS)
    lines = [f"{'':{LABEL}}0{show_mass(top, units):>{room - 1}}"]
    for one in found[: max(0, height - 1)]:
        drawn = bar(one.five, top, room, one.mark, plain)
        lines.append(f"{one.label:{LABEL}}{drawn:{room}}  {one.words}".rstrip())
    return "\n".join(lines)


def harvest_rows(told: Outlook, planned: Outlook | None, units: Units) -> Iterator[BandRow]:
    """The harvests to come, the next one first; with today's plan, its middle as the mark."""
    before = [(one.tray, one) for one in planned.harvests] if planned is not None else []
    for one in told.harvests:
        same = next((pair for pair in before if pair[0] == one.tray), None)
        if same is not None:
            before.remove(same)
        kg = one.castings_kg
        mark = same[1].castings_kg.p50 if same is not None else None
        yield BandRow(_label(one.tray, one.date, told.as_of), kg, mark, f"about {rough_mass(kg.p50, units)}")


def past_rows(told: Outlook, units: Units) -> Iterator[BandRow]:
    """Past forecasts, the newest first, with what came as the mark. Their quarters are not kept."""
    for one in reversed(told.past):
        five = Five(one.p10, one.p50, one.p50, one.p50, one.p90)
        yield BandRow(_label(one.tray, one.target_at, told.as_of), five, one.came, _came(one, units))


def _label(tray: str, at: datetime, now: datetime) -> str:
    local = as_read(at, now)
    year = f" {local.year}" if local.year != now.year else ""
    return f"{clean(tray, 3)} {local.day} {local:%b}{year}"


def _came(one: PastForecast, units: Units) -> str:
    """What came, and on which side of the band."""
    if one.came is None:
        return "not weighed"
    side = "below" if one.came < one.p10 else "above" if one.came > one.p90 else "held"
    return f"{show_mass(one.came, units)}, {side}"
