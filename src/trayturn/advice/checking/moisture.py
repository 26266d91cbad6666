"""Moisture judged, by percent or by the squeeze, and the water or dry bedding that puts it right."""

from __future__ import annotations

from datetime import datetime, timedelta

from trayturn.advice.bands import percent_band, rough_mass, said
from trayturn.advice.checking.additions import (
    Addition,
    bedding_for,
    dry_bedding,
    room_kg,
    stock_words,
    water_for,
)
from trayturn.advice.checking.history import Point
from trayturn.advice.checking.kinds import Kind, value_of
from trayturn.advice.checking.ranges import GOAL_PCT, Range, Standing, range_of, stands
from trayturn.advice.checking.scene import Scene
from trayturn.advice.checking.trend import trend
from trayturn.advice.checking.verdict import LEVELS, Verdict
from trayturn.advice.contents import Contents
from trayturn.advice.pantry import Pantry
from trayturn.advice.phrases import when
from trayturn.domain.entries import Feel
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.units import three_figures
from trayturn.science.drying import moisture_by_drying

HUNGRY_DAYS = 7
"""A week at least without food for a bin that is too wet (Oregon Metro, of bins that have turned foul)."""
WORDS = {
    Standing.BELOW: "too dry",
    Standing.LOW: "on the dry side",
    Standing.FINE: "fine",
    Standing.HIGH: "on the wet side",
    Standing.ABOVE: "too wet",
}
SQUEEZE = (
    "Take a handful from the middle,",
    "squeeze it hard, and look:",
    "1 dry: crumbles  2 damp: holds",
    "3 moist: a drop or two  4 wet: runs",
)
"""The squeeze test in four short lines."""
SQUEEZE_SURE = "Common practice, no source."
PERCENT_MEANS = (
    "Percent is water as a share of the fresh mass (Cornell Composting 1996). A soil meter's own scale is not"
    " that: weigh a sample wet and dried, and compare."
)
ELSEWHERE = "Mix part of the tray into one with dry bedding, if there is one."
DRYING_OUT = "Dry bedding, an open lid and no food for a while: Euless, Texas, guidance after Appelhof."


def percent_by_drying(container_kg: float, wet_kg: float, dry_kg: float) -> float:
    """Moisture in percent, of a sample weighed in its container wet and dried. Raises `ValueError`."""
    return 100 * moisture_by_drying(container_kg, wet_kg, dry_kg)


def judge_moisture(point: Point, scene: Scene) -> Verdict:
    """How a moisture reading stands. A squeeze that runs counts as above the limit."""
    known = range_of(Kind.MOISTURE, scene.stack.setup)
    assert known is not None
    standing = Standing.ABOVE if point.value is Feel.WET else stands(point.number, known)
    addition = addition_for(standing, scene)
    word = WORDS[standing]
    return Verdict(
        Kind.MOISTURE,
        LEVELS[standing],
        word,
        f"{word.capitalize()}: {_reading(point)}{_limit(standing, known)}.",
        point.at,
        tuple(_to_do(standing, addition, scene)),
        tuple(_why(known, addition, scene)),
        addition,
        trend(scene.points(Kind.MOISTURE)),
        standing,
    )


def to_do_about(tray: TrayState, stack: Stack, pantry: Pantry) -> str:
    """What to do first about the tray's last moisture reading; empty where nothing has to be done."""
    check = tray.last_moisture
    value = value_of(check, Kind.MOISTURE) if check is not None else None
    if check is None or value is None:
        return ""
    verdict = judge_moisture(Point(check.at, Kind.MOISTURE, value), Scene(stack, tray, {}, pantry))
    return verdict.do[0] if verdict.do else ""


def addition_for(standing: Standing, scene: Scene) -> Addition | None:
    """What brings the tray to 75 %: water or dry bedding; None where nothing has to."""
    contents, setup = scene.contents, scene.stack.setup
    if contents is None or scene.tray is None or standing is Standing.FINE:
        return None
    if standing < Standing.FINE:
        return water_for(contents, GOAL_PCT, setup)
    return bedding_for(contents, GOAL_PCT, setup, dry_bedding(scene.stack, scene.tray, scene.pantry))


def _reading(point: Point) -> str:
    if point.by_feel:
        return f"about {point.number:.0f} % by the squeeze"
    return f"{three_figures(point.number)} %"


def _limit(standing: Standing, known: Range) -> str:
    least, most = known.limits
    if standing is Standing.BELOW:
        return f"; worms need {least:.0f} % at least"
    return f"; {most:.0f} % is the most" if standing is Standing.ABOVE else ""


def _to_do(standing: Standing, addition: Addition | None, scene: Scene) -> list[str]:
    if standing is Standing.FINE:
        return []
    dry = standing < Standing.FINE
    lines = [_add(addition, scene) if addition else _no_amount(dry, scene)]
    if dry:
        return [*lines, "Sprinkle it over, mix, and look again a day after each part."]
    if addition and (stock := stock_words(scene.stack, addition.stuff, scene.pantry)):
        lines.append(stock)
    if addition and not _fits(addition, scene):
        lines.append(ELSEWHERE)
    if standing is Standing.ABOVE:
        lines.append("Let it drain with the lid open meanwhile.")
    return [*lines, _hold(standing, scene.stack.as_of)]


def _add(addition: Addition, scene: Scene) -> str:
    verb, units = "Add" if addition.is_water else "Mix in", scene.units
    if not _fits(addition, scene):
        first = f"Mix in {addition.first(units)} now, and as much again over some days"
        return f"{first}: {addition.words(units)} in all, for {addition.goal}, is more than fits."
    return f"{verb} {addition.words(units)} in all, for {addition.goal}: {addition.at_once(units)}."


def _fits(addition: Addition, scene: Scene) -> bool:
    """Whether so much can go into a tray that is filled already."""
    return addition.is_water or addition.kg.low <= room_kg(scene.stack.setup, addition.stuff)


def _no_amount(dry: bool, scene: Scene) -> str:
    do = "Add water a little at a time" if dry else "Mix in dry bedding a little at a time"
    if scene.tray is None:
        return f"{do}. How much is reckoned for one tray, not for the whole bin."
    return f"{do}. How much is not known: what this tray holds was not noted, or it is there by now."


def _hold(standing: Standing, now: datetime) -> str:
    if standing is Standing.HIGH:
        return "Feed the next meal with dry bedding, or a few days later."
    again = when(now + timedelta(days=HUNGRY_DAYS), now)
    return f"Feed nothing until it is 85 % or less; look again {again}."


def _why(known: Range, addition: Addition | None, scene: Scene) -> list[str]:
    lines = [*known.lines, PERCENT_MEANS]
    contents = scene.contents
    if addition is not None and not addition.is_water:
        lines.append(DRYING_OUT)
    if addition is not None and contents is not None:
        lines.append(_rests_on(contents, addition, scene))
    return lines


def _rests_on(contents: Contents, addition: Addition, scene: Scene) -> str:
    holds = said(contents.wet_kg, lambda kg: rough_mass(kg, scene.units))
    return (
        f"The amount is a mass balance over {holds} in the tray at {percent_band(contents.moisture)}, by"
        f" {contents.basis}. How much at once is common practice, no source."
    )
