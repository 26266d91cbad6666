"""Each lift of a turn day: what the tray weighs, from where to where, and whether that is too much."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from trayturn.advice.bands import Band, exactly, mass_band
from trayturn.advice.contents import ASSUMED, tray_contents
from trayturn.advice.pantry import Pantry
from trayturn.advice.phrases import when
from trayturn.advice.stock.habits import a_tray, main_bedding
from trayturn.advice.turn_day.moving import ELSEWHERE, STACK, Lift, Moving, spot_words
from trayturn.domain.setup import BinSetup, Units
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.supplies import fold
from trayturn.domain.units import INCH_M
from trayturn.science import lifting

BASE_M = 0.20
"""How high the lowest tray stands over the bin's feet, on its sump. Our choice."""
PER_MINUTE = 1.0
"""Lifts a minute while trays are moved, which takes less than an hour. Our choice."""
HIGHEST_CM, HEAVIEST_KG = 1000.0, 1000.0
"""As far as the equation is asked at all; it gives no limit but nought from 175 cm on."""
DRY_SHARE = 0.92
"""The dry share of loose bedding as it is stored; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Fresh:
    """What fresh trays are filled with, each, kg; empty where the keeper has not said. `fed` is moistened.

    The tray that comes `back` is such a tray too, whatever is in it now.
    """

    bedding_kg: Mapping[str, float]
    fed: str | None = None
    back: str | None = None


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


def lifts_told(
    stack: Stack, moving: Moving, pantry: Pantry, fresh: Fresh | None = None
) -> tuple[LiftTold, ...]:
    """Every lift with its weight, heights and index."""
    trays = dict.fromkeys(lift.tray for lift in moving.lifts)
    weights = {tray: tray_kg(stack, tray, pantry, fresh) for tray in trays}
    told = []
    for number, lift in enumerate(moving.lifts):
        spots = moving.spots(number)
        kg, basis = weights[lift.tray]
        source = _height(lift.source, len(spots.stack) - 1, spots.places, stack.setup, taking=True)
        target = _height(lift.target, len(spots.stack) - (lift.source == STACK), spots.places, stack.setup)
        index = lifting_index(kg.high, source, target, stack.setup)
        told.append(LiftTold(lift, kg, basis, source, target, index))
    return tuple(told)


def tray_kg(stack: Stack, tray_id: str, pantry: Pantry, fresh: Fresh | None = None) -> tuple[Band, str]:
    """What a tray weighs with all that is in it, kg: weighed since it was last fed, or as reckoned."""
    tray = stack.tray(tray_id)
    if tray is None or not tray.on_stack or (fresh is not None and fresh.back == tray_id):
        empty = tray.empty_kg if tray is not None else stack.setup.tray_empty_kg
        return exactly(empty).plus(_fresh_kg(stack, tray_id, fresh)), "reckoned"
    contents = tray_contents(tray, stack, pantry).wet_kg
    weighed = _weighed(tray)
    basis = f"weighed {when(tray.weighed_at, stack.as_of)}" if weighed and tray.weighed_at else ""
    return exactly(tray.empty_kg).plus(contents), basis or "reckoned from what went in"


def _fresh_kg(stack: Stack, tray_id: str, fresh: Fresh | None) -> Band:
    """The bedding of a fresh tray, kg: dry, but moistened in one that is fed at once."""
    name = main_bedding(stack)
    given = sum(fresh.bedding_kg.values()) if fresh is not None else 0.0
    dry = exactly(given) if given else a_tray(stack, fold(name), True).one
    if fresh is None or fresh.fed != tray_id:
        return dry
    return Band(*(kg * DRY_SHARE / (1 - wet) for kg, wet in zip(dry, ASSUMED, strict=True)))


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
        return setup.stands_m + BASE_M + (below + 0.5) * depth
    if spot == ELSEWHERE:
        return setup.places_m + 0.5 * depth
    pile = len(places[int(spot) - 1]) - taking
    return setup.places_m + (pile + 0.5) * depth


def lifting_index(kg: float, from_m: float, to_m: float, setup: BinSetup) -> float:
    """The lifting index of the worse end, by the revised NIOSH equation: a tray as deep as it is wide.

    Beyond what the equation holds for it is infinite.
    """
    width = min(HIGHEST_CM, 100 * math.sqrt(setup.tray_area_m2))
    start, end = (min(HIGHEST_CM, max(0.0, 100 * height)) for height in (from_m, to_m))
    ends = lifting.lift(
        min(HEAVIEST_KG, kg),
        lifting.reach_over(width, start),
        start,
        end,
        end_reach=lifting.reach_over(width, end),
        per_minute=PER_MINUTE,
    )
    return max(one.li for one in ends)


def index_words(index: float) -> str:
    """The index as it is said, with what it means."""
    if math.isinf(index):
        return "beyond the reach that the lifting equation holds for: ask for help"
    shown = f"lifting index {_shown(index)}"
    if index <= 1:
        return f"{shown}, within the limit"
    if index <= 3:
        return f"{shown}, above the limit: take some out, or lift it with two"
    return f"{shown}, far above the limit: do not lift it like this"


def index_word(index: float) -> str:
    """The same in two or three words, for a table: `0.8 within`."""
    if math.isinf(index):
        return "out of reach"
    return f"{_shown(index)} {'within' if index <= 1 else 'above' if index <= 3 else 'far above'}"


def _shown(index: float) -> str:
    """One decimal; what is just above the limit is not said to be 1.0."""
    return f"{max(index, 1.1) if index > 1 else index:.1f}"


def heights_words(setup: BinSetup) -> str:
    """What the weights, the heights and the index rest on."""
    units = setup.units
    feet = f"{_whole(setup.stands_m, units)} over" if setup.stands_m else "on"
    return (
        "Weights are reckoned from what went in, unless it says weighed. "
        f"Heights of the hands are reckoned with the bin's feet {feet} the floor, its lowest tray "
        f"{_whole(BASE_M, units)} higher (our choice) and places {_whole(setup.places_m, units)} high. "
        "The index is that of the heavy end, in gloves, one lift a minute (revised NIOSH equation, 94-110): "
        "up to 1 it is within the recommended limit for most people in good health."
    )


def lift_line(told: LiftTold, stack: Stack, places: int, number: int | None = None) -> str:
    """One lift in a line: `1. Tray D, 4 to 5.5 kg, from the stack to place 1 beside it, …; index 0.8.`"""
    units = stack.setup.units
    lift = told.lift
    where = f"from {spot_words(lift.source, places)} to {spot_words(lift.target, places)}"
    first = f"{number}. " if number else ""
    weighed = f" ({told.basis})" if told.basis.startswith("weighed") else ""
    what = f"{first}Tray {lift.tray}, {mass_band(told.kg, units)}{weighed}"
    index = index_words(told.index) if told.heavy else f"lifting index {_shown(told.index)}"
    return f"{what}, {where}, hands {heights(told, units)} high; {index}."


LIFT_HEAD = "      weight        from and to      hands        index"


def lift_row(told: LiftTold, stack: Stack, number: int) -> str:
    """One lift as a row of a table: ` 1 C  6.1 to 9.4 kg stack to place 1 73 to 83 cm 0.8 within`."""
    units, lift = stack.setup.units, told.lift
    low, _, high = mass_band(told.kg, units).partition(" to ")
    weight = f"{low.split(' ')[0]} to {high}" if high and low[-2:] == high[-2:] else f"{low} to {high}"
    where = f"{_short(lift.source)} to {_short(lift.target)}"
    row = f"{number:>2} {lift.tray:<3}{weight if high else low:<14}{where:<17}{heights(told, units):<13}"
    return f"{row}{index_word(told.index)}"


def _short(spot: str | int) -> str:
    return "stack" if spot == STACK else "spare" if spot == ELSEWHERE else f"place {spot}"


def heights(told: LiftTold, units: Units) -> str:
    """From where to where the hands go, to a whole centimetre or inch: `73 to 83 cm`."""
    metres, unit = (INCH_M, "in") if units is Units.US else (0.01, "cm")
    return f"{round(told.from_m / metres)} to {round(told.to_m / metres)} {unit}"


def _whole(metres: float, units: Units) -> str:
    """A height to a whole centimetre or inch."""
    return f"{round(metres / INCH_M)} in" if units is Units.US else f"{round(metres * 100)} cm"
