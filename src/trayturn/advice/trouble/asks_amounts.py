"""What the amounts say: fed against what worms take, salt and nitrogen, water against bedding, depth."""

from __future__ import annotations

import math

from trayturn.advice.bands import Band, mass_band
from trayturn.advice.trouble.case import DENSE_KG_M3, LATELY_DAYS, Case
from trayturn.advice.trouble.parts import Check, Evidence, Found
from trayturn.advice.trouble.says import inches, judged, of, unknown
from trayturn.advice.trouble.sources import BULKING, EULESS, KAPLAN, NDEGWA, NEW_YORK, RECYCLEWORKS, SHERMAN
from trayturn.domain.entries import Fed, Stage
from trayturn.domain.stack import days_between
from trayturn.domain.units import show_length, show_mass, show_volume, three_figures
from trayturn.domain.words import count, masses
from trayturn.science.blend import Blend, Part, Stuff
from trayturn.science.limits import BEST_C_TO_N, DEEPEST_M, LEAST_C_TO_N, SALTIEST
from trayturn.science.ration import area_rule
from trayturn.science.water import SOAKED, surplus

NOT_SALTY = SALTIEST / 2
"""Half the limit is not salty. Our choice."""
LAYER_DAYS = 14.0
"""How long a thick layer may go on heating. Our choice."""
NEXT_BEDDING_DAYS, SOON_BEDDING_DAYS = 21.0, 14.0
"""Dry paper every two to three weeks (City of Euless)."""
NOTHING_KG = 0.02
"""Less than this uneaten counts as none. Our choice."""


def per_day(case: Case) -> tuple[float, int, float] | None:
    """What the bin was fed a day in the last four weeks, kg, in how many feedings, over how many days.

    A young bin is reckoned over what it has had of them, and at least one interval between feedings. None
    where no feeding was ever written down.
    """
    if not case.fed:
        return None
    meals = [meal for meal in case.fed if days_between(meal.at, case.now) <= LATELY_DAYS]
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
    return words, f"{over}. {case.ration.why if case.ration else 'Area rule: NC State AG-473-18.'}"


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


def salty(case: Case) -> Found:
    """Scraps above the published limit of salt."""
    if not case.meals:
        return unknown(f"No feeding of {case.who} is written down.")
    scraps = case.scraps()
    salt = case.blend(scraps).salt or 0.0
    over = {name: kg for name, kg in scraps.items() if (case.row(name).salt or 0.0) > SALTIEST}
    words = f"The scraps of the last 4 weeks came to {100 * salt:.2f} % salt; above 0.5 % worms die."
    named = (f"Salty by itself: {masses(over, case.units)}.",) if over else ()
    return judged(words, *named, is_for=salt > SALTIEST, is_against=salt <= NOT_SALTY)


def rich_in_nitrogen(case: Case) -> Found:
    """Feedings with their bedding below the carbon to nitrogen ratio that keeps ammonia down."""
    ratio = fed_blend(case).c_to_n if case.lately() else None
    if ratio is None:
        return unknown("The carbon and nitrogen of the last feedings are not known.")
    words = (
        f"The feedings of the last 4 weeks with their bedding came to C:N {ratio:.0f}; "
        f"{BEST_C_TO_N:.0f} was the best tried."
    )
    return judged(words, is_for=ratio < LEAST_C_TO_N, is_against=ratio >= BEST_C_TO_N)


def fed_blend(case: Case) -> Blend:
    """The scraps of the last four weeks with the bedding given with them."""
    bedding = [pair for meal in case.lately() for pair in meal.bedding_kg.items()]
    return case.blend(case.scraps()).plus(*(_bedding(name, kg, case) for name, kg in bedding))


def _bedding(name: str, kg: float, case: Case) -> Part:
    row = case.pantry.meant(name)
    return Part(row.stuff if row is not None and row.moisture is not None else Stuff(name, 0.08), kg)


def water_left_over(case: Case) -> Found:
    """More water from the scraps than the bedding given with them, and that below, takes up."""
    if not case.meals:
        return unknown(f"No feeding of {case.who} is written down.")
    water = sum(surplus(kg, case.row(name).moisture or 0.0) for name, kg in case.scraps().items())
    takes = SOAKED * bedding_lately(case)
    brought, taken = (show_volume(max(0.0, litres), case.units) for litres in (water, takes))
    words = (
        f"The scraps of the last 4 weeks brought about {brought} of water more than their castings hold; "
        f"the bedding given takes up about {taken}."
    )
    return judged(words, is_for=takes < water / 2, is_against=takes >= water)


def bedding_lately(case: Case) -> float:
    """Bedding given with the last four weeks' feedings, kg, and that of trays that wait as bedding."""
    given = sum(sum(meal.bedding_kg.values()) for meal in case.lately())
    waiting = (sum(t.bedding_kg.values()) for t in case.trays if t.stage is Stage.BEDDING)
    return given + math.fsum(waiting)


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


def bedding_late(case: Case) -> Found:
    """How long ago bedding was last put in."""
    given = [meal.at for meal in case.meals if meal.bedding_kg]
    given += [tray.started_at for tray in case.trays if tray.bedding_kg]
    if not given:
        return unknown(f"No bedding of {case.who} is written down.")
    last = max(given)
    days = days_between(last, case.now)
    words = f"Bedding was last put in {int(days)} days ago; it is asked for every two to three weeks."
    return judged(words, is_for=days > NEXT_BEDDING_DAYS, is_against=days <= SOON_BEDDING_DAYS)


FED_OVER = Evidence("fed-over", fed_over, Check.FEEDINGS, NEW_YORK)
FED_UNDER = Evidence("fed-under", fed_under, Check.FEEDINGS, NEW_YORK)
UNEATEN_MUCH = Evidence("uneaten-much", uneaten_much, Check.FEEDINGS, NEW_YORK)
SALTY_FED = Evidence("salty-fed", salty, Check.FEEDINGS, KAPLAN)
RICH_IN_NITROGEN = Evidence("rich-in-nitrogen", rich_in_nitrogen, Check.FEEDINGS, NDEGWA)
WATER_LEFT_OVER = Evidence("water-left-over", water_left_over, Check.FEEDINGS, BULKING)
FED_THICK = Evidence("fed-thick", fed_thick, Check.FEEDINGS, SHERMAN)
FED_BARE = Evidence("fed-bare", fed_bare, Check.FEEDINGS, RECYCLEWORKS)
BEDDING_LATE = Evidence("bedding-late", bedding_late, Check.FEEDINGS, EULESS)
