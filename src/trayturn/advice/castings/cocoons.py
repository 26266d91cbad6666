"""How many cocoons a lot of castings is likely to hold, and how many young come of them."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.bands import Band
from trayturn.domain.entries import Outcome
from trayturn.domain.lots import Lot
from trayturn.domain.stack import Stack, days_between
from trayturn.domain.units import show_temperature
from trayturn.science.hatching import Hatch, hatch
from trayturn.science.laying import UNKNOWN, unhatched
from trayturn.science.spread import product

SHARE_IN_TRAY = Band(0.05, 0.10, 0.20)
"""The share of a bin's worms that still lays in a finishing tray. Our choice."""
WORMS_MAY_BE = Band(0.7, 1.0, 2.0)
"""What the worms may weigh, against what was written down of them by then. Our choice."""
WORMS_KG_M2 = Band(0.8, 1.6, 2.9)
"""Worms over a tray's floor where none were written down: 1.6 kg/m2 was best in a trial (Ndegwa et al. 2000);
the ends are our choice."""
ROOM_C = 20.0
"""The temperature reckoned with where none was read. Our choice."""
UNKNOWN_D = 365.0
"""How long worms laid into a tray whose beginning is not known: longer than a cocoon takes."""
OWN_D = 2.0
"""A tray put back so few days before a lot was begun is the one that gave it. Our choice."""


@dataclass(frozen=True, slots=True)
class Expected:
    """Cocoons not yet hatched when the castings were taken, and the young that come of them in all.

    `young` is None where no share of hatching was published for the species. `basis` says what it rests on.
    """

    cocoons: Band
    young: Band | None
    basis: str


def warmth(stack: Stack) -> float:
    """The temperature a tub is reckoned at: the bin's last reading, or an ordinary room."""
    return ROOM_C if stack.temperature_c is None else stack.temperature_c


def hatching_times(stack: Stack) -> Hatch | None:
    """When cocoons hatch at this bin's warmth; None where none do."""
    return hatch(warmth(stack), stack.setup.species)


def expected(lot: Lot, stack: Stack) -> Expected | None:
    """What was laid in its tray since that was filled, and had not hatched when the castings were taken.

    Reckoned as the bin stood then, so that what is done later changes nothing. None where nothing can be
    said; `not_told` says why.
    """
    if lot.tray is None:
        return None
    species, celsius = stack.setup.species, ROOM_C if lot.temperature_c is None else lot.temperature_c
    per_kg = unhatched(celsius, laid_for(lot, stack), species)
    if per_kg is None or per_kg[0] <= 0:
        return None
    worms, rests_on = _worms(lot, stack)
    cocoons, times = Band(*product(worms, SHARE_IN_TRAY, per_kg)), hatch(celsius, species)
    assumed = " assumed" if lot.temperature_c is None else ""
    warm = f"{show_temperature(celsius, stack.setup.units)}{assumed}"
    basis = f"{rests_on}, published laying and hatching at {warm}, our share of worms in such a tray"
    return Expected(cocoons, _young(cocoons, times), basis)


def _young(cocoons: Band, times: Hatch | None) -> Band | None:
    if times is None or times.share is None or times.each is None:
        return None
    low, high = (share * each for share, each in zip(times.share, times.each, strict=True))
    return Band(*product(cocoons, (low, (low + high) / 2, high)))


def not_told(lot: Lot, stack: Stack) -> str:
    """Why no cocoons can be reckoned for a lot, in one sentence; empty where they can."""
    if expected(lot, stack) is not None:
        return ""
    if lot.tray is None:
        return "How many cocoons are in it is not reckoned: it came out of no tray of this bin."
    if (missing := UNKNOWN.get(stack.setup.species)) is not None:
        return f"How many cocoons are in it is not reckoned: no source was found for {missing}."
    if laid_for(lot, stack) <= 0:
        return "No cocoons are to be expected: its tray had only just been filled."
    return "No cocoons are to be expected: by what is published none hatch at the temperature the bin had."


def laid_for(lot: Lot, stack: Stack) -> float:
    """Days in which worms laid into what became that lot: since its tray was filled, or put back skimmed."""
    filled = [
        *(life.started_at for life in stack.lives if life.tray == lot.tray),
        *(tray.started_at for tray in (*stack.trays, *stack.off_stack) if tray.id == lot.tray),
    ]
    skimmed = [
        one.ended_at
        for one in stack.past_separations
        if one.tray == lot.tray and one.passes and one.outcome is not Outcome.FINISHED
        if one.ended_at is not None and days_between(one.ended_at, lot.begun_at) > OWN_D
    ]
    since = max((at for at in (*filled, *skimmed) if at <= lot.begun_at), default=None)
    return UNKNOWN_D if since is None else days_between(since, lot.begun_at)


def _worms(lot: Lot, stack: Stack) -> tuple[Band, str]:
    """The bin's worms when the lot was begun, kg: what was written down, or by its floor."""
    if lot.worms_kg:
        return WORMS_MAY_BE.times(lot.worms_kg), "the worms written down by then"
    return WORMS_KG_M2.times(stack.setup.tray_area_m2), "rule of thumb: worms by the floor of a tray"


def recovered(lot: Lot) -> int:
    """Hatchlings counted out of it so far."""
    return sum(one.counted or 0 for one in lot.hatchlings)


def share_recovered(lot: Lot, stack: Stack) -> tuple[float, float] | None:
    """Which part of the young to be expected was lifted out, 0 to 1, low and high; None where not known.

    More than was expected counts as all of it.
    """
    found = expected(lot, stack)
    if found is None or found.young is None or not recovered(lot):
        return None
    return min(recovered(lot) / found.young.high, 1.0), min(recovered(lot) / found.young.low, 1.0)
