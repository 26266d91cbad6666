"""What the sums of the ledger say, and how a share or a yield is said in it."""

from __future__ import annotations

from trayturn.advice.bands import Band, mass_band, percent_band, rough_mass
from trayturn.advice.contents import LOST
from trayturn.advice.ledger.books import Ledger, Own, Totals
from trayturn.advice.ledger.castings import Castings
from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass, two_figures
from trayturn.domain.words import count, masses

STAYS = Band(1 - LOST.high, 1 - LOST.mid, 1 - LOST.low)
"""The share of solids that stays as castings, as published."""
STAYS_SOURCE = "50 +- 10 % of solids lost, Pondicherry University, at second hand"
NOTHING_YET = (
    "No tray was separated and emptied yet.",
    "",
    "A line will stand here for each: what went into the tray, what castings came of it, and how much that "
    "is for each kilogram of scraps. Castings count as they are weighed: when all is settled, as a lot, or "
    "skim by skim. What nobody weighed is never guessed.",
)


NO_FORECASTS = "No forecast could be made again: that takes turns that were fed and weighed"


def castings_words(castings: Castings, units: Units) -> str:
    """`4.26 kg`, `at least 2.1 kg`, `not weighed`."""
    if castings.kg is None:
        return "not weighed"
    kg = show_mass(castings.kg, units)
    return kg if castings.whole else f"at least {kg}"


def weighed_words(totals: Totals) -> str:
    """`2 of 5 turns weighed`, and how many only in part."""
    part = f", {totals.in_part} more in part" if totals.in_part else ""
    return f"{totals.weighed} of {count(totals.turns, 'turn')} weighed{part}"


def ratio(value: float | None) -> str:
    """So much for one: `0.65`; two figures, for no keeper weighs scraps finer. `-` where it is not known."""
    return "-" if value is None else f"{two_figures(value):g}"


def against_published(kept: Band) -> str:
    """The keeper's share beside the published one, and how they agree."""
    published = f"Published: {percent_band(STAYS)} ({STAYS_SOURCE})."
    if kept.low > STAYS.high:
        return f"{published} Yours is more: look for a feeding that was not written down."
    if kept.high < STAYS.low:
        return f"{published} Yours is less: castings left in the tray, or long rotted down."
    return f"{published} Yours agrees with it."


def sum_line(what: str, totals: Totals, units: Units) -> str:
    """`In all: 5 of 5 turns weighed, 22.4 kg of castings. In went 35.7 kg of scraps and ...`"""
    least = "at least " if totals.in_part else ""
    got = f", {least}{show_mass(totals.castings_kg, units)} of castings" if totals.castings_kg else ""
    inputs = {"scraps": totals.scraps_kg, "bedding": totals.bedding_kg, "grit": totals.grit_kg}
    held = {name: kg for name, kg in inputs.items() if kg}
    went = f" In went {masses(held, units)}." if held else ""
    missing = totals.turns - totals.weighed - totals.in_part
    note = f" What {missing} gave is not known." if missing and totals.castings_kg else ""
    return f"{what}: {weighed_words(totals)}{got}.{went}{note}"


def yield_line(totals: Totals, units: Units) -> str:
    """The keeper's own yield, mean and spread: `Your yield: 0.63 kg of castings for each kg of scraps ...`"""
    if totals.per_solids is None:
        return "" if not totals.turns else "No yield yet: no turn has all of its castings weighed."
    unit = "lb" if units is Units.US else "kg"
    scraps = f"{_own(totals.per_scraps)} for each {unit} of scraps, " if totals.per_scraps else ""
    solids = _own(totals.per_solids)
    turns = count(totals.per_solids.turns, "turn")
    return f"Your yield, {unit} of castings: {scraps}{solids} for each {unit} of dry solids; from {turns}."


def _own(own: Own) -> str:
    """`0.63 (0.58 to 0.65)`: the mean, the least and the most."""
    ends = f" ({ratio(own.low)} to {ratio(own.high)})" if own.turns > 1 else ""
    return f"{ratio(own.mean)}{ends}"


def kept_line(totals: Totals) -> str:
    """The share of solids that stayed, over all turns that tell of it, beside the published one."""
    if totals.kept is None:
        return ""
    return f"Of the solids {percent_band(totals.kept)} stayed. {against_published(totals.kept)}"


def forecast_line(totals: Totals, units: Units) -> str:
    """Castings against what had been forecast, and how often the band held; empty without forecasts."""
    told = totals.foretold
    if told is None:
        return ""
    held = f"for {told.held} of {count(told.turns, 'turn')}"
    bands = f"{mass_band(told.forecast_kg, units)}{' in all' if told.turns > 1 else ''}"
    return (
        f"The outlook had led to expect {bands}; {show_mass(told.castings_kg, units)} came. "
        f"Its band held {held}; it is meant to hold for 8 in 10."
    )


def under_way_lines(ledger: Ledger, name: str = "") -> list[str]:
    """What has come so far of separations that are not finished; with the bin's `name` among others."""
    told = []
    for tray, castings in ledger.under_way.items():
        whose = f"{name}, tray {tray}" if name else f"Tray {tray}"
        so_far = f": {castings_words(castings, ledger.units)} so far, in no sum yet" if castings.kg else ""
        told.append(f"{whose} is being separated{so_far}.")
    return told


ABOUT = (
    "A turn counts in the year in which its separation ended. Castings are weighed wet.",
    "What still lies in trays on the stack is in no sum, nor what was moved from tray to tray unweighed.",
)
"""What the sums are of."""


def sum_story(what: str, totals: Totals, units: Units) -> list[str]:
    """All that the sums of some turns say."""
    spread = totals.per_scraps.sd if totals.per_scraps is not None else None
    differ = f"From turn to turn it differs by {ratio(spread)} (standard deviation)." if spread else ""
    lines = (
        sum_line(what, totals, units),
        yield_line(totals, units),
        differ,
        forecast_line(totals, units),
        kept_line(totals),
    )
    dry = f"About {rough_mass(totals.solids_kg, units)} of what went in was dry solids, by the table."
    return [line for line in (*lines, dry if totals.solids_kg else "", *ABOUT) if line]
