"""What a form asks, one field at a time, and how what was typed becomes a value. Nothing here draws."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from trayturn.domain.setup import Units
from trayturn.domain.units import (
    UnitError,
    parse_area,
    parse_length,
    parse_mass,
    parse_minutes,
    parse_temperature,
    parse_volume,
    split_quantity,
)
from trayturn.tui.screens.forms.lists import read_masses
from trayturn.tui.screens.forms.moments import read_moment

Kind = Literal[
    "text",
    "mass",
    "masses",
    "percent",
    "number",
    "whole",
    "temperature",
    "volume",
    "length",
    "area",
    "minutes",
    "pick",
    "several",
    "when",
]
QUANTITIES: Mapping[str, Callable[[str, Units], float]] = {
    "mass": parse_mass,
    "volume": parse_volume,
    "length": parse_length,
    "area": parse_area,
    "temperature": parse_temperature,
    "minutes": lambda text, _: parse_minutes(text),
    "number": lambda text, _: _plain(text),
    "whole": lambda text, _: _whole(text),
    "percent": lambda text, _: _plain(text, "%"),
}


@dataclass(frozen=True, slots=True)
class Option:
    """One choice of a pick: what it stands for, and the word shown for it."""

    value: str
    label: str


@dataclass(frozen=True, slots=True)
class Field:
    """One question. `default` is what stands in it at first, as it would be typed, or the value of an option.

    `least` and `most` bound a number in SI, `most` also a text's length; a `least` of 0 lets masses be none.
    `more` is asked only on request, and what has `asked` only where that says so of what stands in the form.
    The cursor is `here` at first.
    """

    name: str
    label: str
    kind: Kind = "text"
    hint: str = ""
    options: tuple[Option, ...] = ()
    default: str = ""
    required: bool = False
    least: float | None = None
    most: float | None = None
    more: bool = False
    here: bool = False
    asked: Callable[[Mapping[str, str]], bool] | None = None


SI = {
    "mass": "kg",
    "volume": "l",
    "temperature": "°C",
    "length": "m",
    "area": "m2",
    "minutes": "minutes",
    "percent": "%",
}
"""The units that the bounds of a field stand in."""


def read(field: Field, text: str, units: Units, now: datetime) -> Any:
    """The value of what was typed: SI numbers, a dict of kg, a moment, an option's value, or text.

    A field left empty gives None (text: an empty string, masses: an empty dict, several: an empty tuple, a
    moment: `now`). Raises
    `ValueError` with one sentence on what is wrong and how to put it right.
    """
    typed = text.strip()
    if not typed and field.required:
        raise ValueError(f"{field.label} is still to be filled in.")
    if field.kind == "when":
        return read_moment(typed, now)
    if field.kind == "masses":
        return read_masses(typed, units, zero=field.least == 0)
    if field.kind == "several":
        return _several(field, typed)
    if field.kind == "text":
        return _text(field, typed)
    if not typed:
        return None
    if field.kind == "pick":
        return _pick(field, typed)
    return _within(field, QUANTITIES[field.kind](typed, units), typed)


def _text(field: Field, typed: str) -> str:
    most = int(field.most or 200)
    if len(typed) > most:
        raise ValueError(f"This is {len(typed):,} characters long; the most is {most:,}.")
    return typed


def _pick(field: Field, typed: str) -> str:
    if typed not in {option.value for option in field.options}:
        raise ValueError(f"{field.label} is one of {', '.join(option.label for option in field.options)}.")
    return typed


def _several(field: Field, typed: str) -> tuple[str, ...]:
    """Options by their labels, with commas between them; each once, in the order of the options."""
    labels = {option.label.casefold(): option.value for option in field.options}
    wanted = [part.strip().casefold() for part in typed.split(",") if part.strip()]
    for part in wanted:
        if part not in labels:
            close = difflib.get_close_matches(part, labels, 1)
            hint = f"did you mean {close[0]}?" if close else f"it is some of {', '.join(labels)}."
            raise ValueError(f"{part[:40]!r} is not known under {field.label}; {hint}")
    return tuple(value for label, value in labels.items() if label in wanted)


def _within(field: Field, number: float, typed: str) -> float:
    low, high = field.least, field.most
    if (low is None or number >= low) and (high is None or number <= high):
        return number
    unit = SI.get(field.kind, "")
    bounds = [f"at least {low:g}"] if low is not None else []
    bounds += [f"at most {high:g}"] if high is not None else []
    raise ValueError(
        f"{typed[:40]!r} cannot be: {field.label} is {' and '.join(bounds)} {unit}".strip() + "."
    )


def _plain(text: str, sign: str = "") -> float:
    try:
        number, unit = split_quantity(text)
    except UnitError:
        unit = text
    if unit not in ("", sign):
        raise ValueError(
            f"{text[:40]!r} is not {'a percentage, such as 70' if sign else 'a plain number, such as 7'}."
        )
    return number


def _whole(text: str) -> int:
    if not text.isascii() or not text.isdigit():
        raise ValueError(f"{text[:40]!r} is not a whole number, such as 4.")
    return int(text[:9])
