"""The plan for a new bin told as steps, each with its reasons."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.amounts import density, number_band
from trayturn.advice.bands import mass_band, rough_mass
from trayturn.advice.pages import Page
from trayturn.advice.phrases import every
from trayturn.advice.reading import LIMITS_SOURCE
from trayturn.advice.roles import free_tray
from trayturn.advice.starting import StartingPlan, next_work
from trayturn.domain.setup import Pattern, Units
from trayturn.domain.stack import Stack
from trayturn.domain.units import (
    show_area,
    show_length,
    show_mass,
    show_temperature,
    show_volume,
)
from trayturn.science.bodies import UNSURE, body_of
from trayturn.science.ration import STOCKING_KG_M2, stocking
from trayturn.science.starting import WINDROW_KG_M2

NO_SOURCE = "common practice, no source"
BED_DEPTH = {Units.METRIC: "15 to 20 cm", Units.US: "6 to 8 in"}
COVER_DEPTH = {Units.METRIC: "2.5 cm", Units.US: "1 in"}
LAYER_DEPTH = {Units.METRIC: "4 cm", Units.US: "1.5 in"}
"""Round in the keeper's units, as the sources have them."""


@dataclass(frozen=True, slots=True)
class PlanStep:
    """One step. `done` is None for what is not written down, `page` the page of the handbook behind it."""

    code: str
    title: str
    what: str
    why: tuple[str, ...]
    page: Page
    done: bool | None = None


def plan_steps(plan: StartingPlan, stack: Stack | None = None) -> tuple[PlanStep, ...]:
    """The steps in the order they are done; with a stack, those that its journal has are marked done."""
    waits = next_work(stack) if stack is not None else "tray"
    tray_on = stack is not None and bool(stack.trays)
    worms_in = stack is not None and stack.worms_kg is not None
    name = (free_tray(stack) if stack is not None and not tray_on else None) or ""
    return (
        _soak(plan, tray_on),
        _fill(plan, name, tray_on),
        _worms(plan, worms_in),
        _meals(plan, stack is not None and waits is None),
        _cover(plan),
        _light(plan),
        PlanStep(
            "look",
            "Look in now and then",
            "After a day, three days, a week, two weeks and four. Due says when, and what to look for.",
            (f"The days are our choice. What to look for is {NO_SOURCE}, but for the figures named there.",),
            Page.STARTING,
        ),
    )


def _soak(plan: StartingPlan, done: bool) -> PlanStep:
    units = plan.setup.units
    same = "a quart is 2.1 lb" if units is Units.US else "a litre is a kilogram"
    dry, water = show_mass(plan.bedding_kg.mid, units), show_mass(plan.water_kg.mid, units)
    filled = show_length(plan.filled_m, units)
    held = show_volume(1000 * plan.setup.tray_area_m2 * plan.filled_m, units)
    why = (
        "A box takes 16 to 24 kg of dry bedding a cubic metre, or 1 to 1.5 lb a cubic foot (Solomon, Organic "
        f"Gardener's Composting, 1993). Filled {filled} deep this tray holds {held}: "
        f"{mass_band(plan.bedding_kg, units)}.",
        f"Three times its weight of water, {mass_band(plan.water_kg, units)}, makes it about 75 % moist "
        f"(the same; the mass balance agrees). Worms live at 60 to 90 % ({LIMITS_SOURCE}).",
        f"It is right when a fistful holds together and gives a drop or two: {NO_SOURCE}.",
        "Plain cardboard or newspaper, torn small: no tape, staples, glossy or coated paper.",
    )
    what = f"About {dry} of dry shreds in {water} of water ({same}). Wring out what drips."
    return PlanStep("soak", "Soak the bedding", what, why, Page.BEDDING, done)


def _fill(plan: StartingPlan, name: str, done: bool) -> PlanStep:
    units, depth = plan.setup.units, plan.setup.tray_depth_m
    own = show_length(depth, units)
    if depth > plan.filled_m:
        so = f"this tray is {own} deep, and is filled to {show_length(plan.filled_m, units)}"
        how = f"{show_length(plan.filled_m, units)} of its {own} deep"
    else:
        so, how = f"this tray holds {own}, and is filled to its rim", f"to its rim ({own})"
    why = (
        f"A bed begins {BED_DEPTH[units]} deep (Sherman, Ways with Worm Farming, for windrows): {so}.",
        "Wet bedding settles; by how much was not found published. Fill up at the next meals what sinks.",
        _next_tray(plan.setup.pattern),
    )
    tray = f"tray {name}" if name else "the first tray"
    what = f"Loosely, {how}, and set it on over the sump."
    return PlanStep("fill", f"Fill {tray}", what, why, Page.BEDDING, done)


def _next_tray(pattern: Pattern) -> str:
    if pattern is Pattern.STRAIGHT_UP:
        return f"The next tray goes on top at the first turn, not before: {NO_SOURCE}."
    return f"A tray of bedding below it catches what drips, now or later: {NO_SOURCE}."


def _worms(plan: StartingPlan, done: bool) -> PlanStep:
    units = plan.setup.units
    kg = show_mass(plan.worms_kg, units)
    counted = f" ({number_band(plan.number)} worms)" if plan.number else ""
    who = f"About {kg}" if plan.by_area else f"The {kg} you have"
    best, most = (rough_mass(mass, units) for mass in (plan.worms_best_kg, plan.worms_most_kg))
    area = show_area(plan.setup.tray_area_m2, units)
    why = (
        f"{density(STOCKING_KG_M2, units)} was the best of the densities tried (Ndegwa, Thompson & Das, "
        f"Bioresource Technology 71, 2000, with biosolids; read in its abstract): {best} on {area}.",
        f"Windrows are stocked at about {density(WINDROW_KG_M2, units)} (Sherman). That would be {most}: "
        "take it as the most. A pound a square foot, as is commonly taught, comes to the same; no page was "
        "found that says why.",
        *_own_density(plan),
        _how_many(plan),
        "Fewer will do. Feed by the weight of the worms, not by the size of the tray. How soon they fill it "
        "is not foretold here.",
        "Weigh them without bedding, or as near to it as can be.",
    )
    what = f"{who}{counted}, spread on top. They go down by themselves."
    return PlanStep("worms", "Put the worms in", what, why, Page.STOCKING, done)


def _own_density(plan: StartingPlan) -> tuple[str, ...]:
    """How close the keeper's own worms will stand, against the published best."""
    if plan.by_area:
        return ()
    stands, times = stocking(plan.worms_kg, plan.setup.tray_area_m2)
    return (f"Yours come to {density(stands, plan.setup.units)} in one tray, {times:.1f} times that best.",)


def _how_many(plan: StartingPlan) -> str:
    body = body_of(plan.setup.species)
    if body is None:
        return f"{UNSURE[plan.setup.species]} So there is no number here: weigh them."
    low, high = body.grams
    return f"A worm weighs {low:g} to {high:g} g: {body.source}."


def _meals(plan: StartingPlan, done: bool) -> PlanStep:
    units = plan.setup.units
    first, second, full = (mass_band(meal.kg, units) for meal in plan.meals)
    interval = every(plan.setup.days_between_feedings)
    warmth = show_temperature(plan.celsius, units)
    read = "The bin was at" if plan.celsius_read else "No temperature is known yet; reckoned at"
    layer = rough_mass(plan.layer_kg, units)
    why = (
        f"A full meal is what {show_mass(plan.worms_kg, units)} of worms take until the next ({interval}). "
        f"{plan.ration_why}",
        f"{read} {warmth}.",
        f"A quarter, then a half: that first meals are small is {NO_SOURCE}, and the shares are our choice.",
        f"Never more than {layer} at once: scraps over {LAYER_DEPTH[units]} deep may heat (Sherman).",
        f"A pinch of grit helps worms grind: {NO_SOURCE}. Damp it first, its dust harms.",
    )
    if plan.meals[-1].kg.high <= 0:
        return PlanStep("meal", "Wait with the first meal", plan.ration_why, why[1:], Page.FEEDING, done)
    what = f"{first} at first, with a pinch of grit. Once it is gone {second}, then {full} {interval}."
    return PlanStep("meal", "Small first meals", what, why, Page.FEEDING, done)


def _cover(plan: StartingPlan) -> PlanStep:
    layer = COVER_DEPTH[plan.setup.units]
    why = (
        f"About {layer} of bedding over the meal (Solomon 1993; City of Oxnard): it keeps flies off.",
        f"A damp sheet of card on top and the lid on it: {NO_SOURCE}.",
    )
    what = f"About {layer} of bedding over the meal, a damp sheet of card, and the lid."
    return PlanStep("cover", "Cover it", what, why, Page.BEDDING)


def _light(plan: StartingPlan) -> PlanStep:
    cool, mild = (show_temperature(celsius, plan.setup.units) for celsius in (15, 20))
    least, most = (show_temperature(celsius, plan.setup.units) for celsius in (4, 30))
    why = (
        f"Worms may leave a new bin (RecycleWorks, San Mateo). A light above it for some nights is "
        f"{NO_SOURCE}; that worms draw back from a lamp is Darwin's (1881).",
        f"They do best at {cool} to {mild} and live at {least} to {most} ({LIMITS_SOURCE}).",
    )
    what = f"A light above it for the first nights keeps them in. Stand it where it is {cool} to {mild}."
    return PlanStep("light", "Light and patience", what, why, Page.STARTING)
