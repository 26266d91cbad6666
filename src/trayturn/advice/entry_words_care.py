"""What the entries of ordinary weeks say."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from trayturn.advice.entry_parts import Parts, mass, most, own
from trayturn.domain.entries import Done, FollowUpSet, MealDropped, MealKept, MeasureSet, PutOff, Snoozed
from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean, masses


def item_words(item: str) -> str:
    """A due thing in words: `feed B`, `follow up too wet B`."""
    return clean(item).replace(":", " ").replace("_", " ").replace("-", " ")


def _follow_up_set(entry: FollowUpSet, units: Units, limit: int) -> Parts:
    signs = ", ".join(item_words(sign) for sign in entry.signs)
    by = f"{clean(entry.what, limit)} by {entry.due:%Y-%m-%d}"
    return [by, own("seen:", signs, limit), clean(entry.why, limit)]


def _snoozed(entry: Snoozed, units: Units, limit: int) -> Parts:
    if entry.until <= entry.at:
        return [f"{item_words(entry.item)} no longer put off"]
    return [f"{item_words(entry.item)} put off until {entry.until:%Y-%m-%d}"]


def _done(entry: Done, units: Units, limit: int) -> Parts:
    return [f"{item_words(entry.item)} done"]


def _measure_set(entry: MeasureSet, units: Units, limit: int) -> Parts:
    of = f" of {clean(entry.of, limit)}" if entry.of else ""
    return [f"a {clean(entry.measure)}{of} weighs {show_mass(entry.kg, units)}"]


def _meal_kept(entry: MealKept, units: Units, limit: int) -> Parts:
    bedding = f"bedding {masses(entry.bedding_kg, units, most(limit))}" if entry.bedding_kg else ""
    items = masses(entry.items_kg, units, most(limit))
    return [f"{clean(entry.name)} kept", items, bedding, mass("grit", entry.grit_kg, units)]


def _meal_dropped(entry: MealDropped, units: Units, limit: int) -> Parts:
    return [f"{clean(entry.name)} no longer kept"]


def _put_off(entry: PutOff, units: Units, limit: int) -> Parts:
    waiting = masses(entry.items_kg, units, most(limit))
    return [f"{waiting} in the caddy" if waiting else "nothing waits in the caddy any more"]


CARE_WORDS: dict[str, Callable[[Any, Units, int], Parts]] = {
    "follow_up_set": _follow_up_set,
    "snoozed": _snoozed,
    "done": _done,
    "measure_set": _measure_set,
    "meal_kept": _meal_kept,
    "meal_dropped": _meal_dropped,
    "put_off": _put_off,
}
