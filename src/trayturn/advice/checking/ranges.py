"""What is published of each reading: where it is best, and its limits, with the source and how sure it is.

Only what was read in a source stands here. Where species differ and a figure was read, it is the species'
own; otherwise the figures of Eisenia fetida stand in, and that is said.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import IntEnum

from trayturn.advice.checking.kinds import Kind
from trayturn.domain.setup import SPECIES, BinSetup, Units
from trayturn.domain.units import show_temperature
from trayturn.science.limits import DRIEST, WETTEST
from trayturn.science.temperature import COLDEST, WARMEST

EDWARDS = "Edwards 1988, in Earthworm Ecology, 2nd ed. 2004, table 18.3"
KAPLAN = "Kaplan et al. 1980"
SOLOMON = "Solomon 1993"
GOAL_PCT = 75.0
"""What a tray is brought to: about 75 % in a household box (Solomon, Organic Gardener's Composting, 1993)."""
NEARLY_DRY, HALF_FULL = 0.1, 0.5
"""Shares of the sump's capacity: nearly dry, and to be emptied. Common practice, no source."""
SHOWN_C = (0.0, 40.0)
"""The ends of the scale that warmth is drawn on."""
LIKE_FETIDA = frozenset({"eisenia_fetida", "eisenia_andrei", "mixed"})


@dataclass(frozen=True, slots=True)
class Range:
    """One reading's published range, in the reading's own unit.

    Within `limits` worms live, `best` is the published optimum; within `easy` nothing needs to be done, which
    may be wider. `shown` are the ends of its scale. `strict` limits are outside already. `lines` tell the
    figures and their sources.
    """

    best: tuple[float, float]
    easy: tuple[float, float]
    limits: tuple[float, float]
    shown: tuple[float, float]
    lines: tuple[str, ...]
    strict: bool = False


class Standing(IntEnum):
    """Where a number stands against a range, from below its limits to above them."""

    BELOW = -2
    LOW = -1
    FINE = 0
    HIGH = 1
    ABOVE = 2


MOISTURE = Range(
    (70.0, 85.0),
    (70.0, 85.0),
    (100 * DRIEST, 100 * WETTEST),
    (40.0, 100.0),
    (
        f"Limits 60 to 90 % of the fresh mass ({EDWARDS}).",
        f"Best 70 to 85 %, by weight gain ({KAPLAN}); Edwards says 80 to 90 %.",
        f"About 75 % in a household box ({SOLOMON}).",
    ),
)
PH = Range(
    (6.5, 7.5),
    (6.0, 8.0),
    (5.0, 9.0),
    (3.0, 11.0),
    (
        f"Limits above 5 and below 9 ({EDWARDS}); outside them all died within a week ({KAPLAN}).",
        f"About 7 is best ({KAPLAN}); 6.5 to 7.5 for quick work (TU Hamburg, after Edwards 1995).",
        "That 6 to 8 needs nothing done is our choice.",
    ),
    strict=True,
)


def range_of(kind: Kind, setup: BinSetup) -> Range | None:
    """The range of a kind of reading in this bin; None for readings that are no numbers."""
    if kind is Kind.MOISTURE:
        return _as_of_fetida(MOISTURE, setup)
    if kind is Kind.PH:
        return _as_of_fetida(PH, setup)
    if kind is Kind.TEMPERATURE:
        return _warmth(setup.species, setup.units)
    return _sump(setup.sump_capacity_l) if kind is Kind.SUMP else None


def _as_of_fetida(known: Range, setup: BinSetup) -> Range:
    if setup.species in LIKE_FETIDA:
        return known
    note = f"Measured on Eisenia fetida; no figure of {SPECIES[setup.species]} was found."
    return replace(known, lines=(*known.lines, note))


def _warmth(species: str, units: Units) -> Range:
    """The published warmth of a species, its figures in the keeper's degrees."""

    def to(low: float, high: float) -> str:
        return f"{show_temperature(low, units).split()[0]} to {show_temperature(high, units)}"

    if species in LIKE_FETIDA:
        lines = (
            f"Best {to(15, 20)}, limits {to(COLDEST, WARMEST)} ({EDWARDS}).",
            f"Weight gain is best at {to(20, 29)} ({KAPLAN}).",
        )
        return Range((15.0, 20.0), (15.0, 29.0), (COLDEST, WARMEST), SHOWN_C, lines)
    if species == "dendrobaena_veneta":
        lines = (
            f"Best {to(15, 25)} (Domínguez, in Earthworm Ecology, 2nd ed. 2004).",
            f"Limits {to(3, 32)}: an agriculture portal, no study named.",
        )
        return Range((15.0, 25.0), (15.0, 25.0), (3.0, 32.0), SHOWN_C, lines)
    lines = (
        f"Best about {show_temperature(25, units)}, limits {to(9, 30)}: an agriculture portal, no study"
        " named.",
        f"That {to(20, 29)} needs nothing done is our choice.",
    )
    return Range((25.0, 25.0), (20.0, 29.0), (9.0, 30.0), SHOWN_C, lines)


def _sump(capacity_l: float) -> Range:
    nearly_dry = (0.0, NEARLY_DRY * capacity_l)
    lines = (
        "Nearly dry up to a tenth of its capacity, to be emptied from half: common practice, no source.",
        "A dry bedding tray at the bottom keeps it so: common practice, no source.",
    )
    return Range(nearly_dry, nearly_dry, (0.0, HALF_FULL * capacity_l), (0.0, capacity_l), lines)


def stands(number: float, known: Range) -> Standing:
    """Where a number stands."""
    least, most = known.limits
    if number < least or (known.strict and number == least):
        return Standing.BELOW
    if number > most or (known.strict and number == most):
        return Standing.ABOVE
    low, high = known.easy
    return Standing.LOW if number < low else Standing.HIGH if number > high else Standing.FINE
