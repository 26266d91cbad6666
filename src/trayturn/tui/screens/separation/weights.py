"""Rows of masses, and the mass as answered."""

from __future__ import annotations

from collections.abc import Mapping

from trayturn.domain.setup import BinSetup, Units
from trayturn.domain.units import OUNCE_KG, POUND_KG
from trayturn.tui.widgets.answer_rows import Answer, Mass

TYPED = "- and + step it, Enter types it; leave it if you did not weigh."


def mass_row(setup: BinSetup, key: str, label: str, kg: float | None = None, *, fine: bool = False) -> Mass:
    """A mass in the keeper's units, in steps of half a kilogram or a pound; `fine`, of 100 g or 4 oz."""
    us = setup.units is Units.US
    if fine:
        return Mass(key, label, TYPED, kg, 4 * OUNCE_KG if us else 0.1, us)
    return Mass(key, label, TYPED, kg, POUND_KG if us else 0.5, us)


def kg_in(given: Mapping[str, Answer], key: str) -> float | None:
    """The mass of that row, kg; None where it was not weighed."""
    answer = given.get(key)
    return answer.kg if isinstance(answer, Mass) else None
