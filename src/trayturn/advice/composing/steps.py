"""How far one press of + or - goes: a little for a little, more for more."""

from __future__ import annotations

from collections.abc import Sequence

from trayturn.domain.setup import Units
from trayturn.domain.units import OUNCE_KG

Ladder = Sequence[tuple[float, float]]
"""From which amount on (kg), and the step from there (kg)."""

METRIC: Ladder = ((0, 0.005), (0.05, 0.01), (0.1, 0.025), (0.25, 0.05), (1, 0.1), (2.5, 0.25))
US: Ladder = tuple(
    (ounces * OUNCE_KG, step * OUNCE_KG)
    for ounces, step in ((0, 0.25), (2, 0.5), (8, 1), (16, 2), (48, 4), (96, 8))
)
CLOSE = 1e-9


def more(kg: float, units: Units, each_kg: float | None = None) -> float:
    """One step up, kg: the step of that size of amount, or one measure of `each_kg`."""
    if each_kg:
        return kg + each_kg
    return kg + max((start, step) for start, step in _ladder(units) if kg >= start - CLOSE)[1]


def less(kg: float, units: Units, each_kg: float | None = None) -> float:
    """One step down, kg, never below nothing: it takes back what one step up did."""
    if each_kg:
        return max(0.0, kg - each_kg)
    ladder = _ladder(units)
    ends = [start for start, _ in ladder[1:]] + [float("inf")]
    for (start, step), end in reversed(list(zip(ladder, ends, strict=True))):
        if start - CLOSE <= kg - step < end - CLOSE:
            return max(0.0, kg - step)
    return max((start for start, _ in ladder if start < kg - CLOSE), default=0.0)


def rounded_up(kg: float, units: Units) -> float:
    """An amount that a kitchen scale can show: up to the next 5 g, or quarter of an ounce."""
    step = 0.25 * OUNCE_KG if units is Units.US else 0.005
    whole = int(kg / step + CLOSE)
    return round(step * (whole + (kg > step * whole + CLOSE)), 9)


def rounded_down(kg: float, units: Units) -> float:
    """The same, down to what has been reached."""
    up = rounded_up(kg, units)
    step = 0.25 * OUNCE_KG if units is Units.US else 0.005
    return up if up <= kg + CLOSE else round(up - step, 9)


def _ladder(units: Units) -> Ladder:
    return US if units is Units.US else METRIC
