"""The rule of thumb that forecasts are held against: half of the solids that went in, at 70 % moisture."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from trayturn.advice.outlook.result import Five
from trayturn.science.process.events import Emptied, Event, Put, Separate
from trayturn.science.spread import Z_80

WIDTH = 0.30
"""One standard deviation of the logarithm of a harvest about the rule: 50 +- 10 % of the solids is lost, and
castings hold 60 to 80 % water. Our choice."""
QUARTER = 0.6745
"""Half of a normal distribution lies within so many standard deviations."""


def solids_in(events: Iterable[Event], tray: str, day: float) -> float:
    """Solids put into a tray up to its separation that day, or up to that day, since it was last emptied, kg.

    Grit does not count.
    """
    total = 0.0
    for event in sorted(events, key=lambda one: one.day):
        if event.day > day:
            break
        if isinstance(event, Emptied | Separate) and event.tray == tray:
            if event.day == day:
                break
            total = 0.0
        elif isinstance(event, Put) and event.tray == tray:
            total += event.quick_kg + event.slow_kg + event.resistant_kg
    return total


def thumb_of(solids_kg: float) -> float:
    """The harvest of so much by the rule, kg."""
    from trayturn.science.process.telling import thumb_kg

    return thumb_kg(solids_kg)


def width_of(errors: Sequence[float]) -> float:
    """One standard deviation of the rule's logarithm: its own, or as far as it was off here where that is
    more."""
    if not errors:
        return WIDTH
    return max(WIDTH, math.sqrt(sum(error**2 for error in errors) / len(errors)))


def thumb_band(kg: float, width: float) -> Five:
    """The rule's harvest with its band."""
    return Five(*(kg * math.exp(width * z) for z in (-Z_80, -QUARTER, 0.0, QUARTER, Z_80)))
