"""What a check reads: the kinds of readings, where each stands in an entry, and how it is said."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import Any

from trayturn.domain.entries import Amount, Checked, Feel, Pest
from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass, show_temperature, show_volume, three_figures
from trayturn.domain.words import clean, listed

Value = float | Feel | Amount | str | tuple[Pest, ...]
"""A reading: a number in SI (moisture in percent), a grade, words, or what was seen."""


class Kind(StrEnum):
    """One kind of reading, in the order they are taken at the bin."""

    MOISTURE = "moisture"
    TEMPERATURE = "temperature"
    PH = "ph"
    SMELL = "smell"
    SUMP = "sump"
    STRAYS = "strays"
    PESTS = "pests"
    WORMS = "worms"
    WEIGHT = "weight"


Readings = Mapping[Kind, Value]

LABELS = {
    Kind.MOISTURE: "Moisture",
    Kind.TEMPERATURE: "Temperature",
    Kind.PH: "pH",
    Kind.SMELL: "Smell",
    Kind.SUMP: "Sump",
    Kind.STRAYS: "Strays",
    Kind.PESTS: "Pests",
    Kind.WORMS: "Worms seen",
    Kind.WEIGHT: "Tray weighs",
}
FIELDS = {
    Kind.MOISTURE: "moisture_pct",
    Kind.TEMPERATURE: "temperature_c",
    Kind.PH: "ph",
    Kind.SMELL: "smell",
    Kind.SUMP: "sump_l",
    Kind.STRAYS: "strays",
    Kind.PESTS: "pests",
    Kind.WORMS: "worms",
    Kind.WEIGHT: "gross_kg",
}
"""The field of `Checked` that holds each kind. Moisture by the squeeze test is in `feel`."""

OF_THE_TRAY = frozenset({Kind.MOISTURE, Kind.PH, Kind.WEIGHT})
"""Readings that tell of one tray alone."""
OF_THE_BIN = frozenset({Kind.TEMPERATURE, Kind.SUMP, Kind.STRAYS})
"""Readings that tell of the whole bin, whichever tray was being looked at. The others tell of either."""


def value_of(check: Checked, kind: Kind) -> Value | None:
    """What that check read of a kind; None where it did not. A percentage counts before the feel."""
    value: Value | None = getattr(check, FIELDS[kind])
    if kind is Kind.MOISTURE and value is None:
        value = check.feel
    return None if value in ("", ()) else value


def fields_of(readings: Readings) -> dict[str, Any]:
    """The readings as fields of a `Checked` entry."""
    return {"feel" if isinstance(value, Feel) else FIELDS[kind]: value for kind, value in readings.items()}


def said(kind: Kind, value: Value, units: Units) -> str:
    """A reading as it is said: `damp by the squeeze`, `72 %`, `18 °C`, `250 ml`, `ants and springtails`."""
    if isinstance(value, Feel):
        return f"{value} by the squeeze"
    if isinstance(value, tuple):
        return listed(map(str, value))
    if isinstance(value, str):
        return clean(value, 60)
    return _number(kind, value, units)


def _number(kind: Kind, value: float, units: Units) -> str:
    if kind is Kind.TEMPERATURE:
        return show_temperature(value, units)
    if kind is Kind.SUMP:
        return show_volume(value, units) if value else "empty"
    if kind is Kind.WEIGHT:
        return show_mass(value, units)
    return f"{three_figures(value)} %" if kind is Kind.MOISTURE else f"pH {three_figures(value)}"
