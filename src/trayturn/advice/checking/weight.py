"""A weighed tray: what is in it, what has changed since it was last weighed, and what was reckoned."""

from __future__ import annotations

from trayturn.advice.bands import Band, rough_mass, said
from trayturn.advice.checking.history import Point
from trayturn.advice.checking.kinds import Kind
from trayturn.advice.checking.scene import Scene
from trayturn.advice.checking.verdict import Level, Verdict
from trayturn.advice.phrases import when
from trayturn.domain.stack import TrayState
from trayturn.domain.units import show_mass

SCALE_KG = 0.05
"""What kitchen and luggage scales are off by at most when they are read alike. Common practice, no source."""


def judge_weight(point: Point, scene: Scene) -> Verdict:
    """The contents against the last weighing and the estimate; the weight is what counts from now on."""
    tray = scene.tray
    if tray is None:
        return Verdict(Kind.WEIGHT, Level.NOTED, "weighed", "Weighed; of which tray is not noted.", point.at)
    held = max(0.0, point.number - tray.empty_kg)
    reckoned = scene.reckoned(point.at)
    level, word, told = _against(held, reckoned.wet_kg if reckoned else None, scene)
    parts = [f"Contents {show_mass(held, scene.units)}", told]
    do = (change,) if (change := _change(point, tray, scene)) else ()
    why = (
        f"The empty tray weighs {show_mass(tray.empty_kg, scene.units)} by its settings.",
        "The estimate is reckoned from all that was put in, its age and its moisture.",
    )
    return Verdict(
        Kind.WEIGHT, level, word, f"{'; '.join(part for part in parts if part)}.", point.at, do, why
    )


def _against(held: float, band: Band | None, scene: Scene) -> tuple[Level, str, str]:
    """Inside the estimate, or heavier or lighter than it, and what that may mean."""
    if band is None or band.high <= 0:
        return Level.NOTED, "weighed", ""
    told = f"the estimate was {said(band, lambda kg: rough_mass(kg, scene.units))}"
    if held > band.high + SCALE_KG:
        return Level.WATCH, "heavier", f"{told}. Wetter than reckoned, or fed more than was noted"
    if held < band.low - SCALE_KG:
        return Level.WATCH, "lighter", f"{told}. Drier than reckoned, or broken down further"
    return Level.FINE, "as reckoned", told


def _change(point: Point, tray: TrayState, scene: Scene) -> str:
    """What has changed since the last weighing, beside what was put in meanwhile."""
    before = [one for one in scene.points(Kind.WEIGHT) if one.at < point.at]
    if not before:
        return ""
    last, units = before[-1], scene.units
    change = point.number - last.number
    put_in = sum(
        sum(meal.items_kg.values()) + sum(meal.bedding_kg.values()) + (meal.grit_kg or 0.0)
        for meal in tray.meals
        if last.at < meal.at <= point.at
    )
    moved = "Just as heavy as" if abs(change) < SCALE_KG else f"{show_mass(abs(change), units)} "
    if abs(change) >= SCALE_KG:
        moved += "more than" if change > 0 else "less than"
    told = f"{moved} {when(last.at, scene.stack.as_of)}"
    if not put_in:
        return f"{told}; nothing was put in since."
    return f"{told}; {show_mass(put_in, units)} was put in since, so {_gone(put_in - change, scene)}."


def _gone(kg: float, scene: Scene) -> str:
    if abs(kg) < SCALE_KG:
        return "none of it has gone"
    shown = show_mass(abs(kg), scene.units)
    return f"{shown} has gone as gas and water" if kg > 0 else f"{shown} more came in than was noted"
