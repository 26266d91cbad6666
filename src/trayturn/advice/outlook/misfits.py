"""What was measured against what the fitted model makes of it: points, and entries that do not fit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from trayturn.advice.outlook import figures
from trayturn.advice.outlook.fitted import Known
from trayturn.advice.outlook.measured import Reading
from trayturn.advice.outlook.result import Misfit, Point, PointKind
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.units import show_mass, show_volume, three_figures
from trayturn.domain.words import day

if TYPE_CHECKING:
    from trayturn.science.process.rates import Array

FAR_SD = 3.0
"""A measurement further off than so many standard deviations does not fit: one in 370 is by chance."""


def points(known: Known, readings: tuple[Reading, ...]) -> tuple[Point, ...]:
    """Everything measured, with how far off it is."""
    return tuple(
        Point(one.at, one.what.value, one.kind, one.what.tray, off, one.entry)
        for one, off in zip(readings, known.fitted.misfit, strict=True)
    )


def misfits(known: Known, readings: tuple[Reading, ...], stack: Stack) -> tuple[Misfit, ...]:
    """The entries that do not fit the others, the worst first."""
    fitted = known.fitted
    found = [
        _misfit(one, fitted.misfit[place], fitted.read[place], place in fitted.left_out, stack)
        for place, one in enumerate(readings)
        if abs(fitted.misfit[place]) > FAR_SD or place in fitted.left_out
    ]
    return tuple(sorted(found, key=lambda one: -abs(one.off_sd)))


def _misfit(one: Reading, off: float, read: Array, left_out: bool, stack: Stack) -> Misfit:
    what, expected = one.what, figures.five(read).p50
    units = stack.setup.units
    where = f" of tray {what.tray}" if what.tray is not None else ""
    side = "more" if off > 0 else "less"
    words = (
        f"{NAMES[one.kind].capitalize()}{where} on {day(one.at, stack.as_of)}: "
        f"{shown(one.kind, what.value, units)}, where the rest leads to expect "
        f"{shown(one.kind, expected, units)}; {side}, by {three_figures(round(abs(off), 1))} times the usual "
        f"error. Look at entry {one.entry}."
    )
    if left_out:
        words += " It was left out of the reckoning."
    return Misfit(one.at, one.kind, what.tray, what.value, expected, off, left_out, one.entry, words)


NAMES: dict[PointKind, str] = {
    "castings": "the castings",
    "tray": "the contents",
    "moisture": "the moisture",
    "food left": "the food left",
    "worms": "the worms",
    "sump": "the sump",
}


def shown(kind: PointKind, value: float, units: Units) -> str:
    """A measurement in the keeper's units."""
    if kind in ("moisture", "food left"):
        return f"{round(100 * value)} %"
    return show_volume(value, units) if kind == "sump" else show_mass(value, units)
