"""Names with masses on one line, both ways: `cabbage=500 g, apple=200 g`."""

from __future__ import annotations

import re
from collections.abc import Mapping

from trayturn.domain.setup import Units
from trayturn.domain.units import UnitError, parse_mass, show_mass
from trayturn.tui.screens.forms.examples import EXAMPLES

# A comma between two digits belongs to a number, as in 1,5 kg.
BETWEEN = re.compile(r"[;\n]|,(?!\d)|(?<!\d),")
NAME_AND_MASS = re.compile(
    r"(?P<name>.*?\S)(?:\s*=\s*|\s+(?=[+-]?[\d.,]+\s*[^\W\d]*$))(?P<mass>[^=]*\S)", re.DOTALL
)
LONGEST_NAME = 200
HEAVIEST_KG = 1000


def read_masses(text: str, units: Units, *, zero: bool = False) -> dict[str, float]:
    """kg by name, of nothing too where `zero` allows it. A name given twice is added up.

    Raises `ValueError` naming the part that cannot be read.
    """
    found: dict[str, float] = {}
    for part in filter(None, map(str.strip, BETWEEN.split(text))):
        name, kg = _read_part(part, units, zero)
        found[name] = found.get(name, 0.0) + kg
        if found[name] > HEAVIEST_KG:
            raise ValueError(f"{name[:40]}: the mass must be at most {show_mass(HEAVIEST_KG, units)}.")
    return found


def _read_part(part: str, units: Units, zero: bool) -> tuple[str, float]:
    match = NAME_AND_MASS.fullmatch(part)
    if match is None:
        raise ValueError(f"{part[:40]!r} needs a name and a mass, such as {EXAMPLES[units].scraps}.")
    name, mass = match["name"], match["mass"]
    if len(name) > LONGEST_NAME:
        raise ValueError(
            f"The name {name[:20]!r} and so on is too long; the most is {LONGEST_NAME} characters."
        )
    try:
        kg = parse_mass(mass, units)
    except UnitError as slip:
        raise ValueError(f"{name[:40]}: {slip}") from None
    if kg == 0 and not zero:
        raise ValueError(f"{name[:40]}: the mass must be more than nothing; leave out what was not there.")
    return name, kg


def write_masses(masses: Mapping[str, float], units: Units) -> str:
    """The masses as they would be typed. Names that could not be read back are left out."""
    parts = [f"{name}={show_mass(kg, units)}" for name, kg in masses.items() if not set(name) & set("=,;\n")]
    return ", ".join(parts)
