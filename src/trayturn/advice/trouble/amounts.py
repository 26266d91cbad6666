"""How much of each remedy this bin needs. Each gives one sentence, or nothing where it cannot be reckoned."""

from __future__ import annotations

import math
from datetime import timedelta

from trayturn.advice.bands import Band, day_band, mass_band, volume_band
from trayturn.advice.checking.ranges import GOAL_PCT
from trayturn.advice.trouble.asks_amounts import intake, per_day, uneaten
from trayturn.advice.trouble.asks_mix import fed_blend
from trayturn.advice.trouble.asks_shares import Belongs, is_citrus, is_left_out
from trayturn.advice.trouble.case import DENSE_KG_M3, LATELY_DAYS, Case
from trayturn.advice.trouble.says import inches
from trayturn.domain.setup import Units
from trayturn.domain.units import INCH_M, show_length, show_mass, show_temperature, show_volume
from trayturn.domain.words import day, masses
from trayturn.science.blend import Blend, Part, Stuff
from trayturn.science.errors import OutOfRange
from trayturn.science.goals import Unreachable, c_to_n_goal, moisture_goal, solve
from trayturn.science.limits import BEST_C_TO_N, SALTIEST
from trayturn.science.ration import NORM, STOCKING_KG_M2
from trayturn.science.water import bedding_for, surplus

GOAL = GOAL_PCT / 100
"""The moisture to come down to, or up to (Solomon 1993, household boxes)."""
LEAST_REST_DAYS, MOST_REST_DAYS = 7, 42
"""At least a week without food (Oregon Metro). That six weeks is the longest is our choice: worms starve."""
DRY_SHREDS = Stuff("dry shreds", 0.08)
SMALLEST_KG = 0.02


def dry_bedding(case: Case) -> str:
    """Dry shreds that bring the tray down to the goal, by mass balance."""
    tray = case.focus
    if tray is None:
        return ""
    holds = case.holds(tray)
    needs = Band(*(_shreds(kg, wet) for kg, wet in zip(holds.wet_kg, holds.moisture, strict=True)))
    if needs.high < SMALLEST_KG:
        return "By reckoning it is no wetter than 75 %: go a handful at a time, and squeeze again."
    told = mass_band(needs, case.units)
    if needs.low < SMALLEST_KG:
        told = f"up to {show_mass(needs.high, case.units)}"
    brings = f"{_start(told)} of dry shreds brings tray {tray.id} down to 75 % wet"
    return f"{brings}, by mass balance on {holds.basis}. Begin with the least, and squeeze again."


def _shreds(wet_kg: float, moisture: float) -> float:
    """Dry shreds for so much at that moisture; none where it is dry enough."""
    if wet_kg <= 0 or moisture <= GOAL:
        return 0.0
    return _solved(Blend((Part(Stuff("tray", moisture), wet_kg),)), DRY_SHREDS)


def _solved(blend: Blend, addend: Stuff) -> float:
    return sum(part.kg for part in solve(blend, [moisture_goal(GOAL)], [addend]))


def water(case: Case) -> str:
    """Water that brings the tray up to damp: W = (G m - water) / (1 - G)."""
    tray = case.focus
    if tray is None:
        return ""
    holds = case.holds(tray)
    most = _water(holds.wet_kg.high, holds.moisture.low)
    if most < SMALLEST_KG:
        return "By reckoning it is 75 % wet already: only sprinkle where it crumbles."
    least = _water(holds.wet_kg.low, holds.moisture.high)
    band = Band(least, _water(holds.wet_kg.mid, holds.moisture.mid), most)
    told = volume_band(band, case.units) if least > 0 else f"up to {show_volume(most, case.units)}"
    return f"{_start(told)} brings tray {tray.id} up to 75 % wet, by mass balance on {holds.basis}."


def _water(wet_kg: float, moisture: float) -> float:
    return max(0.0, wet_kg * (GOAL - moisture) / (1 - GOAL))


def rest_days(case: Case) -> int:
    """Whole days to hold food back: until the worms have had what lies there, and at least a week."""
    takes = intake(case)[0]
    days = uneaten(case).mid / takes.mid if takes.mid > 0 else MOST_REST_DAYS
    return min(MOST_REST_DAYS, max(LEAST_REST_DAYS, math.ceil(days)))


def no_food(case: Case) -> str:
    """The day until which food is held back, and why that day."""
    until = day(case.now + timedelta(days=rest_days(case)), case.now)
    left, (takes, basis) = uneaten(case), intake(case)
    if left.mid < SMALLEST_KG or takes.high <= 0:
        return f"No food until {until}."
    there = f"about {show_mass(left.mid, case.units)} is uneaten by reckoning"
    days = left.mid / takes.mid
    if days <= LEAST_REST_DAYS:
        return f"No food until {until}, a week at least; {there}."
    if days > MOST_REST_DAYS:
        return f"No food until {until}: {there}, more than the bin takes by then. Take some out."
    lasts = day_band(Band(left.low / takes.high, days, left.high / takes.low))
    return f"No food until {until}: {there}, which lasts {lasts}, by {basis}."


def smaller_meals(case: Case) -> str:
    """What one feeding may weigh, by the ration and the interval between feedings."""
    takes, basis = intake(case)
    if takes.high <= 0:
        return "At its temperature worms take nothing: do not feed."
    interval = case.stack.setup.days_between_feedings
    meal = mass_band(takes.times(interval), case.units)
    return f"{_start(meal)} of scraps at a feeding, by {basis}."


def bedding_with_food(case: Case) -> str:
    """Dry shreds to give with a usual feeding, so that they take up the water it brings."""
    meals = [meal for meal in case.lately() if meal.items_kg]
    if not meals:
        return "About a quarter of the weight of the scraps, in dry shreds."
    kg = sum(sum(meal.items_kg.values()) for meal in meals) / len(meals)
    wet = sum(surplus(mass, case.row(name).moisture or 0.0) for name, mass in case.scraps().items())
    shreds = bedding_for(max(0.0, wet) / len(meals))
    scraps, dry = show_mass(kg, case.units), show_mass(max(SMALLEST_KG, shreds), case.units)
    return f"About {dry} of dry shreds with a feeding of {scraps}, your usual one, takes up its water."


def bedding_for_carbon(case: Case) -> str:
    """Dry cardboard that brings the last feedings to the best carbon to nitrogen ratio tried."""
    card = case.pantry.meant("shredded cardboard")
    blend = fed_blend(case)
    if card is None or not case.lately() or blend.c_to_n is None or blend.c_to_n >= BEST_C_TO_N:
        return ""
    try:
        parts = solve(blend, [c_to_n_goal(BEST_C_TO_N)], [card.stuff])
    except (Unreachable, OutOfRange):
        return ""
    kg = show_mass(sum(part.kg for part in parts), case.units)
    return f"About {kg} of it, as dry cardboard, brings what was fed in the last 4 weeks to C:N 25."


def thin_layer(case: Case) -> str:
    """How much makes a layer of the published depth over one tray."""
    area = case.stack.setup.tray_area_m2
    thin, thick = (area * depth * INCH_M * DENSE_KG_M3 for depth in (1.0, 1.5))
    kg = mass_band(Band(thin, thin, thick), case.units)
    return f"A layer of {inches(1, case)} to {inches(1.5, case)}: at most {kg} at once."


def warm_place(case: Case) -> str:
    """The band of temperature in which scraps go fastest."""
    return f"They work best at {_degrees(15, case.units)} to {_degrees(25, case.units)}."


def cool_place(case: Case) -> str:
    """Where worms stop, and where they die."""
    good, stop, dead = (_degrees(celsius, case.units) for celsius in (25, 29, (90 - 32) / 1.8))
    return f"Below {good} is good; above {stop} worms stop stirring, and above {dead} they may die."


def _degrees(celsius: float, units: Units) -> str:
    return show_temperature(celsius, units)


def cover(case: Case) -> str:
    return f"About {inches(1, case)} of bedding over the food."


def grease_band(case: Case) -> str:
    return f"A band {inches(1, case)} wide, all around."


def citrus_fed(case: Case) -> str:
    """The citrus of the last weeks, by name and weight."""
    return _fed_lately(case, is_citrus)


def left_out_fed(case: Case) -> str:
    """What should have been left out, by name and weight."""
    return _fed_lately(case, is_left_out)


def salty_fed(case: Case) -> str:
    """The food that is salty by itself, by name and weight."""
    return _fed_lately(case, lambda row: (row.salt or 0.0) > SALTIEST)


def _fed_lately(case: Case, belongs: Belongs) -> str:
    hits = {name: kg for name, kg in case.scraps().items() if belongs(case.row(name))}
    return f"Fed in the last {LATELY_DAYS / 7:.0f} weeks: {masses(hits, case.units, 5)}." if hits else ""


def thinned(case: Case) -> str:
    """Damp bedding without salt that brings the tray to half the limit: salt is a plain mass balance."""
    tray = case.focus
    salt = case.holds(tray).stuff.salt if tray is not None else None
    if tray is None or not salt or salt <= SALTIEST / 2:
        return ""
    kg = case.holds(tray).wet_kg.mid * (salt / (SALTIEST / 2) - 1)
    return (
        f"About {show_mass(kg, case.units)} of damp bedding brings tray {tray.id} to half the limit of salt."
    )


def worms_wanted(case: Case) -> str:
    """The worms that take what is fed, by the household norm, and what a tray is best stocked with."""
    fed, best = per_day(case), STOCKING_KG_M2 * case.stack.setup.tray_area_m2
    stocked = f"One tray of this size is best stocked with {show_mass(best, case.units)} of worms."
    if fed is None or fed[0] <= 0:
        return stocked
    need = Band(fed[0] / NORM[1], fed[0] / sum(NORM) * 2, fed[0] / NORM[0])
    return f"What is fed now asks for {mass_band(need, case.units)} of worms by the household norm. {stocked}"


def deepest_bed(case: Case) -> str:
    return f"At most {show_length(0.30, case.units)} deep."


def _start(words: str) -> str:
    return words[:1].upper() + words[1:]
