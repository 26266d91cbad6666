"""What the bin itself says: how old it is, how many worms it was given, and what its tray is about."""

from __future__ import annotations

from trayturn.advice.phrases import aged
from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.parts import Check, Evidence, Found
from trayturn.advice.trouble.says import judged, unknown
from trayturn.advice.trouble.sources import EDWARDS_DEPTH, NDEGWA_RATE, PRACTICE, SHERMAN
from trayturn.domain.entries import Stage
from trayturn.domain.stack import days_between
from trayturn.domain.units import show_mass, three_figures
from trayturn.domain.words import count
from trayturn.science.ration import STOCKING_KG_M2

NEW_DAYS, SETTLED_DAYS = 30.0, 60.0
"""When a bin counts as new, and when as settled. Our choice."""
CROWDED = 3.0
"""Times the published best density: what windrows are stocked with (Sherman, 5 kg/m2)."""
FED_OUT_DAYS, FED_DAYS = 30.0, 14.0
"""After how many days without food a tray counts as worked out, and within how many as fed. Our choice."""


def bin_new(case: Case) -> Found:
    """A bin that is still settling."""
    began = case.stack.began_at
    if began is None:
        return unknown("When the bin began is not written down.")
    days = days_between(began, case.now)
    words = f"The bin is {aged(days)} old."
    return judged(words, is_for=days < NEW_DAYS, is_against=days >= SETTLED_DAYS)


def worms_few(case: Case) -> Found:
    """Fewer worms than a tray is best stocked with."""
    if case.worms_kg is None:
        return unknown("No worms are written down for this bin.")
    best = STOCKING_KG_M2 * case.stack.setup.tray_area_m2
    words = (
        f"{show_mass(case.worms_kg, case.units)} of worms is written down; one tray of this size is best "
        f"stocked with {show_mass(best, case.units)}. What has grown since is not in it."
    )
    return judged(words, is_for=case.worms_kg < best / 2, is_against=case.worms_kg >= best)


def worms_crowded(case: Case) -> Found:
    """More worms than the trays they work in have room for."""
    if case.worms_kg is None:
        return unknown("No worms are written down for this bin.")
    working = [tray for tray in case.stack.trays if tray.stage is not Stage.BEDDING]
    area = case.stack.setup.tray_area_m2 * max(1, len(working))
    times = case.worms_kg / (STOCKING_KG_M2 * area)
    words = (
        f"{show_mass(case.worms_kg, case.units)} of worms is written down: {three_figures(times)} times the "
        f"best density tried, in the {count(max(1, len(working)), 'tray')} they work in. Windrows are at 3."
    )
    return judged(words, is_for=times > CROWDED, is_against=times <= 1)


def tray_spent(case: Case) -> Found:
    """A tray that is no longer fed: its worms go where the food is."""
    tray = case.trays[0] if case.tray and case.trays else None
    if tray is None:
        return unknown("Which tray it is about was not said.")
    last = tray.last_fed_at or tray.started_at
    days = days_between(last, case.now)
    fed = f"last fed {aged(days)} ago" if tray.last_fed_at else "never fed"
    words = f"Tray {tray.id} is {tray.stage}, {fed}."
    spent = tray.stage in (Stage.FINISHING, Stage.SEPARATING) or days > FED_OUT_DAYS
    return judged(words, is_for=spent, is_against=days <= FED_DAYS and tray.stage is Stage.FEEDING)


BIN_NEW = Evidence("bin-new", bin_new, Check.BEGAN, PRACTICE)
WORMS_FEW = Evidence("worms-few", worms_few, Check.WORMS, NDEGWA_RATE)
WORMS_CROWDED = Evidence("worms-crowded", worms_crowded, Check.WORMS, SHERMAN)
TRAY_SPENT = Evidence("tray-spent", tray_spent, Check.ONE_TRAY, EDWARDS_DEPTH)
