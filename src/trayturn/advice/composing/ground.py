"""What a meal is laid on: the tray as it stands, its worms, and what the bin has to feed with.

Worked out once for a bin and tray; the figures of each draft are then quick to come by.
"""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.composing.draft import EATEN, SHREDS, Draft, Line, Part
from trayturn.advice.composing.measures import Measures, measures_of
from trayturn.advice.contents import SHREDS as UNKNOWN_BEDDING
from trayturn.advice.contents import Contents, tray_contents
from trayturn.advice.feeding import feed_next
from trayturn.advice.pantry import Pantry
from trayturn.domain.entries import Stage
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack, TrayState
from trayturn.science import ration, water
from trayturn.science.blend import WATER, Blend, Stuff
from trayturn.science.blend import Part as Measured
from trayturn.science.materials import Material

GRIT = Stuff("grit", 0.0, 0.0, 0.0, 0.0, 1000.0)
"""Ground shell: lime and next to nothing else."""
HOLDS_LIKE = {
    "cardboard": "cardboard",
    "egg_carton": "cardboard",
    "newsprint": "newspaper",
    "paper_office": "newspaper",
    "straw": "wheat straw",
    "straw_wheat": "wheat straw",
    "leaves_dry": "leaves",
    "peat": "peat",
    "coir": "coir",
    "sawdust": "sawdust",
}
"""Which measured material each bedding of the table is taken to be like."""
SOLOMON = "Solomon 1993: three times its weight"


@dataclass(frozen=True, slots=True)
class Goals:
    """What the tray is to be like after the meal: moisture as a fraction, and carbon to nitrogen."""

    moisture: float = 0.75
    """About 75 % in a household box (Solomon, Organic Gardener's Composting, 1993)."""
    c_to_n: float = 25.0
    """The best of the ratios tried (Ndegwa & Thompson 2000, Bioresource Technology 75:7-12)."""


@dataclass(frozen=True, slots=True)
class Worms:
    """The worms that eat from this tray, kg; `known` where the journal has them, else by the tray's area."""

    kg: float
    known: bool
    trays: int
    """How many trays are being fed: they share the worms."""


@dataclass(frozen=True, slots=True)
class Ground:
    """The tray that is fed and all that the figures of its meal rest on."""

    stack: Stack
    pantry: Pantry
    tray: TrayState
    contents: Contents
    worms: Worms
    ration: ration.Ration
    measures: Measures
    goals: Goals

    @property
    def units(self) -> Units:
        return self.stack.setup.units

    @property
    def area_m2(self) -> float:
        return self.stack.setup.tray_area_m2

    @property
    def days(self) -> float:
        """Days until the next feeding, by the setup."""
        return self.stack.setup.days_between_feedings

    @property
    def most_kg(self) -> float:
        """What would fill the tray to the brim as water: no amount of anything can be more."""
        return 1000 * self.area_m2 * self.stack.setup.tray_depth_m

    def row(self, line: Line) -> Material | None:
        """The row that a line's figures are from; that of mixed scraps for scraps that are not known."""
        if line.part in EATEN:
            return self.pantry.scraps(line.name)[0]
        return self.pantry.meant(line.name) if line.part in SHREDS else None

    def known(self, line: Line) -> bool:
        """Whether a line is reckoned by figures of its own."""
        return self.pantry.scraps(line.name)[1] if line.part in EATEN else True

    def stuff(self, line: Line) -> Stuff:
        """What a line is made of, under the keeper's own name for it."""
        if line.part is Part.WATER:
            return WATER
        if line.part is Part.GRIT:
            return GRIT
        row = self.row(line)
        like = row.stuff if row is not None and row.moisture is not None else UNKNOWN_BEDDING
        return Stuff(line.name, like.moisture, like.n, like.c, like.salt, like.density_kg_m3)

    def blend(self, draft: Draft, *parts: Part) -> Blend:
        """The mix of some parts of a meal, or of all of it."""
        return Blend(tuple(Measured(self.stuff(line), line.kg) for line in draft.of(*parts) if line.kg > 0))

    def food(self, draft: Draft) -> tuple[Line, ...]:
        """What the worms are to eat: scraps and amendments, minerals not counted."""
        lines = (line for line in draft.of(*EATEN) if line.kg > 0)
        return tuple(line for line in lines if not self.mineral(line))

    def mineral(self, line: Line) -> bool:
        """Whether a line is lime rather than food, as egg shells are."""
        row = self.row(line)
        return row is not None and row.group == "mineral"

    def holds(self, name: str) -> tuple[float, float, str]:
        """The water that a dry bedding soaks up, kg a kg, low and high, and who says so."""
        row = self.pantry.meant(name)
        held = water.HOLDS.get(HOLDS_LIKE.get(row.id, "")) if row is not None else None
        if held is None:
            return water.SOAKED, water.SOAKED, f"{SOLOMON}, taken for its like"
        return held.low, held.high, held.source


def ground_of(stack: Stack, tray_id: str, pantry: Pantry, goals: Goals | None = None) -> Ground | None:
    """What a meal for that tray is laid on; None where it is not on the stack."""
    tray = stack.tray(tray_id)
    if tray is None or not tray.on_stack:
        return None
    contents = tray_contents(tray, stack, pantry)
    worms = worms_of(stack, tray)
    return Ground(
        stack,
        pantry,
        tray,
        contents,
        worms,
        ration.ration(worms.kg, contents.celsius),
        measures_of(stack, pantry),
        goals or Goals(),
    )


def worms_of(stack: Stack, tray: TrayState) -> Worms:
    """The worms of the journal, shared by the trays that are fed; reckoned by area where it has none.

    None are left by the journal where more left than came in, which says only that they bred.
    """
    fed = {one.id for one in stack.in_stage(Stage.FEEDING)} | {tray.id}
    if stack.worms_kg:
        return Worms(stack.worms_kg / len(fed), True, len(fed))
    return Worms(ration.STOCKING_KG_M2 * stack.setup.tray_area_m2, False, len(fed))


def tray_to_feed(stack: Stack, marked: str | None) -> str | None:
    """The marked tray if it is being fed; else the one that is due, or that can be; else the top one."""
    tray = stack.tray(marked) if marked else None
    if tray is not None and tray.on_stack and tray.stage is Stage.FEEDING:
        return tray.id
    due = feed_next(stack)
    return due.tray or due.instead or next(iter(trays_to_feed(stack)), None)


def trays_to_feed(stack: Stack) -> list[str]:
    """The trays that can be fed at all, from the top down."""
    return [one.id for one in reversed(stack.trays) if one.stage is not Stage.SEPARATING]
