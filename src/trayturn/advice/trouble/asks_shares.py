"""What the last feedings were made of: how much of them was citrus, salty, rich, tough and so on."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from trayturn.advice.trouble.case import LATELY_DAYS, Case
from trayturn.advice.trouble.parts import Check, Evidence, Found, Source
from trayturn.advice.trouble.says import judged, unknown
from trayturn.advice.trouble.sources import (
    CHOPPED,
    GRAIN_SHEET,
    LEAFLET,
    LIMONENE,
    OREGON,
    PRACTICE,
    RECYCLEWORKS,
    TRADE,
)
from trayturn.domain.units import three_figures
from trayturn.domain.words import masses
from trayturn.science.materials import Material

PROTEIN_OF_NITROGEN = 6.25
PROTEIN_RICH = 0.07
"""Protein of fresh mass from which a food counts as rich in it. Our choice."""
DRY_FOOD = 0.20
"""Moisture below which a cooked food counts as dry grain: crackers and the like. Our choice."""

Belongs = Callable[[Material], bool]


@dataclass(frozen=True, slots=True)
class Share:
    """A kind of food, and the shares of the fresh mass fed from which it counts as much and as little.

    No such limits are published; they are our choice.
    """

    what: str
    belongs: Belongs
    much: float
    little: float

    def __call__(self, case: Case) -> Found:
        """Whether much of it was fed in the last four weeks."""
        if not case.meals:
            return unknown(f"No feeding of {case.who} is written down.")
        fed = case.scraps()
        if not fed:
            return judged(f"Nothing was fed in the last {_weeks()}.", is_for=False, is_against=True)
        hits = {name: kg for name, kg in fed.items() if self.belongs(case.row(name))}
        share = sum(hits.values()) / sum(fed.values())
        words = f"{self._amount(share)} of what was fed in the last {_weeks()} was {self.what}."
        named = (masses(hits, case.units, 5),) if hits else ()
        return judged(words, *named, is_for=share > self.much, is_against=share <= self.little)

    def _amount(self, share: float) -> str:
        return f"{three_figures(round(100 * share, 1))} %" if share else "None"


def _weeks() -> str:
    return f"{LATELY_DAYS / 7:.0f} weeks"


def is_citrus(row: Material) -> bool:
    return row.group == "citrus"


def is_allium(row: Material) -> bool:
    return row.group == "allium"


def is_starchy(row: Material) -> bool:
    return row.group in ("cooked", "meal")


def is_dry_grain(row: Material) -> bool:
    return row.group == "meal" or (row.group == "cooked" and (row.moisture or 1.0) < DRY_FOOD)


def is_left_out(row: Material) -> bool:
    return row.guidance == "avoid"


def is_tough(row: Material) -> bool:
    return row.breakdown in ("slow", "very slow")


def heats(row: Material) -> bool:
    return row.group in ("meal", "manure") or "heats" in row.reason


def is_protein(row: Material) -> bool:
    if row.n is None or row.moisture is None:
        return False
    return row.n * (1 - row.moisture) * PROTEIN_OF_NITROGEN >= PROTEIN_RICH


def _evidence(code: str, share: Share, source: Source) -> Evidence:
    return Evidence(code, share, Check.FEEDINGS, source)


MUCH_CITRUS = _evidence("much-citrus", Share("citrus", is_citrus, 0.10, 0.02), LIMONENE)
MUCH_ALLIUM = _evidence("much-onion", Share("onion, garlic or leek", is_allium, 0.10, 0.02), PRACTICE)
MUCH_STARCH = _evidence("much-starch", Share("cooked food, bread or meal", is_starchy, 0.20, 0.05), TRADE)
MUCH_PROTEIN = _evidence("much-protein", Share("rich in protein", is_protein, 0.20, 0.05), TRADE)
MUCH_TOUGH = _evidence("much-tough", Share("tough or slow to go", is_tough, 0.30, 0.10), CHOPPED)
LEFT_OUT_FED = _evidence(
    "left-out-fed", Share("meat, dairy, fat or salty food", is_left_out, 0.0, 0.0), OREGON
)
GRAIN_FED = _evidence("grain-fed", Share("dry meal or grain", is_dry_grain, 0.0, 0.0), GRAIN_SHEET)
HEATING_FED = _evidence("heating-fed", Share("of a kind that heats, such as meal", heats, 0.10, 0.0), LEAFLET)

GRIT_FOR_DAYS = 56.0
"""How long grit counts: about one turn. Our choice."""


def no_grit(case: Case) -> Found:
    """Ground shell keeps a bin from souring: whether any was given lately."""
    if not case.meals:
        return unknown(f"No feeding of {case.who} is written down.")
    meals = case.lately(GRIT_FOR_DAYS)
    given = sum(meal.grit_kg or 0.0 for meal in meals) + sum(
        kg for meal in meals for name, kg in meal.items_kg.items() if _is_grit(name, case)
    )
    weeks = f"{GRIT_FOR_DAYS / 7:.0f} weeks"
    words = f"Grit was given in the last {weeks}." if given else f"No grit was given in the last {weeks}."
    return judged(words, is_for=not given, is_against=bool(given))


def _is_grit(name: str, case: Case) -> bool:
    row = case.pantry.meant(name)
    return row is not None and row.group == "mineral"


NO_GRIT = Evidence("no-grit", no_grit, Check.FEEDINGS, RECYCLEWORKS)
