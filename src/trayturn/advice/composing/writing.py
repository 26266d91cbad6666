"""From a draft to what is written down: the feeding, what the caddy holds after it, and a meal to keep."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from trayturn.advice.composing.draft import EATEN, SHREDS, Draft, Part
from trayturn.advice.composing.steps import CLOSE
from trayturn.domain.entries import Entry, Fed, MealKept, PutOff

NOTHING = "Nothing to write down yet: + puts something in, a adds an ingredient."


def entries(draft: Draft, caddy_kg: Mapping[str, float], now: datetime) -> list[Entry]:
    """The feeding, and the caddy where it is another than before. Empty where there is nothing to write."""
    written: list[Entry] = [] if draft.empty else [_fed(draft, now)]
    if not _same(draft.waits, caddy_kg):
        written.append(PutOff(at=now, items_kg=draft.waits))
    return written


def meal_of(draft: Draft, name: str, now: datetime) -> MealKept:
    """The meal under a name. Water is not kept: it is of the day. Raises `ValueError` for an empty one."""
    return MealKept(
        at=now,
        name=name,
        items_kg=draft.masses(*EATEN),
        bedding_kg=draft.masses(*SHREDS),
        grit_kg=draft.kg(Part.GRIT) or None,
    )


def _fed(draft: Draft, now: datetime) -> Fed:
    return Fed(
        at=now,
        note=draft.note,
        tray=draft.tray,
        items_kg=draft.masses(*EATEN),
        bedding_kg=draft.masses(*SHREDS),
        grit_kg=draft.kg(Part.GRIT) or None,
        water_kg=draft.kg(Part.WATER) or None,
    )


def _same(one: Mapping[str, float], other: Mapping[str, float]) -> bool:
    return all(abs(one.get(name, 0.0) - other.get(name, 0.0)) <= CLOSE for name in {*one, *other})
