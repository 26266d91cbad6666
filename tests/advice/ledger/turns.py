"""Journals with turns in them: a tray fed and separated, and what was weighed of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from tests.builders import a_profile, entry, fed, moment, started
from trayturn.advice.ledger.books import Ledger, ledger_of
from trayturn.advice.ledger.turn import Turn
from trayturn.advice.pantry import Pantry, pantry_of
from trayturn.domain.entries import Entry
from trayturn.domain.replay import replay
from trayturn.domain.setup import Ingredient
from trayturn.domain.stack import Stack

FOOD = Ingredient(name="food", moisture_pct=85, n_pct=2, c_pct=45)
CARD = Ingredient(name="card", moisture_pct=0, n_pct=0.1, c_pct=45)
"""Of round figures, so that sums are told by eye: 0.15 kg of solids in a kilogram of food."""


def separation(
    tray: str, day: float, skims: Sequence[float | None] = (), settled: float | None = None, **ended: Any
) -> tuple[Entry, ...]:
    """A separation within a day, with these skims, settled with that weight where one is given."""
    passes = [
        entry("pass_done", day + n / 100, tray=tray, pass_number=n, worms_seen="few", skimmed_kg=kg)
        for n, kg in enumerate(skims, 1)
    ]
    weighed = [entry("settled", day + 0.5, tray=tray, castings_kg=settled)] if settled is not None else []
    begun = entry("separation_begun", day, tray=tray)
    return (begun, *passes, *weighed, entry("separation_ended", day + 0.6, tray=tray, **ended))


def one_turn(
    tray: str = "A", day: float = 0, items: Mapping[str, float] | None = None, card: float = 0.0, **how: Any
) -> tuple[Entry, ...]:
    """A tray started on a day, fed once 10 days later, and separated 100 days after its start."""
    begun = started(tray, day, stage="feeding", bedding_kg={"card": card} if card else {})
    meal = fed(tray, day + 10, {"food": 4.0} if items is None else items)
    return (begun, meal, *separation(tray, day + 100, **how))


def bin_of(*entries: Entry, day: float = 1000, **setup: Any) -> tuple[Stack, Pantry]:
    """A bin in which food and card have round figures."""
    profile = replace(a_profile(*entries, **setup), ingredients=(FOOD, CARD))
    return replay(profile, moment(day)), pantry_of(profile)


def book(*entries: Entry, day: float = 1000, **setup: Any) -> Ledger:
    """Its ledger."""
    return ledger_of(*bin_of(*entries, day=day, **setup))


def row(*entries: Entry, **setup: Any) -> Turn:
    """The newest row of that ledger."""
    return book(*entries, **setup).turns[0]
