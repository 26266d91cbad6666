"""What the keeper's readings say: how wet, how warm, how acid, and what the sump holds."""

from __future__ import annotations

from trayturn.advice.reading import FEEL_PCT
from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.parts import Check, Evidence, Found
from trayturn.advice.trouble.says import judged, of, unknown
from trayturn.advice.trouble.sources import BULKING, EDWARDS, KAPLAN, NC_WARMTH, SREENIVASAN
from trayturn.domain.entries import Checked, Stage
from trayturn.domain.units import show_temperature, show_volume, three_figures

WET_FOR_DAYS, WARM_FOR_DAYS, ACID_FOR_DAYS = 21.0, 14.0, 28.0
"""How long a reading of moisture or the sump, of warmth, and of acidity serves. Our choice."""
WET_PCT, NOT_WET_PCT = 85.0, 80.0
"""Worms grew best at 70 to 85 % (Kaplan et al. 1980). That from 80 % down is not too wet is our choice."""
DRY_PCT, NOT_DRY_PCT = 60.0, 70.0
"""The limit for Eisenia fetida (Edwards 1988), and the low end of what was best (Kaplan et al. 1980)."""
COLD_C, NOT_COLD_C = 13.0, 15.0
"""The low end of what extension sheets call good (55 F), and of the published best (Edwards 1988)."""
HOT_C, NOT_HOT_C = 29.0, 25.0
"""Inactive above this (Sreenivasan), and the upper end of what extension sheets call good (77 F)."""
ACID_PH, NOT_ACID_PH = 5.5, 6.5
"""Worms die below 5 and do best near 7 (Kaplan et al. 1980); half a step for a coarse strip is our choice."""
FULL, EMPTY = 0.25, 0.02
"""The shares of the sump that count as filling and as empty. Our choice."""


def percent_of(check: Checked) -> float | None:
    """The moisture that a check read, % of fresh mass; a squeeze as a rough figure."""
    if check.moisture_pct is not None:
        return check.moisture_pct
    return FEEL_PCT[check.feel] if check.feel is not None else None


def reads_wet(case: Case) -> Found:
    """The wettest of the latest readings."""
    read = _moistures(case, without_bedding=False)
    if not read:
        return unknown(f"Nobody has felt how wet {case.who} is in the last three weeks.")
    percent, check = max(read, key=lambda pair: pair[0])
    words = f"{_read(percent, check, case)}; worms do best at 70 to 85 %."
    return judged(words, is_for=percent > WET_PCT, is_against=percent <= NOT_WET_PCT)


def reads_dry(case: Case) -> Found:
    """The driest of the latest readings, but for bedding that waits: that is dry on purpose."""
    read = _moistures(case, without_bedding=True)
    if not read:
        return unknown(f"Nobody has felt how wet {case.who} is in the last three weeks.")
    percent, check = min(read, key=lambda pair: pair[0])
    words = f"{_read(percent, check, case)}; worms need 60 % or more."
    return judged(words, is_for=percent < DRY_PCT, is_against=percent >= NOT_DRY_PCT)


def _moistures(case: Case, *, without_bedding: bool) -> list[tuple[float, Checked]]:
    """The latest reading of each tray asked about, and of the bin as a whole. Of one tray, the latest."""
    latest: dict[str | None, tuple[float, Checked]] = {}
    waiting = {tray.id for tray in case.trays if tray.stage is Stage.BEDDING} if without_bedding else set()
    for tray in (None, *(tray.id for tray in case.trays if tray.id not in waiting)):
        check = _moisture_check(case, tray)
        if check is not None and (percent := percent_of(check)) is not None:
            latest[tray] = percent, check
    read = list(latest.values())
    return [max(read, key=lambda pair: pair[1].at)] if read and case.tray else read


def _moisture_check(case: Case, tray: str | None) -> Checked | None:
    return case.last_check(lambda one: percent_of(one) if one.tray == tray else None, WET_FOR_DAYS)


def _read(percent: float, check: Checked, case: Case) -> str:
    about = "" if check.moisture_pct is not None else "about "
    tray = f"Tray {check.tray}" if check.tray else "The bin"
    return f"{tray} was {about}{three_figures(percent)} % wet by its reading {of(check.at, case)}"


def sump_fills(case: Case) -> Found:
    """What the sump held when it was last looked at."""
    check = case.last_check(lambda one: one.sump_l, WET_FOR_DAYS)
    if check is None or check.sump_l is None:
        return unknown("Nobody has looked into the sump in the last three weeks.")
    share = check.sump_l / case.stack.setup.sump_capacity_l
    held = show_volume(check.sump_l, case.units) if check.sump_l else "nothing"
    capacity = show_volume(case.stack.setup.sump_capacity_l, case.units)
    words = f"The sump held {held} of its {capacity} by the look {of(check.at, case)}."
    return judged(words, is_for=share >= FULL, is_against=share <= EMPTY)


def reads_cold(case: Case) -> Found:
    """Colder than the sheets call good."""
    check = _warmth(case)
    if check is None or check.temperature_c is None:
        return unknown("Nobody has read a thermometer in the last two weeks.")
    limit = show_temperature(COLD_C, case.units)
    words = f"{_warm_words(check, case)}; extension sheets call {limit} and more good."
    celsius = check.temperature_c
    return judged(words, is_for=celsius < COLD_C, is_against=celsius >= NOT_COLD_C)


def reads_hot(case: Case) -> Found:
    """Hotter than worms stir at."""
    check = _warmth(case)
    if check is None or check.temperature_c is None:
        return unknown("Nobody has read a thermometer in the last two weeks.")
    limit = show_temperature(HOT_C, case.units)
    words = f"{_warm_words(check, case)}; above {limit} worms stop stirring."
    celsius = check.temperature_c
    return judged(words, is_for=celsius > HOT_C, is_against=celsius <= NOT_HOT_C)


def _warmth(case: Case) -> Checked | None:
    return case.last_check(lambda one: one.temperature_c, WARM_FOR_DAYS)


def _warm_words(check: Checked, case: Case) -> str:
    degrees = show_temperature(check.temperature_c or 0.0, case.units)
    return f"It was {degrees} by the reading {of(check.at, case)}"


def reads_acid(case: Case) -> Found:
    """A pH near the limit."""
    check = case.last_check(lambda one: one.ph, ACID_FOR_DAYS)
    if check is None or check.ph is None:
        return unknown("Nobody has read its pH in the last four weeks.")
    words = f"Its pH was {three_figures(check.ph)} by the reading {of(check.at, case)}; below 5 worms die."
    return judged(words, is_for=check.ph < ACID_PH, is_against=check.ph >= NOT_ACID_PH)


READS_WET = Evidence("reads-wet", reads_wet, Check.SQUEEZE, KAPLAN)
READS_DRY = Evidence("reads-dry", reads_dry, Check.SQUEEZE, EDWARDS)
SUMP_FILLS = Evidence("sump-fills", sump_fills, Check.SUMP, BULKING)
READS_COLD = Evidence("reads-cold", reads_cold, Check.THERMOMETER, NC_WARMTH)
READS_HOT = Evidence("reads-hot", reads_hot, Check.THERMOMETER, SREENIVASAN)
READS_ACID = Evidence("reads-acid", reads_acid, Check.PH, KAPLAN)
