"""Past forecasts against what came, in words."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from trayturn.advice.bands import rough_mass
from trayturn.advice.outlook.result import PastForecast, Skill
from trayturn.advice.outlook.score import ENOUGH, worse_than_thumb
from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass
from trayturn.domain.words import count, day

NOTHING = "No castings are weighed yet. Write down what they weigh, and forecasts are scored here."
HELD = {True: "within the band", False: "outside the band", None: ""}


def verdict(skill: Skill) -> str:
    """What the outlook goes by, and why."""
    if worse_than_thumb(skill):
        return "So the outlook gives harvests by the rule of thumb for now."
    if skill.harvests < ENOUGH:
        tell = "tells" if skill.harvests == 1 else "tell"
        return f"{count(skill.harvests, 'harvest')} {tell} too little yet to choose between the two."
    return "So the outlook goes by the model."


def past_lines(one: PastForecast, now: datetime, units: Units) -> Iterator[str]:
    """One forecast: what came, and below it what had been said."""
    came = "not weighed" if one.came is None else show_mass(one.came, units)
    held = f", {HELD[one.held]}" if HELD[one.held] else ""
    yield f"Tray {one.tray}, {day(one.target_at, now)}: {came}{held}"
    band = f"{rough_mass(one.p10, units)} to {rough_mass(one.p90, units)}"
    yield (
        f"  forecast {day(one.made_at, now)}: about {rough_mass(one.p50, units)} ({band}); "
        f"rule of thumb {rough_mass(one.thumb, units)}"
    )
