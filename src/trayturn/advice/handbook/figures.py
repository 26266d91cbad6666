"""The figures in the pages, in the keeper's units.

A page never writes a figure that the program reckons with: it names it, and it is filled in from the code.
`{temp:coldest:warmest}` becomes `4 to 30 °C`, `{density:stocking}` `1.6 kg/m2` or `0.328 lb/ft2`; with `~`
behind the kind two figures are said, not three. Other quantities stand as numbers, `{mass:0.5}`, or in the
words of both units where they were published round: `{2.5 cm|1 in}`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from trayturn.advice.cautions import CAUTIONS, CODES, WORK_WORDS
from trayturn.advice.handbook.known import known
from trayturn.advice.handbook.model import Article, Said, Section, Sure, Table, TableRow
from trayturn.domain.setup import Units
from trayturn.domain.units import (
    INCH_M,
    POUND_KG,
    SQUARE_FOOT_M2,
    show_area,
    show_length,
    show_mass,
    show_temperature,
    show_volume,
    three_figures,
    two_figures,
)

BRACES = re.compile(r"\{([^{}]*)\}")
NUMBER = re.compile(r"-?\d+(\.\d+)?")
CUBIC_FOOT_M3 = (12 * INCH_M) ** 3


class FigureError(ValueError):
    """A figure in a page that is not known, or not of a kind that can be shown."""


def _density(kg_m2: float, units: Units) -> str:
    if units is Units.US:
        return f"{three_figures(kg_m2 * SQUARE_FOOT_M2 / POUND_KG)} lb/ft2"
    return f"{three_figures(kg_m2)} kg/m2"


def _loose(kg_m3: float, units: Units) -> str:
    if units is Units.US:
        return f"{three_figures(kg_m3 * CUBIC_FOOT_M3 / POUND_KG)} lb/ft3"
    return f"{three_figures(kg_m3)} kg/m3"


KINDS: dict[str, Callable[[float, Units], str]] = {
    "temp": show_temperature,
    "mass": show_mass,
    "length": show_length,
    "area": show_area,
    "volume": show_volume,
    "density": _density,
    "loose": _loose,
    "percent": lambda share, units: f"{three_figures(100 * share)} %",
    "number": lambda value, units: three_figures(value),
    "days": lambda value, units: f"{round(value)} days",
    "whole": lambda value, units: f"{round(value)}",
}


def in_units(article: Article, units: Units) -> Article:
    """The page with every figure filled in. Raises `FigureError` for one that is not known."""
    return reworded(article, lambda text: fill(text, units))


def reworded(article: Article, change: Callable[[str], str]) -> Article:
    """The page with its summary and all the text of its sections changed."""
    sections = tuple(_section(section, change) for section in article.sections)
    return replace(article, summary=change(article.summary), sections=sections)


def _section(section: Section, change: Callable[[str], str]) -> Section:
    said = tuple(Said(change(one.text), one.sources) for one in section.said)
    table = section.table and Table(
        tuple(map(change, section.table.columns)),
        tuple(TableRow(tuple(map(change, row.cells)), row.sources) for row in section.table.rows),
    )
    return Section(change(section.heading), said, table)


def fill(text: str, units: Units) -> str:
    """The text with what stands in braces said in those units."""
    return BRACES.sub(lambda found: _said(found[1], units), text)


def _said(inner: str, units: Units) -> str:
    if "|" in inner:
        metric, us = inner.split("|")
        return us if units is Units.US else metric
    kind, *names = inner.split(":")
    if kind == "caution":
        return _title(names[0])
    if kind == "works":
        return _works(names[0])
    if kind == "sure":
        return str(Sure[names[0].upper()])
    if kind == "load":
        return _load(names[0], units)
    kind, rough = kind.removesuffix("~"), kind.endswith("~")
    if kind not in KINDS or not 1 <= len(names) <= 2:
        raise FigureError(f"{{{inner}}} is not a figure that can be shown.")
    said = [KINDS[kind](_value(name), units) for name in names]
    return _band([_rough(one) for one in said] if rough else said)


def _load(name: str, units: Units) -> str:
    """What may be lifted, in the equation's own form for those units; never rounded up."""
    us = units is Units.US
    return f"{int(_value(f'{name}.us'))} lb" if us else f"{int(_value(name))} kg"


def _rough(said: str) -> str:
    """The same with two figures: `470 worms` for `465 worms`."""
    number, gap, unit = said.partition(" ")
    return f"{three_figures(two_figures(float(number)))}{gap}{unit}"


def _band(said: list[str]) -> str:
    """`4 to 30 °C`: the unit once, where both ends have the same."""
    if len(said) == 1:
        return said[0]
    (low, _, its_unit), (high, _, unit) = (one.partition(" ") for one in said)
    return f"{low} to {high} {unit}".strip() if its_unit == unit else " to ".join(said)


def _value(name: str) -> float:
    if NUMBER.fullmatch(name):
        return float(name)
    if name not in known():
        raise FigureError(f"{name!r} is not a figure of the program.")
    return known()[name]


def _works(code: str) -> str:
    """What work a caution is read before; a long list says no more than that it is most of it."""
    works = [WORK_WORDS[work] for work, codes in CODES.items() if code in codes]
    if len(works) == len(CODES):
        return "all of it"
    return "most of it" if len(works) > len(CODES) / 2 else ", ".join(works)


def _title(code: str) -> str:
    return next(caution.title for caution in CAUTIONS if caution.code == code)
