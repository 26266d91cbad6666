"""Goals that a meal does not bring its tray to, and what stands in the way."""

from __future__ import annotations

from trayturn.advice.composing.ground import Goals
from trayturn.advice.composing.minding import Mind, Press
from trayturn.advice.composing.report import Report
from trayturn.advice.composing.telling import percent
from trayturn.advice.pages import Page
from trayturn.domain.words import clean, listed

GOALS = "your own goals, solved by mass balance (Cornell Composting 1996)"
NEAR = 0.05
"""Moisture within 5 points of the goal is at it: no finger tells it closer. Common practice, no source."""
CLOSE, NEAR_RATIO = 0.002, 0.1
"""How far rounding to what a scale shows may leave moisture and C:N from their goals."""


def missed_goals(found: Report, goals: Goals) -> tuple[Mind, ...]:
    """The goals that are not reached."""
    return tuple(one for one in (_moisture_missed(found, goals), _ratio_missed(found, goals)) if one)


def _moisture_missed(found: Report, goals: Goals) -> Mind | None:
    if found.after.wet_kg <= 0 or abs(found.after.moisture - goals.moisture) <= NEAR + CLOSE:
        return None
    wet = found.after.moisture > goals.moisture
    what = f"Moisture comes to about {percent(found.after.moisture)}, not {percent(goals.moisture)}."
    why = (
        "More bedding does not fit, or is not dry enough." if wet else "Water alone does not bring it there."
    )
    return Mind(Press.KNOW, "goal:moisture", what, why, GOALS, Page.MOISTURE)


def _ratio_missed(found: Report, goals: Goals) -> Mind | None:
    ratio = found.c_to_n_after
    if ratio is None and found.total_kg:
        names = listed(clean(name, 30) for name in found.blame) or "The bedding in the tray"
        why = f"{names[:1].upper()}{names[1:]} has no carbon or nitrogen in the table."
        return Mind(Press.KNOW, "goal:ratio", "C:N cannot be told.", why, GOALS, Page.HOW_SURE)
    if ratio is None or ratio.mid >= goals.c_to_n - NEAR_RATIO:
        return None
    what = f"C:N comes to about {ratio.mid:.0f}, not {goals.c_to_n:g}."
    why = "More bedding does not fit, or holds too little carbon."
    return Mind(Press.KNOW, "goal:ratio", what, why, GOALS, Page.MEALS)
