"""Castings known only from a past separation, and how they become a lot."""

from __future__ import annotations

from datetime import timedelta

from trayturn.advice.due.hatching import Tub, tubs
from trayturn.domain.entries import LotBegun
from trayturn.domain.lots import next_code
from trayturn.domain.stack import Stack
from trayturn.domain.units import show_mass
from trayturn.domain.words import due as in_days

LATELY = timedelta(days=120)
"""How long ago castings may have been taken to be offered as a lot. Our choice."""
TUB = "tub "
"""What the keys of castings that are no lot begin with."""


def old_tubs(stack: Stack) -> tuple[Tub, ...]:
    """Castings of past separations that are kept as no lot, newest first."""
    return tuple(tubs(stack, stack.as_of - LATELY))


def tub_key(tub: Tub) -> str:
    """What such castings go by among lots; no lot's code has a space."""
    return f"{TUB}{tub.tray}"


def as_lot(tub: Tub, stack: Stack) -> LotBegun:
    """The entry that takes such castings up, as they were when they were taken."""
    return LotBegun(at=tub.since, lot=next_code(stack, tub.tray), tray=tub.tray, kg=tub.castings_kg)


def tub_line(tub: Tub, stack: Stack) -> str:
    """`Tray A, no lot yet: 3 kg taken 12 days ago.`"""
    held = f"{show_mass(tub.castings_kg, stack.setup.units)} " if tub.castings_kg else ""
    return f"Tray {tub.tray}, no lot yet: {held}taken {in_days(tub.since, stack.as_of)}."
