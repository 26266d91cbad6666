"""The pieces that the words of an entry are made of."""

from __future__ import annotations

from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean

Parts = list[str]
SHORT, WHOLE = 200, 20_000
"""How much of the keeper's own words is told on one line and in full, characters."""


def own(label: str, text: str, limit: int) -> str:
    """The keeper's own words behind a label, or nothing."""
    return f"{label} {clean(text, limit)}" if text else ""


def mass(label: str, kg: float | None, units: Units) -> str:
    """A mass behind a label, or nothing."""
    return f"{label} {show_mass(kg, units)}".strip() if kg else ""


def most(limit: int) -> int:
    """On one line the three heaviest are named; told in full, all are."""
    return 3 if limit <= SHORT else 1000


def seen(amount: str) -> str:
    """`no worms`, `few worms`."""
    return "no worms" if amount == "none" else f"{amount} worms"
