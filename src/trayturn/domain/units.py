"""Quantities at the edge: what a keeper types becomes SI, and SI becomes what a keeper reads.

Conversions are exact by definition: the avoirdupois pound is 0.45359237 kg, the inch 0.0254 m (international
yard and pound agreement, 1959), the US liquid gallon 231 cubic inches (NIST Handbook 44, appendix C).
"""

from __future__ import annotations

import math
import re

from trayturn.domain.setup import Units

POUND_KG = 0.45359237
OUNCE_KG = POUND_KG / 16
INCH_M = 0.0254
GALLON_L = 3.785411784
QUART_L = GALLON_L / 4
CUP_L = GALLON_L / 16
FLUID_OUNCE_L = GALLON_L / 128
SQUARE_FOOT_M2 = (12 * INCH_M) ** 2

MASS = {"kg": 1.0, "g": 0.001, "lb": POUND_KG, "lbs": POUND_KG, "oz": OUNCE_KG}
VOLUME = {
    "l": 1.0,
    "litre": 1.0,
    "liter": 1.0,
    "dl": 0.1,
    "cl": 0.01,
    "ml": 0.001,
    "gal": GALLON_L,
    "qt": QUART_L,
    "pt": QUART_L / 2,
    "cup": CUP_L,
    "cups": CUP_L,
    "floz": FLUID_OUNCE_L,
}
LENGTH = {"m": 1.0, "cm": 0.01, "mm": 0.001, "in": INCH_M, "ft": 12 * INCH_M}
AREA = {"m2": 1.0, "cm2": 1e-4, "ft2": SQUARE_FOOT_M2, "in2": INCH_M**2}
SCALES = {"celsius": "c", "centigrade": "c", "fahrenheit": "f", "c": "c", "f": "f"}
DURATION_MINUTES = {"min": 1.0, "s": 1 / 60, "h": 60.0}

QUANTITY = re.compile(r"\s*([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*([^\W\d_][\w²]*|%|°\s*[CcFf])?\s*")
FLUID_OUNCES = re.compile(r"fl\.?\s*oz\b", re.IGNORECASE)
THOUSANDS = re.compile(r"\d,\d{3}(?!\d)")


class UnitError(ValueError):
    """An amount that cannot be read. The message says what was typed and what would do."""


def split_quantity(text: str, example: str = "500 g") -> tuple[float, str]:
    """The number and the unit of `1,5 kg`. A decimal comma is as good as a point; the unit may be missing.

    Raises `UnitError` with the example when the text is no amount, or a number too large to hold.
    """
    match = QUANTITY.fullmatch(text)
    if match is None:
        raise UnitError(f"{_typed(text)} is not an amount; type a number and a unit, such as {example}.")
    number, unit = match.groups()
    value = float(number.replace(",", "."))
    if not math.isfinite(value):
        raise UnitError(f"{_typed(text)} is too large; type an amount such as {example}.")
    return value, (unit or "").replace("²", "2").lower()


def _typed(text: str) -> str:
    text = text.strip()
    return repr(text if len(text) <= 40 else f"{text[:39]}…")


def _parse(text: str, table: dict[str, float], what: str, bare: str, example: str, us: bool = False) -> float:
    if us and THOUSANDS.search(text):
        raise UnitError(f"{_typed(text)} can be read in two ways; leave out the comma, such as {example}.")
    number, unit = split_quantity(text, example)
    factor = table.get(unit or bare)
    if factor is None:
        raise UnitError(
            f"{_typed(unit)} is not a unit of {what}; use one of {', '.join(table)}, such as {example}."
        )
    if number < 0:
        raise UnitError(f"{what.capitalize()} cannot be below zero, and {_typed(text)} is.")
    return number * factor


def parse_mass(text: str, units: Units = Units.METRIC) -> float:
    """`500 g`, `1.2 kg`, `2 lb`, `8 oz` as kg. A bare number is kg, or lb for a US keeper.

    Raises `UnitError` for an unknown unit or a mass below zero.
    """
    us = units is Units.US
    return _parse(text, MASS, "mass", "lb" if us else "kg", "1 lb" if us else "500 g", us)


def parse_volume(text: str, units: Units = Units.METRIC) -> float:
    """`1.5 l`, `250 ml`, `2 qt`, `1 cup`, `8 fl oz` as litres. Raises `UnitError`."""
    us = units is Units.US
    return _parse(
        FLUID_OUNCES.sub("floz", text), VOLUME, "volume", "qt" if us else "l", "2 qt" if us else "1.5 l", us
    )


def parse_length(text: str, units: Units = Units.METRIC) -> float:
    """`15 cm`, `6 in` as metres. A bare number is cm, or in for a US keeper. Raises `UnitError`."""
    us = units is Units.US
    return _parse(text, LENGTH, "length", "in" if us else "cm", "6 in" if us else "15 cm", us)


def parse_area(text: str, units: Units = Units.METRIC) -> float:
    """`0.16 m2`, `1600 cm2`, `1.7 ft2` as square metres. Raises `UnitError`."""
    us = units is Units.US
    return _parse(text, AREA, "area", "ft2" if us else "m2", "1.7 ft2" if us else "0.16 m2", us)


def parse_minutes(text: str) -> float:
    """`15`, `15 min`, `90 s`, `1 h` as minutes. Raises `UnitError`."""
    return _parse(text, DURATION_MINUTES, "time", "min", "15 min")


def parse_temperature(text: str, units: Units = Units.METRIC) -> float:
    """`18 C`, `65 F` as degrees Celsius. A bare number is C, or F for a US keeper. Raises `UnitError`."""
    number, unit = split_quantity(text, "65 F" if units is Units.US else "18 C")
    scale = SCALES.get(unit.strip("° "), unit) or ("f" if units is Units.US else "c")
    if scale not in ("c", "f"):
        raise UnitError(f"{_typed(unit)} is not a unit of temperature; use C or F, such as 18 C.")
    return number if scale == "c" else (number - 32) / 1.8


def three_figures(value: float) -> str:
    """A number with at most three figures, as a person would say it: 0.457, 4.57, 45.7, 457."""
    if value == 0:
        return "0"
    places = max(0, 2 - math.floor(math.log10(abs(value))))
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def two_figures(value: float) -> float:
    """A number rounded as an estimate is said: 466 is 470, 1023 is 1000, 0.0434 is 0.043."""
    return round(value, 1 - math.floor(math.log10(abs(value)))) if value else 0.0


def round_mass(kg: float, units: Units = Units.METRIC) -> float:
    """kg rounded to two figures of the unit that it is shown in: what a keeper would weigh out."""
    if units is Units.US:
        unit = OUNCE_KG if abs(kg) < POUND_KG else POUND_KG
    else:
        unit = 0.001 if abs(kg) < 1 else 1.0
    return two_figures(kg / unit) * unit


def show_mass(kg: float, units: Units = Units.METRIC) -> str:
    """kg as `480 g` or `1.2 kg`, or as `8 oz` or `2.5 lb` for a US keeper."""
    if units is Units.US:
        small = abs(kg) < POUND_KG
        return f"{three_figures(kg / OUNCE_KG)} oz" if small else f"{three_figures(kg / POUND_KG)} lb"
    return f"{three_figures(kg * 1000)} g" if abs(kg) < 1 else f"{three_figures(kg)} kg"


def show_volume(litres: float, units: Units = Units.METRIC) -> str:
    """Litres as `250 ml` or `1.5 l`, or as `2 qt` for a US keeper."""
    if units is Units.US:
        return f"{three_figures(litres / QUART_L)} qt"
    return f"{three_figures(litres * 1000)} ml" if abs(litres) < 1 else f"{three_figures(litres)} l"


def show_temperature(celsius: float, units: Units = Units.METRIC) -> str:
    """Degrees Celsius, or Fahrenheit for a US keeper, to the whole degree."""
    return f"{round(celsius * 1.8 + 32)} °F" if units is Units.US else f"{round(celsius)} °C"


def show_length(metres: float, units: Units = Units.METRIC) -> str:
    """Metres as cm, or inches for a US keeper."""
    if units is Units.US:
        return f"{three_figures(metres / INCH_M)} in"
    return f"{three_figures(metres * 100)} cm"


def show_area(square_metres: float, units: Units = Units.METRIC) -> str:
    """Square metres, or square feet for a US keeper."""
    if units is Units.US:
        return f"{three_figures(square_metres / SQUARE_FOOT_M2)} ft2"
    return f"{three_figures(square_metres)} m2"
