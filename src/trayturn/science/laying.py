"""How many cocoons worms lay, by their mass, species and temperature; and how many are not hatched yet.

A worm alone with plenty of food lays about three times as much as one in a crowded bin: the band spans that.
Where no mass fits the published number of cocoons a worm, there is no figure by mass.
"""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.science.errors import OutOfRange, within
from trayturn.science.hatching import KNOWN as INCUBATION
from trayturn.science.hatching import SAME
from trayturn.science.population import cohort
from trayturn.science.process.rate_table import RATES
from trayturn.science.temperature import COOKED, FROZEN, energy_budget, johnston

_LAID = next(rate for rate in RATES if rate.name == "laid")
CROWDED = _LAID.spread**-2, 1 / _LAID.spread
"""What a crowded bin lays of what worms lay with room: at the least, and in the middle. As derived for
Eisenia fetida; that it holds for other species is our choice."""
REFERENCE_C = 20.0
Ends = tuple[float, float, float]
"""Low, middle and high."""


@dataclass(frozen=True, slots=True)
class Laying:
    """Cocoons a kg of worms lays in a day at 20 C: in a crowded bin, in the middle, with room and food."""

    low: float
    middle: float
    high: float
    source: str


def _with_room(high: float, source: str) -> Laying:
    return Laying(high * CROWDED[0], high * CROWDED[1], high, source)


KNOWN = {
    "eisenia_fetida": _with_room(_LAID.median * _LAID.spread, f"derived: {_LAID.why}"),
    "dendrobaena_veneta": _with_room(
        0.68 / 2.76 * 1000,
        "derived: 0.68 cocoons a day by worms of 2.76 g at 20 C (Fayolle et al. 1997, on paper sludge, at "
        "second hand); what crowding leaves of it is taken from Eisenia fetida",
    ),
}
UNKNOWN = {
    "eudrilus_eugeniae": "how much a kg of Eudrilus eugeniae lays: published masses run from 0.70 to 4.3 g a "
    "worm",
    "perionyx_excavatus": "how much a kg of Perionyx excavatus lays: no mean mass of a bin's worms was found",
}
"""Species without a figure by mass, and why."""


def laying_of(species: str) -> Laying | None:
    """What a kg of that species lays; None where that is not known. Raises `OutOfRange`."""
    if species in UNKNOWN:
        return None
    found = KNOWN.get(SAME.get(species, species))
    if found is None:
        named = ", ".join((*KNOWN, *SAME, *UNKNOWN))
        raise OutOfRange(f"{species!r} is not a species that is known here; use one of {named}.")
    return found


def unhatched(celsius: float, days: float, species: str = "eisenia_fetida") -> Ends | None:
    """Cocoons not yet hatched of those a kg of worms laid in so many days; None where not known.

    Laying and hatching go at one pace: both published corrections for warmth are tried, each for the two
    together. None, too, outside the temperatures at which cocoons hatch. Raises `OutOfRange` for a species,
    a temperature or days that cannot be.
    """
    laying, incubation = laying_of(species), INCUBATION[SAME.get(species, species)]
    paces = _paces(celsius, incubation.at_c)
    if laying is None or not paces or not incubation.coldest <= celsius <= incubation.warmest:
        return None

    def left(per_kg: float, incubates: float) -> list[float]:
        return [cohort(1.0, per_kg * laid, incubates / hatched, 1.0, 1.0, days)[0] for laid, hatched in paces]

    short, long = incubation.days
    middle = left(laying.middle, (short + long) / 2)
    return min(left(laying.low, short)), sum(middle) / len(middle), max(left(laying.high, long))


def _paces(celsius: float, hatched_at: float) -> list[tuple[float, float]]:
    """How fast worms lay and cocoons hatch, by each correction; none where neither lives."""
    if not FROZEN < within(celsius, "The temperature", -40, 80, "C") < COOKED:
        return []
    rules = (johnston, energy_budget)
    return [(rule(celsius) / rule(REFERENCE_C), rule(celsius) / rule(hatched_at)) for rule in rules]
