"""What a worm weighs, by species: so that worms counted become a weight, and worms weighed a number.

Only published figures, as a band from the smallest mean to the largest. Where they do not fit together there
is none.
"""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.science.errors import OutOfRange, within


@dataclass(frozen=True, slots=True)
class Body:
    """The mean mass of a worm in a bin, grams, as a band; and who published its ends."""

    grams: tuple[float, float]
    source: str

    @property
    def middle_g(self) -> float:
        """The one figure to write a number down by."""
        return sum(self.grams) / 2


KNOWN = {
    "eisenia_fetida": Body(
        (0.25, 0.55),
        "0.25 g at maturity (Johnston et al. 2014) to 0.55 g grown (Edwards & Bohlen's table); the mean of a "
        "population on kitchen waste was 0.48 g (Podolak et al. 2020)",
    ),
    "dendrobaena_veneta": Body(
        (0.91, 2.2),
        "0.91 g was the mean of a population on kitchen waste (Podolak et al. 2020), and 2.2 g the mean "
        "at 200 days and 25 C (Viljoen 1992)",
    ),
}
SAME = {"eisenia_andrei": "eisenia_fetida"}
"""Reckoned as another: Edwards & Bohlen's table gives fetida and andrei as one."""
UNSURE = {
    "eudrilus_eugeniae": "Published masses of Eudrilus eugeniae run from 0.70 g (Eurasian J. Soil Sci. 2025) "
    "to 4.3 g (Edwards & Bohlen's table), too far apart to reckon by.",
    "perionyx_excavatus": "One figure was found for Perionyx excavatus, 1.3 g grown (Edwards & Bohlen's "
    "table), and none for a bin's mean.",
    "mixed": "No figure was found for mixed worms.",
}
"""Species without a band, and why."""


def body_of(species: str) -> Body | None:
    """The mean mass of a worm of that species; None where it is not known. Raises `OutOfRange`."""
    if species in UNSURE:
        return None
    found = KNOWN.get(SAME.get(species, species))
    if found is None:
        named = ", ".join((*KNOWN, *SAME, *UNSURE))
        raise OutOfRange(f"{species!r} is not a species that is known here; use one of {named}.")
    return found


def number_in(worms_kg: float, species: str) -> tuple[float, float] | None:
    """How many worms weigh so much, as a band; None where their mean mass is not known."""
    grams = 1000 * within(worms_kg, "The mass of worms", 0, 1000, "kg")
    body = body_of(species)
    return None if body is None else (grams / body.grams[1], grams / body.grams[0])


def mass_of(number: float, species: str) -> tuple[float, float] | None:
    """What so many worms weigh, kg, as a band; None where their mean mass is not known."""
    within(number, "The number of worms", 0, 1e9)
    body = body_of(species)
    return None if body is None else (number * body.grams[0] / 1000, number * body.grams[1] / 1000)
