"""The ledger as a table: columns, and the cells of rows and of sums. The same on the screen and in text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime

from trayturn.advice.bands import mass_band
from trayturn.advice.ledger.books import Ledger, Totals
from trayturn.advice.ledger.sums import castings_words, ratio
from trayturn.advice.ledger.turn import Turn
from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass
from trayturn.domain.words import as_read, clean

Columns = Sequence[tuple[str, int]]
"""Each column's word and width."""
OF_ONE: Columns = (
    ("tray", 6),
    ("separated", 13),
    ("days", 6),
    ("scraps", 10),
    ("bedding", 10),
    ("castings", 19),
    ("yield", 13),
)
OF_ALL: Columns = (
    ("bin", 13),
    ("tray", 6),
    ("separated", 13),
    ("days", 6),
    ("scraps", 10),
    ("castings", 17),
    ("yield", 12),
)
OF_ONE_FORETOLD: Columns = (
    ("tray", 5),
    ("separated", 12),
    ("scraps", 9),
    ("castings", 18),
    ("forecast", 18),
    ("held", 8),
    ("yield", 6),
)
OF_ALL_FORETOLD: Columns = (
    ("bin", 13),
    ("tray", 5),
    ("separated", 12),
    ("castings", 18),
    ("forecast", 18),
    ("held", 8),
)
"""With what had been forecast beside what came, for which other columns make room."""
LABEL = ("bin", "tray", "separated", "days")
"""The columns over which the name of a sum goes."""


def columns_of(ledgers: Sequence[Ledger], *, named: bool) -> Columns:
    """The columns, with the bin's name in each row or without; forecasts stand beside what came."""
    foretold = any(turn.forecast_kg is not None for one in ledgers for turn in one.turns)
    if named:
        return OF_ALL_FORETOLD if foretold else OF_ALL
    return OF_ONE_FORETOLD if foretold else OF_ONE


def heading(columns: Columns, units: Units) -> str:
    """The words over the columns. The yield is in kg of castings for each kg of scraps, or pounds."""
    unit = "lb" if units is Units.US else "kg"
    whole = f"per {unit} scraps"
    words = {"yield": whole if dict(columns).get("yield", 0) >= len(whole) else "yield"}
    return "".join(f"{words.get(word, word):<{width}}" for word, width in columns).rstrip()


def turn_line(turn: Turn, name: str, columns: Columns, now: datetime, units: Units, *, wrong: bool) -> str:
    """One row. One that does not add up has an exclamation mark before its castings."""
    life = turn.life
    ended = as_read(life.ended_at, now)
    cells = {
        "bin": clean(name, 12),
        "tray": life.tray,
        "separated": f"{ended.day} {ended:%b %Y}",
        "days": str(round(turn.days)),
        "scraps": show_mass(turn.scraps_kg, units) if turn.scraps_kg else "-",
        "bedding": show_mass(turn.bedding_kg, units) if turn.bedding_kg else "-",
        "castings": f"{'! ' if wrong else ''}{castings_words(turn.castings, units)}",
        "forecast": mass_band(turn.forecast_kg, units) if turn.forecast_kg is not None else "-",
        "held": {None: "-", True: "yes", False: "no"}[turn.held],
        "yield": ratio(turn.per_scraps),
    }
    return _line(cells, columns)


def sum_row(label: str, totals: Totals, columns: Columns, units: Units) -> str:
    """The sums of some turns as a row: `in all, 4 of 5 weighed`, and the mean of the yield."""
    width = sum(size for word, size in columns if word in LABEL)
    mean = totals.per_scraps.mean if totals.per_scraps is not None else None
    foretold = totals.foretold
    least = "at least " if totals.in_part else ""
    cells = {
        "scraps": show_mass(totals.scraps_kg, units) if totals.scraps_kg else "-",
        "bedding": show_mass(totals.bedding_kg, units) if totals.bedding_kg else "-",
        "castings": f"{least}{show_mass(totals.castings_kg, units)}" if totals.castings_kg else "not weighed",
        "forecast": mass_band(foretold.forecast_kg, units) if foretold is not None else "-",
        "held": f"{foretold.held} of {foretold.turns}" if foretold is not None else "-",
        "yield": ratio(mean),
    }
    number = f"{totals.weighed} of {totals.turns}"
    what = f"{clean(label, 16)}, {number} weighed"
    what = what if len(what) < width else f"{clean(label, 14)}, {number}"
    return f"{what:<{width}}" + _line(cells, [one for one in columns if one[0] not in LABEL])


def _line(cells: dict[str, str], columns: Columns) -> str:
    return "".join(f"{cells[word]:<{width}}" for word, width in columns)


def sums_of(ledgers: Sequence[Ledger], everything: Totals) -> Iterator[tuple[str, Totals]]:
    """The sums that stand below the rows, each with its label: by year or by bin, and in all."""
    if len(ledgers) == 1:
        years = ledgers[0].years
        yield from ((str(year), totals) for year, totals in years.items() if len(years) > 1)
    else:
        yield from ((one.name, one.totals) for one in ledgers if one.turns)
    yield "in all", everything
