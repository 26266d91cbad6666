"""The figures of a meal in words, the same ones always in the same order."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.bands import Band, day_band, percent_band, rough_volume, said
from trayturn.advice.composing.draft import EATEN, Line
from trayturn.advice.composing.ground import Ground
from trayturn.advice.composing.load import Load
from trayturn.advice.composing.report import Gone, Report
from trayturn.advice.pages import Page
from trayturn.domain.setup import Units
from trayturn.domain.units import INCH_M, show_mass, show_temperature
from trayturn.domain.words import clean

NAME = 17
"""How much of a name is told in a figure: no figure has more than 33 letters."""
SPEED = {
    "fast": "goes fast",
    "medium": "goes in weeks",
    "slow": "goes slowly",
    "very slow": "lasts for months",
}


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure: what it is of, and its words on one line or two. `level` is as in `Load`."""

    code: str
    label: str
    words: tuple[str, ...]
    page: Page
    level: int = 0


def figures(found: Report, ground: Ground) -> tuple[Figure, ...]:
    """Every figure of a meal. Each has as many lines as ever, so that nothing below it moves."""
    return (
        Figure("meal", "Meal", (_meal(found, ground.units),), Page.MEALS),
        Figure("tray", "Tray", (_tray(found),), Page.MOISTURE),
        Figure("load", "Load", _load(found.load, ground), Page.STOCKING, found.load.level),
        Figure("gone", "Gone", (_gone(found),), Page.FEEDING),
        Figure("water", "Water", _water(found, ground.units), Page.SUMP),
        Figure("layer", "Layer", (layer(found, ground.units),), Page.LAYERS),
    )


def percent(share: float) -> str:
    """`86 %`."""
    return f"{round(100 * share)} %"


def depth(metres: float, units: Units) -> str:
    """A depth as a hand would measure it: `1.5 cm`, `0.6 in`."""
    return f"{metres / INCH_M:.1f} in" if units is Units.US else f"{100 * metres:.1f} cm"


def ratio_band(band: Band | None) -> str:
    """`C:N 24 to 31`."""
    return "C:N ?" if band is None else f"C:N {said(band, lambda one: f'{one:.0f}')}"


def of_line(line: Line, ground: Ground) -> str:
    """What is worth knowing of one line: how wet, how rich, how soon gone. Empty where nothing is known."""
    row = ground.row(line)
    if row is None:
        return ""
    told = [
        "" if row.moisture is None else f"{percent(row.moisture)} water",
        "" if row.c_to_n is None else f"C:N {row.c_to_n:.0f}",
        SPEED.get(row.breakdown, "") if line.part in EATEN else "",
        "" if ground.known(line) else "as mixed scraps",
    ]
    return ", ".join(part for part in told if part)


def span(one: Gone) -> str:
    """When it is gone: days, or months once they are many."""
    if one.days is None:
        return "not at this warmth"
    if one.days.mid < 60:
        return day_band(one.days)
    return f"{round(one.days.low / 30)} to {round(one.days.high / 30)} months"


def layer(found: Report, units: Units) -> str:
    """How deep the scraps lie, and the cover on them."""
    cover = f"cover {depth(found.cover_m, units)}" if found.cover_m > 0 else "no cover"
    if found.layer_m == 0:
        return f"no scraps, {cover}"
    scraps = "?" if found.layer_m is None else depth(found.layer_m, units)
    return f"{scraps} of scraps, {cover}"


def _meal(found: Report, units: Units) -> str:
    if found.moisture is None:
        return "nothing in it yet"
    ratio = "C:N ?" if found.c_to_n is None else f"C:N {found.c_to_n:.0f}"
    return f"{show_mass(found.total_kg, units)}, {percent(found.moisture)}, {ratio}"


def _tray(found: Report) -> str:
    if found.moisture_after is None:
        return "empty"
    return f"{percent_band(found.moisture_after)}, {ratio_band(found.c_to_n_after)}"


def _load(load: Load, ground: Ground) -> tuple[str, str]:
    """The share as a band, and the same in words."""
    if load.share is None:
        return f"nothing eaten at {show_temperature(ground.contents.celsius, ground.units)}", load.words
    low, high = (
        f"{100 * one:.0f}" if one < 9.995 else "over 999" for one in (load.share.low, load.share.high)
    )
    return f"{low} to {high} %", load.words


def _gone(found: Report) -> str:
    if not found.gone:
        return "nothing to eat in it"
    slowest = found.gone[-1]
    if slowest.days is None:
        return "stays: too cold or hot to rot"
    return f"{span(slowest)}: {clean(slowest.name, NAME)}"


def _water(found: Report, units: Units) -> tuple[str, str]:
    wet = found.wetness
    if wet.surplus_kg <= 0:
        return "none to spare", ""
    first = f"about {rough_volume(wet.surplus_kg, units)} to spare"
    if wet.left_kg < 0.01:
        return first, "bedding and tray take it up"
    return first, f"{rough_volume(wet.left_kg, units)} of it not taken up"
