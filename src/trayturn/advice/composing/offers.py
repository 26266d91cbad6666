"""The meals a composer opens with: the caddy's, last time's, and those kept under a name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from trayturn.advice.composing.draft import EATEN, Draft, Line, Part
from trayturn.advice.composing.ground import Ground
from trayturn.advice.composing.larder import part_of
from trayturn.advice.composing.proposing import split_cover, with_standing
from trayturn.advice.composing.recent import History

MOST_LINES = 6
"""How many scraps of late are offered, so that what is marked is near."""


@dataclass(frozen=True, slots=True)
class Offer:
    """A draft to begin with, and where it is from."""

    said: str
    draft: Draft


def offers(ground: Ground, history: History) -> list[Offer]:
    """What to begin with, the likeliest first: never without what waits in the caddy."""
    stack = ground.stack
    said = "as last time" if history.last is not None else "the first"
    found = [Offer(said, _as_last(ground, history))]
    if stack.caddy_kg:
        found.insert(0, Offer("from the caddy", _from_caddy(ground)))
    found += [
        Offer(f"meal {meal.name}", _kept(ground, meal.items_kg, meal.bedding_kg, meal.grit_kg or 0.0))
        for meal in reversed(stack.meals)
    ]
    return found


def _as_last(ground: Ground, history: History) -> Draft:
    """The scraps of late at nothing: one + puts in as much as when they were last given."""
    last = history.last
    names = [*(last.items_kg if last is not None else ())]
    names += [one.name for one in history.recent if one.part is Part.SCRAPS]
    lines = [
        Line(_part(ground, name), name, last_kg=history.last_kg(name))
        for name in list(dict.fromkeys(names))[:MOST_LINES]
    ]
    return _whole(Draft(ground.tray.id, tuple(lines)), ground)


def _from_caddy(ground: Ground) -> Draft:
    """All that waits goes in, but what is best left out."""
    lines = []
    for name, kg in ground.stack.caddy_kg.items():
        row = ground.pantry.meant(name)
        avoid = row is not None and row.guidance == "avoid"
        lines.append(Line(_part(ground, name), name, 0.0 if avoid else kg, held_kg=kg))
    return with_standing(Draft(ground.tray.id, tuple(lines)), ground)


def _kept(ground: Ground, items: Mapping[str, float], bedding: Mapping[str, float], grit_kg: float) -> Draft:
    lines = [Line(_part(ground, name), name, kg) for name, kg in items.items()]
    lines.append(Line(Part.GRIT, str(Part.GRIT), grit_kg))
    return _whole(split_cover(Draft(ground.tray.id, tuple(lines)), bedding, ground), ground)


def _whole(draft: Draft, ground: Ground) -> Draft:
    """With its standing lines, and with what waits in the caddy."""
    return with_standing(draft, ground).with_caddy({}, ground.stack.caddy_kg)


def _part(ground: Ground, name: str) -> Part:
    part = part_of(ground.pantry.meant(name))
    return part if part in EATEN else Part.SCRAPS
