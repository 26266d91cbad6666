"""Published tables of worm bin troubles: what they name is what the finder names, first or second."""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from tests.advice.trouble.cases import FED, a_case, checked, ranked
from tests.builders import fed
from trayturn.domain.entries import Entry

OREGON = "Oregon Metro, worm bin trouble-shooting"
RECYCLEWORKS = "RecycleWorks (San Mateo County), worm troubleshooting table"
NC_MITES = "NC State Extension, Sherman & Bambara, controlling mite pests in earthworm beds"
EULESS = "City of Euless, Texas, vermicomposting troubleshooting"
EDWARDS = "Earthworm Ecology 2004, table 18.3, after Edwards 1988"
SREENIVASAN = "Sreenivasan, Handbook of Vermicomposting, common problems"
KAPLAN = "Kaplan et al. 1980: deadly below pH 5, and above 0.5 % of salts (abstract)"
HAMBURG = "TU Hamburg course page after Edwards 1995: fast at 15 to 25 C"
CHOPPED = "Hood College thesis 2022: chopped food breaks down faster (abstract)"
EPA = "US EPA: dairy, fats and meat draw rodents and flies"
GRAIN = "grain-mite fact sheet: no dry grain, lower humidity"
TRADE = "trade only"


@dataclass(frozen=True)
class Case:
    """Signs (and perhaps what the journal holds), and the causes that the source names for them."""

    source: str
    signs: tuple[str, ...]
    causes: tuple[str, ...]
    journal: tuple[Entry, ...] = ()


TEXTBOOK = (
    Case(OREGON, ("smell-rotten",), ("overfed",)),
    Case(OREGON, ("smell-rotten", "sump-full"), ("too-wet",)),
    Case(OREGON, ("smell-rotten", "matted"), ("little-air",)),
    Case(OREGON, ("smell-rotten",), ("rich-food",), (FED, fed("A", 36, {"meat": 0.2, "cabbage": 0.3}))),
    Case(OREGON, ("dead", "heating"), ("too-hot",)),
    Case(OREGON, ("dead", "chilled"), ("too-cold",)),
    Case(OREGON, ("fruit-flies", "bedding-gone"), ("bedding-out",)),
    Case(RECYCLEWORKS, ("smell-rotten", "mould"), ("overfed", "exposed-food")),
    Case(RECYCLEWORKS, ("dead",), ("too-acid",)),
    Case(RECYCLEWORKS, ("leaving",), ("too-dry", "too-wet")),
    Case(RECYCLEWORKS, ("leaving",), ("too-dry",), (FED, checked(feel="dry"))),
    Case(RECYCLEWORKS, ("leaving",), ("too-wet",), (FED, checked(feel="wet"))),
    Case(RECYCLEWORKS, ("fruit-flies",), ("exposed-food",)),
    Case(RECYCLEWORKS, ("ants",), ("from-outside",)),
    Case(NC_MITES, ("white-mites",), ("too-wet", "overfed")),
    Case(NC_MITES, ("red-mites",), ("too-wet", "overfed")),
    Case(NC_MITES, ("white-mites",), ("too-acid",), (FED, checked(ph=4.8))),
    Case(EULESS, ("drips",), ("too-wet", "bedding-out")),
    Case(EDWARDS, ("smell-ammonia",), ("much-nitrogen",)),
    Case(KAPLAN, ("dead",), ("too-acid",), (FED, checked(ph=4.5))),
    Case(KAPLAN, ("dead",), ("salty",), (FED, fed("A", 36, {"pickles": 0.5}))),
    Case(SREENIVASAN, ("sluggish", "heating"), ("too-hot",)),
    Case(SREENIVASAN, ("matted",), ("little-air",)),
    Case(HAMBURG, ("uneaten",), ("too-cold",), (FED, checked(temperature_c=7))),
    Case(CHOPPED, ("uneaten",), ("big-pieces",), (FED, fed("A", 36, {"corn cob": 0.6}))),
    Case(EPA, ("mice",), ("rich-food",)),
    Case(GRAIN, ("grain-mites",), ("dry-grain",)),
    Case(TRADE, ("beaded",), ("protein",)),
    Case(TRADE, ("pot-worms",), ("too-acid", "too-wet")),
    Case(TRADE, ("soldier-fly-larvae",), ("exposed-food", "rich-food")),
    Case(TRADE, ("springtails",), ("too-wet",)),
)


@pytest.mark.parametrize("case", TEXTBOOK, ids=lambda case: f"{' + '.join(case.signs)}: {case.causes[0]}")
def test_the_published_cause_is_among_the_first_two(case: Case) -> None:
    first_two = [one.cause.code for one in ranked(a_case(*case.journal), *case.signs)][:2]
    assert set(case.causes) <= set(first_two), case.source
