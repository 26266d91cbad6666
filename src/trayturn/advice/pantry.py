"""What the names in a journal stand for: the keeper's own ingredients first, then the shipped table."""

from __future__ import annotations

from dataclasses import replace
from functools import cache, lru_cache

from trayturn.advice.ingredients import own_rows
from trayturn.domain.profile import Profile
from trayturn.science.materials import Material, NotKnown, Table, load_materials

SCRAPS = "kitchen scraps"
"""What stands in for scraps that are not in the table."""
UNSAID = "medium"
"""How fast a known thing breaks down where nobody says. Our choice."""


class Pantry:
    """A table of ingredients that remembers what each name was found to mean."""

    def __init__(self, table: Table) -> None:
        self.table = table
        self._meant: dict[str, Material | None] = {}
        self._scraps: dict[str, tuple[Material, bool]] = {}

    def meant(self, name: str) -> Material | None:
        """The row that a name means; None where it is not in the table."""
        if name not in self._meant:
            try:
                self._meant[name] = self.table.find(name)
            except NotKnown:
                self._meant[name] = None
        return self._meant[name]

    def scraps(self, name: str) -> tuple[Material, bool]:
        """The row to reckon scraps by, and whether it is theirs: mixed scraps stand in for unknown ones."""
        if name not in self._scraps:
            found = self.meant(name)
            known = found is not None and found.moisture is not None
            row = found if found is not None and known else self.table.find(SCRAPS)
            self._scraps[name] = (row if row.breakdown else replace(row, breakdown=UNSAID)), known
        return self._scraps[name]


@cache
def shipped_pantry() -> Pantry:
    """The pantry of the shipped table alone, for where no profile is at hand."""
    return Pantry(load_materials())


def pantry_of(profile: Profile) -> Pantry:
    """The pantry of a bin: the same one, with all it remembers, until its own ingredients change."""
    own = own_rows(profile)
    return _pantry(own)


@lru_cache(maxsize=16)
def _pantry(own: tuple[Material, ...]) -> Pantry:
    return Pantry(load_materials().with_own(own))
