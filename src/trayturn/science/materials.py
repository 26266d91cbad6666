"""What goes into a bin: a table of scraps, beddings and the like, each row with its source and how sure it
is.

Figures of foods are from USDA SR28 (nitrogen is protein by each food's own factor, carbon (100 - ash)/1.8 of
dry solids, after Richard 1996); of beddings and manures from the handbooks that the rows name. How fast
things
break down is judgement: no published table of days was found.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from trayturn.science.blend import Stuff
from trayturn.science.errors import OutOfRange
from trayturn.science.finding import find, search

SPEEDS = ("fast", "medium", "slow", "very slow")
GUIDANCE = ("ok", "limit", "avoid")
SURE = ("measured", "derived", "proxy", "unsure", "own")
MOST_CARBON = 0.60
"""Dry plant matter holds less: handbook means of N and of C:N, multiplied, can give impossible carbon."""
SCRAPS_KG_M3 = 840.0
"""Mixed kitchen scraps, derived from 7 lb filling about a US gallon (Solomon 1993); for foods without
their own."""
SHREDS_KG_M3 = 20.0
"""Loose shredded paper or card, 16 to 24 kg/m3 (Solomon 1993); for paper without its own."""


@dataclass(frozen=True, slots=True)
class Material:
    """One row. Fractions are 0 to 1, `moisture` and `salt` of fresh mass, `n` and `c` of dry solids."""

    id: str
    name: str
    aliases: tuple[str, ...]
    group: str
    role: str
    moisture: float | None
    n: float | None
    c: float | None
    density_kg_m3: float | None
    breakdown: str
    salt: float | None
    guidance: str
    reason: str
    source: str
    sure: str

    def __post_init__(self) -> None:
        _check(self)

    @property
    def c_to_n(self) -> float | None:
        """Carbon to nitrogen, derived; None where either is not known or there is no nitrogen."""
        return self.c / self.n if self.c is not None and self.n else None

    @property
    def loose_kg_m3(self) -> float | None:
        """Its own loose density, or that of scraps or shreds in its place."""
        if self.density_kg_m3 is not None:
            return self.density_kg_m3
        if self.group == "paper":
            return SHREDS_KG_M3
        return SCRAPS_KG_M3 if self.role in ("food", "avoid") and self.group != "manure" else None

    @property
    def stuff(self) -> Stuff:
        """The row as a blend takes it."""
        return Stuff(self.name, self.moisture, self.n, self.c, self.salt, self.loose_kg_m3)


class NotKnown(LookupError):
    """No row is meant by those words. The message names the nearest."""


@dataclass(frozen=True, slots=True)
class Table:
    """The rows, the keeper's own before the shipped ones."""

    rows: tuple[Material, ...]

    def find(self, words: str) -> Material:
        """The row meant by a name as a keeper types it. Raises `NotKnown` with the nearest names."""
        found, nearest = find(words, self._names())
        if found is None:
            hint = f" The nearest are {', '.join(nearest)}." if nearest else ""
            raise NotKnown(f"{words.strip()[:40]!r} is not in the table of ingredients.{hint}")
        return next(row for row in self.rows if row.id == found)

    def search(self, words: str) -> list[Material]:
        """The rows that hold all the words, or close to them, in the order of the table."""
        hits = search(words, self._names())
        return [row for row in self.rows if row.id in hits]

    def with_own(self, rows: Iterable[Material]) -> Table:
        """The table with the keeper's own rows, which stand in for shipped ones of the same name."""
        own = tuple(rows)
        names = {row.name.casefold() for row in own}
        return Table((*own, *(row for row in self.rows if row.name.casefold() not in names)))

    def _names(self) -> dict[str, tuple[str, ...]]:
        return {row.id: (row.name, *row.aliases) for row in self.rows}


@cache
def load_materials() -> Table:
    """The table that is shipped with the program."""
    text = files("trayturn.science").joinpath("data/materials.csv").read_text(encoding="utf-8")
    return Table(tuple(read_row(row) for row in csv.DictReader(text.splitlines())))


def read_row(row: Mapping[str, str]) -> Material:
    """A row from its texts, percent as printed in the table. Raises `OutOfRange` for an impossible one."""
    return Material(
        id=row["id"],
        name=row["name"],
        aliases=tuple(filter(None, row["aliases"].split(";"))),
        group=row["group"],
        role=row["role"],
        moisture=_share(row["moisture_pct"]),
        n=_share(row["n_pct"]),
        c=_share(row["c_pct"]),
        density_kg_m3=float(row["density_kg_m3"]) if row["density_kg_m3"] else None,
        breakdown=row["breakdown"],
        salt=_share(row["salt_pct"]),
        guidance=row["guidance"],
        reason=row["reason"],
        source=row["source"],
        sure=row["sure"],
    )


def _share(text: str) -> float | None:
    return float(text) / 100 if text else None


def _check(row: Material) -> None:
    """An impossible row is refused: it would make every mix it is in wrong."""
    Stuff(row.name, row.moisture, row.n, row.c, row.salt, row.density_kg_m3)
    if row.c is not None and row.c > MOST_CARBON:
        raise OutOfRange(f"{row.name} cannot be {row.c:.0%} carbon: plant matter holds at most 60 %.")
    if row.breakdown not in ("", *SPEEDS) or row.guidance not in GUIDANCE or row.sure not in SURE:
        raise OutOfRange(f"{row.name} has a word in it that is not one of the table's.")
