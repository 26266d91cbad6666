"""An amount or words typed into a row of a sheet with clean hands."""

from __future__ import annotations

from dataclasses import replace

from trayturn.domain.setup import Units
from trayturn.domain.units import parse_mass, parse_volume, show_mass, show_volume
from trayturn.tui.screens.castings.amount_rows import MOST_L, Litres
from trayturn.tui.widgets.answers import HEAVIEST_KG, Answer, Count, Mass, Words

LONGEST = 60
Typed = Mass | Litres | Count | Words
"""Rows that can be typed."""


def typed(row: Typed, text: str, units: Units) -> Answer:
    """The row with what was typed into it. Raises `ValueError` with what is wrong with that."""
    if isinstance(row, Words):
        if len(text.strip()) > LONGEST:
            raise ValueError(f"This is longer than {LONGEST} characters.")
        return replace(row, text=text.strip())
    if isinstance(row, Count):
        return replace(row, number=_whole(text.strip().removesuffix("%").strip(), row.most))
    if isinstance(row, Litres):
        litres = parse_volume(text, units)
        if litres > MOST_L:
            raise ValueError(f"It must be at most {show_volume(MOST_L, units)}.")
        return replace(row, litres=litres)
    kg = parse_mass(text, units)
    if kg > HEAVIEST_KG:
        raise ValueError(f"It must be at most {show_mass(HEAVIEST_KG, units)}.")
    return replace(row, kg=kg or None)


def _whole(text: str, most: int) -> int:
    if not text.isascii() or not text.isdigit() or int(text[:9]) > most:
        raise ValueError(f"This is not a whole number up to {most:,}, such as 12.")
    return int(text[:9])


def trouble(row: Typed, text: str, units: Units) -> str | None:
    """What is wrong with what was typed, in one sentence."""
    try:
        typed(row, text, units)
    except ValueError as slip:
        return str(slip)
    return None


def example(row: Typed, units: Units) -> str:
    """What could be typed there."""
    if isinstance(row, Words):
        return ""
    if isinstance(row, Count):
        return "such as 12"
    if isinstance(row, Litres):
        return "such as 20 qt" if units is Units.US else "such as 20 l"
    return "such as 1.5 lb" if units is Units.US else "such as 750 g"
