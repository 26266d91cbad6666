"""What the amounts say: what was fed against what worms take, what is uneaten, and how it lies."""

from __future__ import annotations

import math

from trayturn.advice.bands import Band, mass_band
from trayturn.advice.trouble.case import DENSE_KG_M3, LATELY_DAYS, Case
from trayturn.advice.trouble.parts import Check, Evidence, Found
from trayturn.advice.trouble.says import inches, judged, of, unknown
from trayturn.advice.trouble.sources import NEW_YORK, RECYCLEWORKS, SHERMAN
from trayturn.domain.entries import Fed, Stage
from trayturn.domain.stack import days_between
from trayturn.domain.units import show_length, show_mass, three_figures
from trayturn.domain.words import count
from trayturn.science.limits import DEEPEST_M
from trayturn.science.ration import NORM, area_rule

LAYER_DAYS = 14.0
"""How long a thick layer may go on heating. Our choice."""
AREA = "area rule: 1 lb a week on a square foot (NC State AG-473-18)"
NOTHING_KG = 0.02
"""Less than this uneaten counts as none. Our choice."""


def per_day(case: Case) -> tuple[float, int, float] | None:
    """What the bin was fed a day in the last four weeks, kg, in how many feedings, over how many days.

    A young bin is reckoned over what it has had of them, and at least one interval between feedings. None
    where no feeding was ever written down.
    """
    if not case.fed:
        return None
    meals = case.all_lately()
    so_far = max(days_between(case.fed[0].at, case.now), case.stack.setup.days_between_feedings)
    days = min(LATELY_DAYS, max(1.0, so_far))
    return sum(sum(meal.items_kg.values()) for meal in meals) / days, len(meals), days


def intake(case: Case) -> tuple[Band, str]:
    """What the worms take a day, kg, and by what: their written mass, or the area that is fed."""
    if case.ration is not None:
        low, high = case.ration.norm
        worms = show_mass(case.worms_kg or 0.0, case.units)
        return Band(low, (low + high) / 2, high), f"the {worms} of worms written down"
    fed = max(1, len(case.stack.in_stage(Stage.FEEDING)))
    a_day = area_rule(case.stack.setup.tray_area_m2 * fed) / 7
    return Band(a_day / 2, a_day * 3 / 4, a_day), "the area fed, since no worms are written down"


def fed_over(case: Case) -> Found:
    """More fed than the worms take, over the last four weeks."""
    fed, takes = per_day(case), intake(case)[0]
    if fed is None:
        return unknown("No feeding is written down.")
    return judged(*_fed_words(case), is_for=fed[0] > takes.high, is_against=fed[0] < takes.low)


def fed_under(case: Case) -> Found:
    """Less fed than the worms take, over the last four weeks."""
    fed, takes = per_day(case), intake(case)[0]
    if fed is None:
        return unknown("No feeding is written down.")
    return judged(*_fed_words(case), is_for=fed[0] < takes.low, is_against=fed[0] > takes.mid)


def _fed_words(case: Case) -> tuple[str, str]:
    fed, (takes, basis) = per_day(case) or (0.0, 0, LATELY_DAYS), intake(case)
    a_day, meals, days = fed
    takes_words = f"takes {mass_band(takes, case.units)} a day, by {basis}"
    if not takes.high:
        takes_words = "takes nothing at its temperature"
    words = f"The bin was fed {_about(a_day, case)} a day in the last weeks; it {takes_words}."
    over = f"{count(meals, 'feeding')} in {three_figures(round(days, 1))} days"
    norm = f"household norm {NORM[0]:g} to {NORM[1]:g} kg per kg of worms a day, by its warmth"
    return words, f"{over}; {norm if case.ration else AREA}."


def _about(kg: float, case: Case) -> str:
    return f"about {show_mass(kg, case.units)}" if kg else "nothing"


def uneaten(case: Case) -> Band:
    """Scraps that are still there by reckoning, kg, in the trays asked about."""
    total = Band(0.0, 0.0, 0.0)
    for tray in case.trays:
        total = total.plus(case.holds(tray).uneaten_kg)
    return total


def uneaten_much(case: Case) -> Found:
    """More uneaten than the worms take until the next feeding."""
    if not case.meals:
        return unknown(f"No feeding of {case.who} is written down.")
    left, (takes, basis) = uneaten(case), intake(case)
    until_next = takes.times(case.stack.setup.days_between_feedings)
    words = (
        f"By reckoning {mass_band(left, case.units)} of scraps is uneaten; until the next feeding the bin "
        f"takes {mass_band(until_next, case.units)}, by {basis}."
    )
    much = left.low >= until_next.high and left.mid > NOTHING_KG
    return judged(words, is_for=much, is_against=left.high <= max(until_next.low, NOTHING_KG))


def deepest_meal(case: Case) -> tuple[float, Fed] | None:
    """The deepest layer of scraps of the last two weeks, metres, and its feeding."""
    area = case.stack.setup.tray_area_m2
    layers = [(_volume_m3(meal, case) / area, meal) for meal in case.lately(LAYER_DAYS)]
    return max(layers, key=lambda pair: pair[0], default=None)


def _volume_m3(meal: Fed, case: Case) -> float:
    return math.fsum(
        kg / (case.row(name).stuff.density_kg_m3 or DENSE_KG_M3) for name, kg in meal.items_kg.items()
    )


def fed_thick(case: Case) -> Found:
    """A feeding so deep that it may heat."""
    if not case.meals:
        return unknown(f"No feeding of {case.who} is written down.")
    deepest = deepest_meal(case)
    if deepest is None:
        return judged("Nothing was fed in the last 2 weeks.", is_for=False, is_against=True)
    depth, meal = deepest
    words = (
        f"The feeding {of(meal.at, case)} lay about {show_length(depth, case.units)} deep if it was spread; "
        f"to keep cool it is {inches(1, case)} to {inches(1.5, case)}."
    )
    return judged(words, is_for=depth > DEEPEST_M, is_against=depth <= DEEPEST_M)


def fed_bare(case: Case) -> Found:
    """Feedings without bedding to cover them."""
    meals = [meal for meal in case.lately() if meal.items_kg]
    if not meals:
        return unknown("No feeding of the last 4 weeks is written down.")
    bare = [meal for meal in meals if not meal.bedding_kg]
    words = f"{len(bare)} of {count(len(meals), 'feeding')} in the last 4 weeks had no bedding written down."
    return judged(words, is_for=not meals[-1].bedding_kg, is_against=not bare)


FED_OVER = Evidence("fed-over", fed_over, Check.FEEDINGS, NEW_YORK)
FED_UNDER = Evidence("fed-under", fed_under, Check.FEEDINGS, NEW_YORK)
UNEATEN_MUCH = Evidence("uneaten-much", uneaten_much, Check.FEEDINGS, NEW_YORK)
FED_THICK = Evidence("fed-thick", fed_thick, Check.FEEDINGS, SHERMAN)
FED_BARE = Evidence("fed-bare", fed_bare, Check.FEEDINGS, RECYCLEWORKS)
