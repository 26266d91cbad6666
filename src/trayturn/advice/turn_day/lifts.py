"""Each lift of a turn day: what the tray weighs, from where to where, and whether that is too much."""

from __future__ import annotations

import math
from dataclasses import dataclass

from trayturn.advice.bands import Band, exactly, mass_band
from trayturn.advice.contents import tray_contents
from trayturn.advice.pantry import Pantry
from trayturn.advice.turn_day.moving import ELSEWHERE, STACK, Lift, Moving, spot_words
from trayturn.domain.setup import BinSetup
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.units import show_length
from trayturn.science import lifting

BASE_M = 0.20
"""How high the lowest tray stands over the floor, on its sump and legs. Our choice."""
PLACE_M = 0.75
"""How high a place beside the bin is: a table, where lifting is easiest. Our choice."""
BODY_CM = 20.0
"""From the ankles to the near side of what is held (NIOSH 94-110: H = 20 + W/2 cm; from memory)."""
WATER_KG = 1.5
"""What a fresh tray's bedding takes up of water per kg before it is put in. Our choice."""


@dataclass(frozen=True, slots=True)
class LiftTold:
    """A lift as a keeper needs it. Heights in metres are those of the hands.

    `index` is the lifting index of the worse end at the heavy end of the weight; `basis` says what the
    weight rests on.
    """

    lift: Lift
    kg: Band
    basis: str
    from_m: float
    to_m: float
    index: float

    @property
    def heavy(self) -> bool:
        """Whether it is above the recommended limit."""
        return self.index > 1


def lifts_told(stack: Stack, moving: Moving, pantry: Pantry) -> tuple[LiftTold, ...]:
    """Every lift with its weight, heights and index."""
    told = []
    for number, lift in enumerate(moving.lifts):
        spots = moving.spots(number)
        kg, basis = tray_kg(stack, lift.tray, pantry)
        source = _height(lift.source, len(spots.stack) - 1, spots.places, stack.setup, taking=True)
        target = _height(lift.target, len(spots.stack) - (lift.source == STACK), spots.places, stack.setup)
        index = lifting_index(kg.high, source, target, stack.setup)
        told.append(LiftTold(lift, kg, basis, source, target, index))
    return tuple(told)


def tray_kg(stack: Stack, tray_id: str, pantry: Pantry) -> tuple[Band, str]:
    """What a tray weighs with all that is in it, kg: weighed since it was last fed, or as reckoned."""
    tray = stack.tray(tray_id)
    if tray is None or not tray.on_stack:
        empty = tray.empty_kg if tray is not None else stack.setup.tray_empty_kg
        return exactly(empty).plus(Band(0.5, 1.0, 1.0 + WATER_KG)), "fresh bedding, reckoned"
    contents = tray_contents(tray, stack, pantry).wet_kg
    basis = "weighed" if _weighed(tray) else "reckoned from what went in"
    return exactly(tray.empty_kg).plus(contents), basis


def _weighed(tray: TrayState) -> bool:
    if tray.gross_kg is None or tray.weighed_at is None:
        return False
    return tray.last_fed_at is None or tray.last_fed_at <= tray.weighed_at


def _height(
    spot: str | int, below: int, places: tuple[tuple[str, ...], ...], setup: BinSetup, *, taking: bool = False
) -> float:
    """The height of the hands at a spot, metres: they hold a tray at the middle of its depth."""
    depth = setup.tray_depth_m
    if spot == STACK:
        return BASE_M + (below + 0.5) * depth
    if spot == ELSEWHERE:
        return PLACE_M + 0.5 * depth
    pile = len(places[int(spot) - 1]) - taking
    return PLACE_M + (pile + 0.5) * depth


def lifting_index(kg: float, from_m: float, to_m: float, setup: BinSetup) -> float:
    """The lifting index of the worse end, by the revised NIOSH equation: one lift a minute, up to an hour.

    Beyond what the equation holds for it is infinite.
    """
    reach = BODY_CM + 100 * math.sqrt(setup.tray_area_m2) / 2
    ends = lifting.lift(kg, reach, 100 * max(0.0, from_m), 100 * max(0.0, to_m), per_minute=1.0)
    return max(end.li for end in ends)


def index_words(index: float) -> str:
    """The index as it is said, with what it means."""
    if index <= 1:
        return f"lifting index {index:.1f}, within the recommended limit"
    if math.isinf(index):
        return "beyond the reach that the lifting equation holds for: ask for help"
    if index <= 3:
        return f"lifting index {index:.1f}, above the recommended limit: take some out, or lift it with two"
    return f"lifting index {index:.1f}, far above the limit: do not lift it like this"


def lift_line(told: LiftTold, stack: Stack, places: int, number: int | None = None) -> str:
    """One lift in a line: `1. Tray D, 4 to 5.5 kg, from the stack to place 1 beside it, …`."""
    units = stack.setup.units
    lift = told.lift
    where = f"from {spot_words(lift.source, places)} to {spot_words(lift.target, places)}"
    heights = f"{show_length(told.from_m, units)} to {show_length(told.to_m, units)} high"
    first = f"{number}. " if number else ""
    what = f"{first}Tray {lift.tray}, {mass_band(told.kg, units)}"
    return f"{what}, {where}, {heights}; {index_words(told.index)}."
