"""A planned turn day, whole: moves, lifts, time, stock, tools, cautions, and what speaks for waiting."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trayturn.advice.bands import rough_mass
from trayturn.advice.cautions import Caution, cautions_for
from trayturn.advice.pantry import Pantry
from trayturn.advice.stock.turn_words import short_line, stock_line, support_lines
from trayturn.advice.stock.turns import TurnSupport, turn_supported
from trayturn.advice.turn_day.lifts import LiftTold, index_words, lift_line, lifts_told
from trayturn.advice.turn_day.moving import Moving, moving_to
from trayturn.advice.turn_day.plan import DayPlan, Wish, plan_day
from trayturn.advice.turn_day.readiness import NotReady, not_ready
from trayturn.advice.turn_day.telling import lacking_words
from trayturn.advice.turn_day.times import DayTime, day_time, minutes_words
from trayturn.domain.stack import Stack
from trayturn.domain.words import count, listed

TOOLS = (
    "gloves",
    "a tub for castings",
    "one for overs",
    "a scale",
    "a bright light",
    "a scoop",
    "bedding",
    "a jug for the sump",
)
"""Common practice, no source."""
SMELL_OF = "ammonia"


@dataclass(frozen=True, slots=True)
class Whole:
    """All that a keeper needs before the day begins."""

    plan: DayPlan
    moving: Moving
    lifts: tuple[LiftTold, ...]
    time: DayTime
    waits: tuple[NotReady, ...]
    support: TurnSupport | None
    cautions: tuple[Caution, ...]

    @property
    def heaviest(self) -> LiftTold | None:
        """The lift with the highest index."""
        return max(self.lifts, key=lambda one: one.index, default=None)


def whole_day(stack: Stack, pantry: Pantry, wish: Wish | None = None) -> Whole:
    """The plan of a day with everything that belongs to it."""
    plan = plan_day(stack, wish)
    stages = {tray.id: tray.stage for tray in stack.trays}
    before = [tray.id for tray in stack.trays]
    moving = moving_to(before, plan.whole, plan.separating, stages, stack.setup)
    loosened = len([tray for tray in plan.order if tray in before])
    return Whole(
        plan,
        moving,
        lifts_told(stack, moving, pantry),
        day_time(stack, moving, len(plan.separating), loosened),
        not_ready(stack, plan, pantry),
        turn_supported(stack, stack.as_of),
        _cautions(stack),
    )


def _cautions(stack: Stack) -> tuple[Caution, ...]:
    """Those of turning and separating, each once; with ammonia, where the bin smelled of it, before all."""
    found = {one.code: one for work in ("turn", "separation") for one in cautions_for(work)}
    if stack.smelled is not None and SMELL_OF in stack.smelled.smell.casefold():
        first = next(one for one in cautions_for("putting_right") if one.code == SMELL_OF)
        found = {first.code: first, **found}
    return tuple(found.values())


def short_lines(whole: Whole, stack: Stack) -> tuple[str, ...]:
    """The day at a glance: what speaks for waiting first, then stock, time and the heaviest lift."""
    return tuple(_short(whole, stack))


def _short(whole: Whole, stack: Stack) -> Iterator[str]:
    yield from whole.plan.wrong
    yield from (f"{one.what} {one.to_do}" for one in whole.waits)
    if whole.moving.lacking:
        yield lacking_words(whole.moving.lacking, whole.moving.places)
    if whole.plan.comes_back is not None:
        yield f"Tray {whole.plan.comes_back} comes back with fresh bedding once it is separated."
    if whole.plan.left_out:
        yield "No fresh tray comes in. Put one in once there is bedding for it."
    elif whole.support is not None and not whole.plan.by_hand:
        yield short_line(whole.support) if whole.support.short else stock_line(whole.support)
        yield from support_lines(whole.support)[1:]
    yield time_line(whole)
    if whole.heaviest is not None:
        yield heaviest_line(whole, stack)


def time_line(whole: Whole) -> str:
    """`2 to 3 h in all, of which 1 to 1.5 h with your hands in it (3 turn days of yours).`"""
    time = whole.time
    hands = minutes_words(time.hands)
    return f"Time: {minutes_words(time.minutes)} in all, {hands} of it hands on ({time.basis})."


def heaviest_line(whole: Whole, stack: Stack) -> str:
    """How many lifts, and the hardest of them."""
    hard = whole.heaviest
    if hard is None:
        return "Nothing has to be lifted."
    weight = f"tray {hard.lift.tray}, about {rough_mass(hard.kg.mid, stack.setup.units)} ({hard.basis})"
    lifts = count(len(whole.lifts), "lift")
    places = count(whole.moving.places, "place")
    return f"{lifts} with {places} beside it; the hardest: {weight}, {index_words(hard.index)}."


def full_lines(whole: Whole, stack: Stack) -> list[str]:
    """All of it, part by part, for a longer read."""
    lines = ["To know first", *(f"- {line}" for line in short_lines(whole, stack)), ""]
    lines += ["Lifts, one after the other"]
    lines += [
        lift_line(told, stack, whole.moving.places, number) for number, told in enumerate(whole.lifts, 1)
    ] or ["Nothing has to be lifted."]
    lines += ["", f"Tools: {listed(TOOLS)}.", "", *_meal_lines(whole, stack), ""]
    lines += ["Cautions today", *(f"- {one.title}. {one.to_do}" for one in whole.cautions)]
    return lines


def _meal_lines(whole: Whole, stack: Stack) -> Iterator[str]:
    """What the first meal of the new feeding tray is likely to take, by the keeper's last ones."""
    meals = [meal for meal in stack.last_feedings if meal.items_kg]
    if whole.plan.fed is None:
        return
    if not meals:
        yield f"Tray {whole.plan.fed} is fed first: have a small meal and its bedding at hand."
        return
    scraps = [sum(meal.items_kg.values()) for meal in meals]
    bedding = [sum(meal.bedding_kg.values()) for meal in meals]
    units = stack.setup.units
    mean, dry = sum(scraps) / len(scraps), sum(bedding) / len(bedding)
    with_dry = f" and {rough_mass(dry, units)} of bedding" if dry > 0 else ""
    yield (
        f"First meal of tray {whole.plan.fed}: about {rough_mass(mean, units)} of scraps{with_dry}, "
        f"as in your last {count(len(meals), 'meal')}."
    )
