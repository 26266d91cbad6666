"""What is typed for the marked answer: an example of it, what is wrong with it, and the answer it makes."""

from __future__ import annotations

from dataclasses import replace

from trayturn.domain.setup import Units
from trayturn.domain.units import UnitError, parse_mass, show_mass
from trayturn.tui.widgets.answers import HEAVIEST_KG, Mass, Words

LONGEST = 20_000
USUAL = ("4.5 kg", "10 lb")
EXAMPLES = {"moved": ("250 g", "9 oz"), "skimmed": ("800 g", "1.8 lb")}
"""What a row of that key may weigh, metric and US: few worms are moved at once."""


def example(row: Mass | Words) -> str:
    """What stands in the empty line."""
    if isinstance(row, Mass):
        return f"such as {EXAMPLES.get(row.key, USUAL)[row.us]}; empty for not weighed"
    return "what it is, in a few words"


def trouble(row: Mass | Words, text: str) -> str | None:
    """What is wrong with the text in one sentence, or None."""
    if isinstance(row, Words):
        return f"That is too long; the most is {LONGEST} characters." if len(text) > LONGEST else None
    try:
        heavy = _kg(row, text) > HEAVIEST_KG
    except UnitError as error:
        return str(error)
    return f"It must be at most {show_mass(HEAVIEST_KG, _units(row))}." if heavy else None


def answered(row: Mass | Words, text: str) -> Mass | Words:
    """The row with what was typed. Raises `UnitError` where `trouble` would have said so."""
    if isinstance(row, Words):
        return replace(row, text=text.strip())
    return replace(row, kg=_kg(row, text) or None)


def _kg(row: Mass, text: str) -> float:
    return parse_mass(text, _units(row)) if text.strip() else 0.0


def _units(row: Mass) -> Units:
    return Units.US if row.us else Units.METRIC
