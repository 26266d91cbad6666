"""What this bin was fed of late: the names, and how much it was each time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trayturn.advice.composing.draft import Part
from trayturn.domain.entries import Fed
from trayturn.domain.profile import Profile
from trayturn.domain.replay import standing

MOST = 40
"""How many names are remembered."""


@dataclass(frozen=True, slots=True)
class Recent:
    """One name, and how much of it went in when it was last given, kg. Its part is scraps or bedding."""

    part: Part
    name: str
    kg: float


@dataclass(frozen=True, slots=True)
class History:
    """Names from the latest back, and the last feeding of each tray and of the bin."""

    recent: tuple[Recent, ...] = ()
    meals: tuple[Fed, ...] = ()

    def last_kg(self, name: str) -> float | None:
        """How much of a name went in when it was last given."""
        return next((one.kg for one in self.recent if one.name.casefold() == name.casefold()), None)

    @property
    def last(self) -> Fed | None:
        """The last feeding that had scraps in it."""
        return next((meal for meal in self.meals if meal.items_kg), None)


def history_of(profile: Profile) -> History:
    """What a profile's journal tells. It is to be kept as long as the profile is."""
    fed = [entry for _, entry in standing(profile.journal) if isinstance(entry, Fed)]
    return history(fed)


def history(fed: list[Fed]) -> History:
    """What those feedings tell, whatever order they were written in."""
    latest = sorted(fed, key=lambda meal: meal.at, reverse=True)
    found: dict[tuple[Part, str], Recent] = {}
    for one in _names(latest):
        found.setdefault((one.part, one.name.casefold()), one)
        if len(found) >= MOST:
            break
    return History(tuple(found.values()), tuple(latest[:MOST]))


def _names(meals: list[Fed]) -> Iterator[Recent]:
    for meal in meals:
        yield from (Recent(Part.SCRAPS, name, kg) for name, kg in meal.items_kg.items())
        yield from (Recent(Part.BEDDING, name, kg) for name, kg in meal.bedding_kg.items())
