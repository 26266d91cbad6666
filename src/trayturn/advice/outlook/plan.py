"""What a keeper does from now on: the habits in the journal, or the bin's own setup and common practice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta
from itertools import pairwise
from statistics import median

from trayturn.advice.contents import ROOM_C
from trayturn.advice.outlook.history import History
from trayturn.advice.outlook.result import Plan
from trayturn.advice.pantry import SCRAPS
from trayturn.advice.phrases import every
from trayturn.advice.roles import size
from trayturn.advice.stock.habits import a_tray, main_bedding
from trayturn.advice.stock.thumb import cover
from trayturn.domain.entries import Checked, Fed, Turned
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack, days_between
from trayturn.domain.supplies import fold
from trayturn.domain.units import round_mass, show_mass, show_temperature, three_figures
from trayturn.domain.words import count
from trayturn.science.ration import area_rule

LATELY = timedelta(days=120)
"""Meals as far back as this make the habit. Our choice, as are those below."""
FEWEST_MEALS, FEWEST_TURNS = 3, 3
SHORTEST_DAYS = 21.0
A_WEEK = 7.0
FRESH_DAYS = 30.0
"""A temperature read longer ago than this is not that of today."""


@dataclass(frozen=True, slots=True)
class _Meals:
    """Meals of late: how much scraps a week, how often, and what goes along with a kg of scraps."""

    per_week: float
    every_days: float
    bedding_ratio: float
    water_ratio: float
    mix: dict[str, float]
    said: str


def plan_of(stack: Stack, history: History) -> Plan:
    """The plan that goes on as until now."""
    meals = _meals(stack, history)
    turn_days, off_days, turns_said = _turns(stack, history)
    celsius, warmth_said = _celsius(history, stack.setup.units)
    bedding = main_bedding(stack)
    fresh = a_tray(stack, fold(bedding), True)
    fresh_said = f"A fresh tray: {_kg(fresh.one.mid, stack)}, {fresh.basis}."
    return Plan(
        turn_every_days=turn_days,
        trays=size(stack),
        scraps_kg_per_week=meals.per_week,
        bedding_ratio=meals.bedding_ratio,
        feed_every_days=meals.every_days,
        fresh_bedding_kg=fresh.one.mid,
        celsius=celsius,
        bedding=bedding,
        fresh_water_kg=median([start.water_kg or 0.0 for start in stack.last_starts] or [0.0]),
        water_ratio=meals.water_ratio,
        turn_off_days=off_days,
        mix=meals.mix,
        said=(meals.said, turns_said, fresh_said, warmth_said),
    )


def _kg(kg: float, stack: Stack) -> str:
    units = stack.setup.units
    return show_mass(round_mass(kg, units), units)


def _meals(stack: Stack, history: History) -> _Meals:
    all_of_them = [one.entry for one in history.tolds if isinstance(one.entry, Fed) and one.entry.items_kg]
    lately = [meal for meal in all_of_them if meal.at > stack.as_of - LATELY] or all_of_them[-FEWEST_MEALS:]
    if not lately:
        return _thumb(stack)
    total = sum(sum(meal.items_kg.values()) for meal in lately)
    return _Meals(
        *_pace(lately, total, stack),
        sum(sum(meal.bedding_kg.values()) for meal in lately) / total,
        sum(meal.water_kg or 0.0 for meal in lately) / total,
        _mix(lately, total),
        _meals_said(lately, total, stack),
    )


def _pace(lately: Sequence[Fed], total: float, stack: Stack) -> tuple[float, float]:
    """Scraps a week and days between meals: their own, or by the setup while there are too few to tell."""
    if not _tell(lately, stack):
        days = stack.setup.days_between_feedings
        return total / len(lately) * A_WEEK / days, days
    gaps = [gap for one, two in pairwise(lately) if (gap := days_between(one.at, two.at)) > 0.5]
    days = median(gaps) if gaps else stack.setup.days_between_feedings
    return total / _weeks(lately, stack), max(1.0, days)


def _tell(lately: Sequence[Fed], stack: Stack) -> bool:
    return len(lately) >= FEWEST_MEALS and days_between(lately[0].at, stack.as_of) >= SHORTEST_DAYS


def _weeks(lately: Sequence[Fed], stack: Stack) -> float:
    """The weeks that these meals were for: the last one is for as long as those between them."""
    span = days_between(lately[0].at, lately[-1].at)
    own = span * len(lately) / (len(lately) - 1)
    return max(own, days_between(lately[0].at, stack.as_of)) / A_WEEK


def _mix(lately: Sequence[Fed], total: float) -> dict[str, float]:
    mix: dict[str, float] = {}
    for meal in lately:
        for name, kg in meal.items_kg.items():
            mix[name] = mix.get(name, 0.0) + kg / total
    return mix


def _meals_said(lately: Sequence[Fed], total: float, stack: Stack) -> str:
    per_week, days = _pace(lately, total, stack)
    told = f"Scraps: {_kg(per_week, stack)} a week, {every(round(days))}"
    if _tell(lately, stack):
        return f"{told}, as in your last {count(len(lately), 'meal')}."
    return f"{told}: as large as your {count(len(lately), 'meal')}, as often as this bin is set up."


def _thumb(stack: Stack) -> _Meals:
    setup = stack.setup
    per_week, days = area_rule(setup.tray_area_m2), setup.days_between_feedings
    scraps = per_week * days / A_WEEK
    said = (
        f"Scraps: {_kg(per_week, stack)} a week by the area rule (NC State AG-473-18), {every(days)}; "
        "no meal is written down yet."
    )
    return _Meals(per_week, days, cover(setup).mid / scraps, 0.0, {SCRAPS: 1.0}, said)


def _turns(stack: Stack, history: History) -> tuple[float, float, str]:
    """Days between turns, how far off one may be, and what that rests on."""
    turns = [one.at for one in history.tolds if isinstance(one.entry, Turned)]
    gaps = [gap for one, two in pairwise(turns) if (gap := days_between(one, two)) >= A_WEEK][-5:]
    usual = stack.setup.days_between_turns
    if len(gaps) + 1 < FEWEST_TURNS:
        return usual, A_WEEK, f"Turns: {every(usual)}, as this bin is set up."
    days = median(gaps)
    off = max(2.0, *(abs(gap - days) for gap in gaps))
    return days, off, f"Turns: {every(round(days))}, as your last {count(len(gaps) + 1, 'turn')}."


def _celsius(history: History, units: Units) -> tuple[float, str]:
    """As warm as it was read last; what was read long ago says only what is usual there."""
    read = [
        (one.entry.temperature_c, one.at)
        for one in history.tolds
        if isinstance(one.entry, Checked) and one.entry.temperature_c is not None
    ]
    if not read:
        return ROOM_C, f"Temperature: {show_temperature(ROOM_C, units)}, assumed."
    last, at = read[-1]
    if days_between(at, history.calendar.now) <= FRESH_DAYS:
        return last, f"Temperature: {show_temperature(last, units)}, as read last."
    usual = sum(celsius for celsius, _ in read) / len(read)
    return usual, f"Temperature: {show_temperature(usual, units)}, the mean of your readings."


def plan_words(plan: Plan, units: Units) -> Iterator[str]:
    """The plan in short lines."""
    yield (
        f"{show_mass(round_mass(plan.scraps_kg_per_week, units), units)} of scraps a week, "
        f"{every(round(plan.feed_every_days))}, with {three_figures(round(plan.bedding_ratio, 2))} parts of "
        f"dry bedding; a turn {every(round(plan.turn_every_days))}, {count(plan.trays, 'tray')}"
    )
