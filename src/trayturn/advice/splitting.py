"""Splitting a bin: how much to move, how both stand after it, and how both are fed then."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.amounts import density, number_band
from trayturn.advice.bands import Band, mass_band
from trayturn.advice.phrases import every
from trayturn.domain.setup import SPECIES, BinSetup, Units
from trayturn.domain.stack import Stack
from trayturn.domain.units import round_mass, show_mass
from trayturn.domain.words import clean
from trayturn.science.bodies import UNSURE, body_of, mass_of, number_in
from trayturn.science.ration import REFERENCE_C, STOCKING_KG_M2, ration, stocking

HALF = "Half by weight or so is common practice, no source."
ALONG = (
    "Take the bedding they sit in along: cocoons and young are in it, and the worms know it. Common "
    "practice, no source."
)
BALANCE = (
    "Worms are told by what was put in and taken out, not by what has grown since: weigh them where you can."
)

FAR_OVER = 3.0
"""So many times the published best on all trays at once are more worms than we believe. Our choice."""
ROUNDING = 0.01
"""So much more than is known may come of rounding in the keeper's units."""


@dataclass(frozen=True, slots=True)
class Side:
    """One of the two bins once it is done. Worms in kg, density in kg a square metre of one tray.

    `times` is the density against the published best, `meal_kg` what its worms take until the next feeding.
    """

    name: str
    worms_kg: float
    density: float
    times: float
    meal_kg: Band


@dataclass(frozen=True, slots=True)
class SplitAdvice:
    """What moving so many worms comes to. `one` keeps the rest; None where it is not known what it has."""

    worms_kg: float
    number: tuple[float, float] | None
    one: Side | None
    other: Side
    lines: tuple[str, ...]


def half_of(stack: Stack) -> float | None:
    """Half of the worms written down, kg, as a keeper would weigh them out; None where none are."""
    return round_mass(stack.worms_kg / 2, stack.setup.units) if stack.worms_kg else None


def worms_remark(stack: Stack, worms_kg: float, *, into: bool = False) -> str:
    """What is odd about so many worms, kg, taken out of a bin or put `into` it; empty where nothing is.

    Worms grow, so that more than was written down can be there: it is said, and not refused.
    """
    units, known = stack.setup.units, stack.worms_kg
    if not into and known is not None and worms_kg > known * (1 + ROUNDING):
        held = show_mass(known, units)
        return f"That is more than the {held} this bin is known to hold. Look at it again."
    most = STOCKING_KG_M2 * stack.setup.tray_area_m2 * max(1, len(stack.listed_trays))
    if worms_kg > FAR_OVER * most:
        times = f"{worms_kg / most:,.0f} times"
        return f"That is {times} what all trays of this bin hold at the published best. Look at it again."
    return ""


def weight_of(number: int, species: str) -> Band | None:
    """What so many worms weigh, kg; None where their mean mass is not known."""
    found = mass_of(number, species)
    return None if found is None else Band(found[0], sum(found) / 2, found[1])


def why_no_weight(species: str) -> str:
    """Why a number of this species cannot be turned into a weight."""
    return f"{UNSURE[species]} Weigh them."


def split_advice(
    stack: Stack, other: Stack | None, name: str, worms_kg: float, counted: int | None = None
) -> SplitAdvice:
    """What moving so many worms from this bin to another comes to. `other` is None for one still to be made.

    Raises `OutOfRange` for a mass that no bin holds.
    """
    left = None if stack.worms_kg is None else max(0.0, stack.worms_kg - worms_kg)
    one = _side(stack.setup, stack.setup.name, left, stack.temperature_c) if left is not None else None
    setup = other.setup if other is not None else stack.setup
    before = (other.worms_kg or 0.0) if other is not None else 0.0
    warmth = other.temperature_c if other is not None else stack.temperature_c
    two = _side(setup, name, before + worms_kg, warmth)
    number = number_in(worms_kg, stack.setup.species)
    lines = (
        *_stand(one, two, stack.setup.units),
        *number_words(stack.setup, worms_kg, counted),
        *_meals(one, two, stack.setup, setup),
        *_mixed(stack.setup, setup),
        HALF,
        ALONG,
        _best(stack.setup.units),
        BALANCE,
    )
    return SplitAdvice(worms_kg, number, one, two, lines)


def _side(setup: BinSetup, name: str, worms_kg: float, celsius: float | None) -> Side:
    density, times = stocking(worms_kg, setup.tray_area_m2)
    low, high = (kg * setup.days_between_feedings for kg in ration(worms_kg, _warmth(celsius)).norm)
    return Side(name, worms_kg, density, times, Band(low, (low + high) / 2, high))


def _warmth(celsius: float | None) -> float:
    return REFERENCE_C if celsius is None else celsius


def _stand(one: Side | None, two: Side, units: Units) -> tuple[str, ...]:
    """How both stand after it, against the published best."""
    if one is None:
        return ("How many worms are left in it is not known: none are written down.", _has(two, units))
    return (_has(one, units), _has(two, units))


def side_words(side: Side, units: Units) -> str:
    """How one bin stands after it, in one short line."""
    if not side.worms_kg:
        return _none_left(side)
    return f"{_mass_of(side, units)}, {side.times:.1f} times the published best for a tray."


def _has(side: Side, units: Units) -> str:
    """The same with its density."""
    if not side.worms_kg:
        return _none_left(side)
    per = density(side.density, units)
    return f"{_mass_of(side, units)}: {per} of one tray, {side.times:.1f} times the published best."


def _mass_of(side: Side, units: Units) -> str:
    return f"{clean(side.name, 40)} then has {show_mass(side.worms_kg, units)}"


def _none_left(side: Side) -> str:
    return f"{clean(side.name, 40)} then has none written down."


def _best(units: Units) -> str:
    best = density(STOCKING_KG_M2, units)
    return f"The best of the densities tried was {best} (Ndegwa, Thompson & Das 2000, with biosolids)."


def number_words(setup: BinSetup, worms_kg: float, counted: int | None) -> tuple[str, ...]:
    """A weight told as a number, or a number as a weight; nothing where the species' mean is not known."""
    body = body_of(setup.species)
    if body is None:
        return () if counted is None else (why_no_weight(setup.species),)
    low, high = body.grams
    each = f"at {low:g} to {high:g} g each ({body.source})"
    if counted is None:
        number = number_band(number_in(worms_kg, setup.species) or (0.0, 0.0))
        return (f"{show_mass(worms_kg, setup.units)} is {number} worms, {each}.",)
    least, most = mass_of(counted, setup.species) or (0.0, 0.0)
    band = mass_band(Band(least, worms_kg, most), setup.units)
    middle = show_mass(worms_kg, setup.units)
    return (f"{counted:,} worms are {band}, {each}. {middle} is written down, the middle.",)


def _mixed(first: BinSetup, second: BinSetup) -> tuple[str, ...]:
    if first.species == second.species:
        return ()
    one, other = SPECIES[first.species], SPECIES[second.species]
    return (f"{clean(second.name, 40)} holds {other}; {one} would be mixed with them.",)


def _meals(one: Side | None, two: Side, first: BinSetup, second: BinSetup) -> tuple[str, ...]:
    told = [_meal(side, setup) for side, setup in ((one, first), (two, second)) if side is not None]
    return (f"Feed both by their worms, less than before: {'; '.join(told)}.",)


def _meal(side: Side, setup: BinSetup) -> str:
    """What a bin takes until its next feeding, by the household norm."""
    name, interval = clean(side.name, 40), every(setup.days_between_feedings)
    if side.meal_kg.high <= 0:
        return f"{name} nothing for now"
    return f"{name} {mass_band(side.meal_kg, setup.units)} {interval}"
