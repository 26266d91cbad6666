"""What is in stock: bedding, grit and the like, as they come in, are counted and go out again."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from functools import lru_cache

from trayturn.domain.entries import Fed, SuppliesUsed, TrayStarted

GRIT = "grit"
"""The name under which the grit of a feeding leaves the stock."""
LAST_FEEDINGS, LAST_STARTS, LAST_USES = 24, 8, 24
"""How many of each are kept in sight: enough to tell a habit by, however long the journal grows."""
SMALLEST_KG = 1e-9
"""Below this a difference of masses is the rounding of sums, not a shortage."""


@lru_cache(maxsize=1000)
def fold(name: str) -> str:
    """A supply's name as it is compared: `Shredded  Cardboard` and `shredded cardboard` are one."""
    return " ".join(name.casefold().split())


def gathered(masses: Mapping[str, float]) -> dict[str, float]:
    """Masses by folded name, kg: what was written in two ways is added up."""
    found: dict[str, float] = {}
    for name, kg in masses.items():
        found[fold(name)] = found.get(fold(name), 0.0) + kg
    return found


def used_by(fed: Fed) -> dict[str, float]:
    """Bedding and grit of a feeding by folded name, kg."""
    used = gathered(fed.bedding_kg)
    if fed.grit_kg:
        used[GRIT] = used.get(GRIT, 0.0) + fed.grit_kg
    return used


@dataclass(frozen=True, slots=True)
class Supply:
    """One supply by its name as first written. `kg` is None while nobody can say what is in stock.

    That is so before any came in or was counted, and once it was used though none was left (`doubted_at`).
    """

    name: str
    kg: float | None
    came_in_at: datetime | None = None
    counted_at: datetime | None = None
    doubted_at: datetime | None = None

    @property
    def stocked(self) -> bool:
        """Whether any was ever written down as being there."""
        return self.came_in_at is not None or self.counted_at is not None


@dataclass(slots=True)
class _Shelf:
    """One supply while the journal is read."""

    name: str
    kg: float = 0.0
    came_in_at: datetime | None = None
    counted_at: datetime | None = None
    doubted_at: datetime | None = None

    def frozen(self) -> Supply:
        known = (self.came_in_at or self.counted_at) and self.doubted_at is None
        return Supply(
            self.name, self.kg if known else None, self.came_in_at, self.counted_at, self.doubted_at
        )


@dataclass(slots=True)
class Stores:
    """All that is in stock while the journal is read, and the last feedings, trays and uses drawing on it."""

    shelves: dict[str, _Shelf] = field(default_factory=dict)
    feedings: deque[Fed] = field(default_factory=lambda: deque(maxlen=LAST_FEEDINGS))
    starts: deque[TrayStarted] = field(default_factory=lambda: deque(maxlen=LAST_STARTS))
    uses: deque[SuppliesUsed] = field(default_factory=lambda: deque(maxlen=LAST_USES))

    def add(self, masses: Mapping[str, float], at: datetime) -> None:
        """Stock in, kg. What was in doubt is known again: none was left, and this came."""
        for shelf, kg in self._shelves(masses):
            shelf.kg += kg
            shelf.came_in_at, shelf.doubted_at = at, None

    def count(self, masses: Mapping[str, float], at: datetime) -> None:
        """What was counted is the stock, kg, whatever was reckoned before."""
        for shelf, kg in self._shelves(masses):
            shelf.kg, shelf.counted_at, shelf.doubted_at = kg, at, None

    def take(self, masses: Mapping[str, float], at: datetime) -> list[tuple[str, float, float]]:
        """Stock out, kg, never below nothing. Returns what was short: its name, what was used and held."""
        return [short for shelf, kg in self._shelves(masses) if (short := _draw(shelf, kg, at))]

    def take_stocked(self, masses: Mapping[str, float], at: datetime) -> list[tuple[str, float, float]]:
        """Stock out, kg, of what is in stock: one never stocked, or run out, is not told of each time."""
        used = gathered(masses)
        for name, kg in used.items():
            shelf = self.shelves.get(name)
            if shelf is not None and kg > SMALLEST_KG >= shelf.kg:
                shelf.doubted_at = at
        held = {name: kg for name, kg in used.items() if self._kg(name) > SMALLEST_KG}
        return self.take(held, at)

    def _kg(self, folded: str) -> float:
        shelf = self.shelves.get(folded)
        return shelf.kg if shelf is not None else 0.0

    def _shelves(self, masses: Mapping[str, float]) -> Iterator[tuple[_Shelf, float]]:
        for name in masses:
            self.shelves.setdefault(fold(name), _Shelf(name))
        for folded, kg in gathered(masses).items():
            yield self.shelves[folded], kg

    @property
    def supplies_kg(self) -> dict[str, float]:
        """The stock by name, kg."""
        return {shelf.name: shelf.kg for shelf in self.shelves.values()}

    def frozen(self) -> tuple[Supply, ...]:
        """Every supply as it stands, in the order in which they were first written down."""
        return tuple(shelf.frozen() for shelf in self.shelves.values())


def _draw(shelf: _Shelf, kg: float, at: datetime) -> tuple[str, float, float] | None:
    held = shelf.kg
    if kg > SMALLEST_KG >= held:
        shelf.doubted_at = at
    shelf.kg = max(0.0, held - kg)
    return (shelf.name, kg, held) if kg > held + SMALLEST_KG else None
