"""How many cocoons a lot of castings is likely to hold, and how many young come of them."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.bands import Band
from trayturn.domain.lots import Lot
from trayturn.domain.stack import Stack
from trayturn.science.hatching import Hatch, hatch

LAID_PER_KG_D = Band(200.0, 340.0, 590.0)
"""Cocoons that a kg of worms lays in a day at 20 C: 0.1 a day by worms of 0.5 g, as in a crowded home bin, to
0.386 by worms of 0.57 g at 25 C (Reinecke & Viljoen 1990); derived, the middle is ours."""
SHARE_IN_TRAY = Band(0.05, 0.10, 0.20)
"""The share of a bin's worms that still lays in a finishing tray. Our choice."""
WORMS_KG_M2 = Band(0.8, 1.6, 2.9)
"""Worms over a tray's floor where none were written down: 1.6 kg/m2 was best in a trial (Ndegwa et al. 2000);
the ends are our choice."""
ROOM_C = 20.0
"""The temperature reckoned with where none was read. Our choice."""


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
    """What is in a tub: what was laid in the tray in the time that a cocoon takes. None where none hatch."""
    times = hatching_times(stack)
    if times is None or lot.tray is None:
        return None
    worms, basis = _worms(stack)
    days = Band(times.half[0], sum(times.half) / 2, times.half[1])
    cocoons = Band(
        *(
            kg * share * laid * day
            for kg, share, laid, day in zip(worms, SHARE_IN_TRAY, LAID_PER_KG_D, days, strict=True)
        )
    )
    if times.share is None or times.each is None:
        return Expected(cocoons, None, basis)
    hatched = [share * each for share, each in zip(times.share, times.each, strict=True)]
    young = Band(cocoons.low * hatched[0], cocoons.mid * sum(hatched) / 2, cocoons.high * hatched[1])
    return Expected(cocoons, young, basis)


def _worms(stack: Stack) -> tuple[Band, str]:
    """The bin's worms, kg: what was put in, which may have grown or shrunk since; or by its floor."""
    if stack.worms_kg:
        kg = stack.worms_kg
        return Band(0.7 * kg, kg, 2.0 * kg), "the worms written down, published laying, our share of them"
    floor = WORMS_KG_M2.times(stack.setup.tray_area_m2)
    return floor, "rule of thumb: worms by the floor of a tray, published laying"


def recovered(lot: Lot) -> int:
    """Hatchlings counted out of it so far."""
    return sum(one.counted or 0 for one in lot.hatchlings)
