"""What the names in a journal stand for: the keeper's own ingredients first, then the shipped table."""

from __future__ import annotations

from functools import cache, cached_property

from trayturn.advice.ingredients import own_rows
from trayturn.domain.profile import Profile
from trayturn.science.materials import Material, NotKnown, Table, load_materials

SCRAPS = "kitchen scraps"
"""What stands in for scraps that are not in the table."""


class Pantry:
    """A table of ingredients that remembers what each name was found to mean."""

    def __init__(self, table: Table) -> None:
        self.table = table
        self._meant: dict[str, Material | None] = {}

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
        found = self.meant(name)
        if found is not None and found.moisture is not None and found.breakdown:
            return found, True
        return self._stand_in, False

    @cached_property
    def _stand_in(self) -> Material:
        return self.table.find(SCRAPS)


@cache
def shipped_pantry() -> Pantry:
    """The pantry of the shipped table alone, for where no profile is at hand."""
    return Pantry(load_materials())


def pantry_of(profile: Profile) -> Pantry:
    """The pantry of a bin. It is to be kept as long as the profile is."""
    return Pantry(load_materials().with_own(own_rows(profile)))
