"""How a supply is used: what a feeding takes of it, what a fresh tray takes, and what goes otherwise."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from statistics import median

from trayturn.advice.bands import Band
from trayturn.advice.stock import thumb
from trayturn.domain.stack import Stack, days_between
from trayturn.domain.supplies import GRIT, LAST_USES, fold, gathered, used_by
from trayturn.domain.words import count
from trayturn.science.spread import Z_80, sum_off

USUAL_BEDDING = "shredded cardboard"
"""What fills a tray where the keeper has not named anything. Common practice, no source."""
BEDDING_WORDS = ("shred", "card", "paper", "carton", "lea", "straw", "coir", "peat", "bedding", "hay")
LEAST_SEEN = 3
"""So many feedings or trays of one's own say more than a rule of thumb. Our choice."""
GIVEN_UP_AFTER = 8
"""A supply that so many feedings in a row went without is taken as no longer given. Our choice."""
NONE = Band(0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Spread:
    """What one feeding or one tray takes, kg, and what that rests on.

    From `seen` uses of one's own that differ by `sd`, the band of a sum narrows with its length; a rule of
    thumb is as wide for many as for one.
    """

    one: Band = NONE
    basis: str = ""
    sd: float | None = None
    seen: int = 0

    def times(self, number: float) -> Band:
        """What so many take, kg."""
        if self.sd is None or not number:
            return self.one.times(number)
        mid, off = self.one.mid * number, sum_off(self.sd, self.seen, number)
        return Band(max(0.0, mid - off), mid, mid + off)


@dataclass(frozen=True, slots=True)
class Habit:
    """How one supply is used: at a feeding, for a fresh tray, and in a day otherwise, kg."""

    feeding: Spread
    tray: Spread
    a_day: Spread

    def need(self, feedings: float, trays: float, days: float) -> Band:
        """What so many feedings, fresh trays and days take, kg. Ends at their worst."""
        return self.feeding.times(feedings).plus(self.tray.times(trays)).plus(self.a_day.times(days))


def spread_of(kgs: Sequence[float]) -> float:
    """The standard deviation of two masses or more, kg. The library's own is exact, and 20 times as slow."""
    mean = sum(kgs) / len(kgs)
    return math.sqrt(sum((kg - mean) ** 2 for kg in kgs) / (len(kgs) - 1))


def main_bedding(stack: Stack) -> str:
    """The bedding a fresh tray is filled with, by its name as written.

    That is the most of what the last tray was filled with; or the bedding given most; or one in stock.
    """
    filled = [start.bedding_kg for start in stack.last_starts if start.bedding_kg]
    if filled:
        return max(filled[-1], key=lambda name: filled[-1][name])
    given: dict[str, float] = {}
    for meal in stack.last_feedings:
        for name, kg in meal.bedding_kg.items():
            given[name] = given.get(name, 0.0) + kg
    if given:
        return max(given, key=lambda name: given[name])
    stocked = (one.name for one in stack.supplies if any(word in fold(one.name) for word in BEDDING_WORDS))
    return next(stocked, USUAL_BEDDING)


def habit_of(stack: Stack, name: str) -> Habit:
    """How the supply of that folded name is used, by the keeper's own record or by rule of thumb."""
    is_main = name == fold(main_bedding(stack))
    return Habit(_a_feeding(stack, name, is_main), a_tray(stack, name, is_main), _a_day(stack, name))


def _a_feeding(stack: Stack, name: str, is_main: bool) -> Spread:
    given = given_at_feedings(stack, name)
    seen = len(given)
    if seen < LEAST_SEEN:
        return _thumb_feeding(stack, name, is_main)
    if not any(given[-GIVEN_UP_AFTER:]):
        return Spread(NONE, f"none in your last {count(min(seen, GIVEN_UP_AFTER), 'feeding')}")
    used_since = given[min(next(n for n, kg in enumerate(given) if kg), seen - LEAST_SEEN) :]
    mid, sd = sum(used_since) / len(used_since), spread_of(used_since)
    off = sum_off(sd, len(used_since), 1)
    one = Band(max(0.0, mid - off), mid, mid + off)
    return Spread(one, f"your last {count(len(used_since), 'feeding')}", sd, len(used_since))


def given_at_feedings(stack: Stack, name: str) -> list[float]:
    """What each of the last feedings took of a supply, kg, the oldest first; as scraps too where stocked."""
    stocked = any(fold(one.name) == name for one in stack.supplies)
    given = []
    for meal in stack.last_feedings:
        kg = used_by(meal).get(name, 0.0)
        given.append(kg + (gathered(meal.items_kg).get(name, 0.0) if stocked else 0.0))
    return given


def _thumb_feeding(stack: Stack, name: str, is_main: bool) -> Spread:
    units = stack.setup.units
    if is_main:
        words = f"rule of thumb: {thumb.cover_words(units)}; {thumb.shreds_words(units)}"
        return Spread(thumb.cover(stack.setup), words)
    if name == GRIT:
        return Spread(thumb.GRIT_KG, "rule of thumb: a teaspoon or two; common practice, no source")
    return Spread(NONE, "too few feedings written down yet to tell")


def a_tray(stack: Stack, name: str, is_main: bool) -> Spread:
    """What a fresh tray takes of a supply: the middle of the keeper's own, or for its bedding a rule."""
    filled = [gathered(start.bedding_kg) for start in stack.last_starts if start.bedding_kg]
    if not filled:
        return _thumb_tray(stack) if is_main else Spread(NONE, "")
    if name not in filled[-1]:
        return Spread(NONE, "none in your last tray")
    own = [bedding[name] for bedding in filled if name in bedding]
    mid, basis = median(own), f"the middle of {count(len(own), 'tray')} of yours"
    if len(own) < LEAST_SEEN:
        few = Band(mid * (1 - thumb.A_FIFTH), mid, mid * (1 + thumb.A_FIFTH))
        return Spread(few, f"{basis}, a fifth either way")
    sd = spread_of(own)
    off = sum_off(sd, len(own), 1)
    return Spread(Band(max(0.0, mid - off), mid, mid + off), basis, sd, len(own))


def _thumb_tray(stack: Stack) -> Spread:
    words = f"rule of thumb: a tray filled to the brim; {thumb.shreds_words(stack.setup.units)}"
    return Spread(thumb.tray_fill(stack.setup), words)


def _a_day(stack: Stack, name: str) -> Spread:
    """What goes otherwise, kg a day: its uses are rare, so a number n of them is off by its square root."""
    uses = [kg for use in stack.last_uses if (kg := gathered(use.supplies_kg).get(name))]
    days = days_in_sight(stack, [use.at for use in stack.last_uses], LAST_USES)
    if not uses or days < 7:
        return Spread(NONE, "")
    rate, off = sum(uses) / days, Z_80 / math.sqrt(len(uses))
    band = Band(rate * max(0.0, 1 - off), rate, rate * (1 + off))
    return Spread(band, f"{count(len(uses), 'use')} other than in a tray")


def days_in_sight(stack: Stack, moments: Sequence[datetime], most: int) -> float:
    """Days over which what is in sight happened: all of the bin's, or those since the oldest one kept."""
    began = moments[0] if len(moments) == most else stack.began_at
    return days_between(began, stack.as_of) if began is not None else 0.0
