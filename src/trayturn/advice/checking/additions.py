"""How much water or dry bedding brings a tray to a moisture, as a band, and how much of it at once.

Plain mass balance over what the tray holds now (`tray_contents`), by the same equations as any other mix:
T. Richard & N. Trautmann, Moisture Content, Cornell Composting 1996.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from trayturn.advice.bands import Band, rough_mass, rough_volume, said
from trayturn.advice.contents import SHREDS, Contents
from trayturn.advice.pantry import Pantry
from trayturn.domain.setup import BinSetup, Units
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean, count
from trayturn.science.blend import WATER, Blend, Part, Stuff
from trayturn.science.errors import OutOfRange
from trayturn.science.goals import Unreachable, c_to_n_goal, moisture_goal, solve

WATER_AT_ONCE_KG_M2 = 3.0
"""Water at once, by the area of a tray: about half a litre, or a pint, on 0.16 m2. Common practice, no
source."""
LAYER_AT_ONCE_M = 0.05
"""Loose dry bedding at once, as a layer. Common practice, no source."""
LOOSE_KG_M3 = 20.0
"""Loose shreds, 16 to 24 kg/m3 (Solomon, Organic Gardener's Composting, 1993)."""
FULLEST_KG_L = 1.0
"""A tray to the rim holds no more than that much water would weigh: an upper end of what is in it."""
HELD_AT_MOST = 0.92
"""What soaked coir holds, which holds most of all beddings (11 kg/kg: Evans, Konduru & Stamps 1996). A tray
with holes drains of more, so no more is reckoned with than that or the reading itself."""
MOST_PARTS = 6
"""More parts than this are not counted out: the next reading tells. Our choice."""
LEAST_KG = 0.005
"""Less than this is not worth a word."""


@dataclass(frozen=True, slots=True)
class Addition:
    """So much of something to be added in all, as a band in kg, and the most of it at once."""

    stuff: Stuff
    kg: Band
    goal: str
    at_once_kg: float

    @property
    def is_water(self) -> bool:
        return self.stuff is WATER

    @property
    def parts(self) -> tuple[int, int]:
        """In how many parts it is added, at least and at most."""
        low, high = (max(1, math.ceil(kg / self.at_once_kg - 1e-9)) for kg in (self.kg.low, self.kg.high))
        return low, high

    def words(self, units: Units) -> str:
        """`450 ml to 700 ml of water`, `300 g to 500 g of dry shredded cardboard`."""
        stuff = "water" if self.is_water else f"dry {clean(self.stuff.name, 30)}"
        return f"{said(self.kg, lambda kg: self._show(kg, units))} of {stuff}"

    def first(self, units: Units) -> str:
        """What goes in at first: the most at once."""
        return self._show(self.at_once_kg, units)

    def at_once(self, units: Units) -> str:
        """`at most 480 ml at once, so in 2 to 3 parts`."""
        most = f"at most {self.first(units)} at once"
        low, high = self.parts
        if high == 1:
            return "all at once"
        if high > MOST_PARTS:
            return f"{most}, over some days"
        return f"{most}, so in {count(high, 'part') if low == high else f'{low} to {high} parts'}"

    def _show(self, kg: float, units: Units) -> str:
        """A litre of water is a kilogram."""
        return rough_volume(kg, units) if self.is_water else rough_mass(kg, units)


def water_for(contents: Contents, goal_pct: float, setup: BinSetup) -> Addition | None:
    """The water that brings the contents up to a moisture; None where they are there already."""
    kg = _to_moisture(contents, goal_pct, setup, WATER)
    at_once = WATER_AT_ONCE_KG_M2 * setup.tray_area_m2
    return None if kg is None else Addition(WATER, kg, f"{goal_pct:.0f} %", at_once)


def bedding_for(contents: Contents, goal_pct: float, setup: BinSetup, stuff: Stuff) -> Addition | None:
    """The dry bedding that brings the contents down to a moisture; None where they are there already."""
    kg = _to_moisture(_drained(contents), goal_pct, setup, stuff)
    return None if kg is None else Addition(stuff, kg, f"{goal_pct:.0f} %", _layer_kg(setup, stuff))


def _drained(contents: Contents) -> Contents:
    """The upper end as it can be at most: the same solids with less water, unless the tray was weighed."""
    low, mid, high = contents.moisture
    most, wet = min(high, max(mid, HELD_AT_MOST)), contents.wet_kg
    heaviest = wet.high if wet.low == wet.high else wet.high * (1 - high) / (1 - most)
    return replace(contents, moisture=Band(low, mid, most), wet_kg=Band(wet.low, wet.mid, heaviest))


def bedding_for_c_to_n(contents: Contents, ratio: float, setup: BinSetup, stuff: Stuff) -> Addition | None:
    """The dry bedding that brings the contents up to a C:N; None where they have it, or it is not known."""
    try:
        added = solve(contents.blend, [c_to_n_goal(ratio)], [stuff])
    except (Unreachable, OutOfRange):
        return None
    kg = sum(part.kg for part in added)
    share = Band(*(wet / contents.wet_kg.mid for wet in contents.wet_kg)) if kg >= LEAST_KG else None
    goal = f"a C:N of {ratio:.0f}"
    return None if share is None else Addition(stuff, share.times(kg), goal, _layer_kg(setup, stuff))


def room_kg(setup: BinSetup, stuff: Stuff) -> float:
    """What a whole tray holds of it, loose: more cannot be mixed into one that is filled."""
    return setup.tray_area_m2 * setup.tray_depth_m * (stuff.density_kg_m3 or LOOSE_KG_M3)


def _layer_kg(setup: BinSetup, stuff: Stuff) -> float:
    return LAYER_AT_ONCE_M * setup.tray_area_m2 * (stuff.density_kg_m3 or LOOSE_KG_M3)


def _to_moisture(contents: Contents, goal_pct: float, setup: BinSetup, addend: Stuff) -> Band | None:
    """The mass at each end of the band: a drier tray that holds as much takes more water."""
    rim_kg = FULLEST_KG_L * 1000 * setup.tray_area_m2 * setup.tray_depth_m
    ends = zip(contents.wet_kg, contents.moisture, strict=True)
    needed = [mass_to(min(wet, rim_kg), moisture, goal_pct / 100, addend) for wet, moisture in ends]
    low, mid, high = min(needed), needed[1], max(needed)
    return Band(low, mid, high) if mid >= LEAST_KG else None


def mass_to(wet_kg: float, moisture: float, goal: float, addend: Stuff) -> float:
    """The mass of one thing that brings so much at a moisture to a goal, kg; none where it cannot."""
    if wet_kg <= 0:
        return 0.0
    blend = Blend((Part(Stuff("tray", moisture), wet_kg),))
    try:
        return sum(part.kg for part in solve(blend, [moisture_goal(goal)], [addend]))
    except Unreachable:
        return 0.0


def dry_bedding(stack: Stack, tray: TrayState, pantry: Pantry) -> Stuff:
    """The bedding to add: what most is in stock of, else what the tray began with, else any shreds."""
    for store in (stack.supplies_kg, tray.bedding_kg):
        found = [(kg, row) for name, kg in store.items() if kg > 0 and (row := pantry.meant(name))]
        known = [(kg, row) for kg, row in found if row.role == "bedding" and row.moisture is not None]
        if known:
            return max(known, key=lambda pair: pair[0])[1].stuff
    return SHREDS


def stock_words(stack: Stack, stuff: Stuff, pantry: Pantry) -> str:
    """How much of that bedding is in stock, in the keeper's own handfuls where one was weighed."""
    held = sum(kg for name, kg in stack.supplies_kg.items() if _is(pantry, name, stuff))
    if not held:
        return ""
    handful = _handful_kg(stack, stuff, pantry)
    handfuls = f", about {count(max(1, round(held / handful)), 'handful')} of yours" if handful else ""
    return f"In stock: {show_mass(held, stack.setup.units)} of it{handfuls}."


def _handful_kg(stack: Stack, stuff: Stuff, pantry: Pantry) -> float | None:
    """What a handful of it weighs, as the keeper weighed it; one of anything serves as well."""
    ours = [one for one in stack.measures if one.measure.casefold() == "handful"]
    of_it = [one.kg for one in ours if one.of and _is(pantry, one.of, stuff)]
    of_any = [one.kg for one in ours if not one.of]
    return next(iter((*of_it, *of_any)), None)


def _is(pantry: Pantry, name: str, stuff: Stuff) -> bool:
    row = pantry.meant(name)
    return row is not None and row.name == stuff.name
