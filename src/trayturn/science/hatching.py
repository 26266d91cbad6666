"""When cocoons hatch, by species and temperature.

For Eisenia fetida the database's 25 days at 20 C, the 23 to 24 days of Sylhet and the three weeks at 25 C of
Neuhauser, Hartenstein & Kaplan 1980 agree. A table after Edwards & Bohlen 1996 says 32 to 73 days at a
temperature that is not named, and is left out.
"""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.science.errors import OutOfRange
from trayturn.science.temperature import correction_band

SPREAD = 4.69 / 24
"""The standard deviation of the incubation as a share of its mean: 24 +- 4.69 days (Eurasian Journal of Soil
Science 14(2), 2025); taken to hold for the other species."""
LATE = 1.645
"""Standard deviations by which 95 % have hatched, were the times normal."""


@dataclass(frozen=True, slots=True)
class Species:
    """Incubation in days at a temperature, low and high as published; what share hatches, and into how many.

    None where no figure was read.
    """

    days: tuple[float, float]
    at_c: float
    share: tuple[float, float] | None
    each: tuple[float, float] | None
    coldest: float
    warmest: float
    source: str


KNOWN = {
    "eisenia_fetida": Species(
        (23.0, 25.0),
        20.0,
        (0.825, 0.875),
        (2.4, 3.3),
        3.0,
        35.0,
        "DEB data file of Eisenia fetida (25 days at 20 C); Eurasian J. Soil Sci. 2025; Ali & Kashem 2018",
    ),
    "dendrobaena_veneta": Species(
        (21.0, 50.0),
        20.0,
        (0.20, 0.20),
        (1.1, 1.1),
        3.0,
        32.0,
        "Viljoen, Reinecke & Hartman 1991 (42 days at 25 C, few hatch); "
        "Viljoen 1992 (71 at 15 C); Kovacevic 2023 (21 at 20 C): they disagree; "
        "50 is the 42 days brought to 20 C by the gentler correction",
    ),
    "eudrilus_eugeniae": Species(
        (13.0, 27.0),
        25.0,
        None,
        None,
        9.0,
        30.0,
        "a table after Edwards & Bohlen 1996 that does not name the temperature: 25 C is assumed",
    ),
    "perionyx_excavatus": Species(
        (18.7, 20.4),
        25.0,
        (0.404, 0.634),
        (1.0, 1.0),
        9.0,
        30.0,
        "Hallatt, Reinecke & Viljoen 1990",
    ),
}
SAME = {"eisenia_andrei": "eisenia_fetida", "mixed": "eisenia_fetida"}
"""Species reckoned as another: Edwards & Bohlen's table gives fetida and andrei as one."""


@dataclass(frozen=True, slots=True)
class Hatch:
    """Days until half and 95 % of the cocoons that hatch at all have, as bands; and the share that does."""

    half: tuple[float, float]
    most: tuple[float, float]
    share: tuple[float, float] | None
    each: tuple[float, float] | None
    why: str


def hatch(celsius: float, species: str = "eisenia_fetida") -> Hatch | None:
    """When cocoons laid today hatch at a temperature; None where they do not. Raises `OutOfRange`.

    The band holds what is published at one temperature, scaled by both corrections of `temperature`.
    """
    name = SAME.get(species, species)
    if name not in KNOWN:
        raise OutOfRange(
            f"{species!r} is not a species that is known here; use one of {', '.join((*KNOWN, *SAME))}."
        )
    known = KNOWN[name]
    slow, quick = correction_band(celsius, known.at_c)
    if slow == 0 or not known.coldest <= celsius <= known.warmest:
        return None
    half = known.days[0] / quick, known.days[1] / slow
    most = half[0] * (1 + LATE * SPREAD), half[1] * (1 + LATE * SPREAD)
    why = (
        f"Published: {known.days[0]:g} to {known.days[1]:g} days at {known.at_c:g} C ({known.source}). "
        f"Scaled to {round(celsius, 1):g} C by two published corrections for Eisenia fetida that disagree; "
        "95 % from the spread of 20 % measured in Sylhet."
    )
    return Hatch(half, most, known.share, known.each, why)
