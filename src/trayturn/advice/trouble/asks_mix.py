"""What the last feedings and their bedding come to as a mix: salt, nitrogen, water; and bedding's age."""

from __future__ import annotations

import math

from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.parts import Check, Evidence, Found
from trayturn.advice.trouble.says import judged, unknown
from trayturn.advice.trouble.sources import BULKING, EULESS, KAPLAN, NDEGWA
from trayturn.domain.entries import Stage
from trayturn.domain.stack import days_between
from trayturn.domain.units import show_volume
from trayturn.domain.words import masses
from trayturn.science.blend import Blend, Part, Stuff
from trayturn.science.limits import BEST_C_TO_N, LEAST_C_TO_N, SALTIEST
from trayturn.science.water import SOAKED, surplus

NOT_SALTY = SALTIEST / 2
"""Half the limit is not salty. Our choice."""
NEXT_BEDDING_DAYS, SOON_BEDDING_DAYS = 21.0, 14.0
"""Dry paper every two to three weeks (City of Euless)."""


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
    up = f"the bedding given takes up about {taken}" if takes else "no bedding was given to take it up"
    words = f"The scraps of 4 weeks brought about {brought} more water than their castings hold; {up}."
    return judged(words, is_for=takes < water / 2, is_against=takes >= water)


def bedding_lately(case: Case) -> float:
    """Bedding given with the last four weeks' feedings, kg, and that of trays that wait as bedding."""
    given = sum(sum(meal.bedding_kg.values()) for meal in case.lately())
    waiting = (sum(t.bedding_kg.values()) for t in case.trays if t.stage is Stage.BEDDING)
    return given + math.fsum(waiting)


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


SALTY_FED = Evidence("salty-fed", salty, Check.FEEDINGS, KAPLAN)
RICH_IN_NITROGEN = Evidence("rich-in-nitrogen", rich_in_nitrogen, Check.FEEDINGS, NDEGWA)
WATER_LEFT_OVER = Evidence("water-left-over", water_left_over, Check.FEEDINGS, BULKING)
BEDDING_LATE = Evidence("bedding-late", bedding_late, Check.FEEDINGS, EULESS)
