"""What a turn day takes from the stock: bedding for fresh trays, and the first meal after it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import fmean

from trayturn.advice.bands import Band, mass_band, rough_mass
from trayturn.advice.stock.habits import a_tray, main_bedding
from trayturn.advice.stock.turn_words import short_line, stock_line, support_lines, verb
from trayturn.advice.stock.turns import TurnSupport, turn_supported
from trayturn.advice.turn_day.plan import DayPlan
from trayturn.domain.entries import Fed
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.supplies import SMALLEST_KG, fold
from trayturn.domain.words import clean, count, listed

LAST_MEALS = 5
"""So many of the latest meals tell what the next one takes. Our choice."""


@dataclass(frozen=True, slots=True)
class BeddingNeed:
    """The bedding of one kind that the day's fresh trays take, kg. `others_kg` is other bedding in stock.

    `stock_kg` is None where it was never counted. `meal_kg` is what the first meal is likely to take of it.
    """

    bedding: str
    trays: tuple[str, ...]
    need: Band
    basis: str
    stock_kg: float | None
    others_kg: float
    meal_kg: float

    @property
    def short_kg(self) -> float:
        """What is lacking for the trays, with other bedding used too; nothing where stock is not known."""
        if self.stock_kg is None:
            return 0.0
        return max(0.0, self.need.mid - self.stock_kg - self.others_kg)

    @property
    def short(self) -> bool:
        return self.short_kg > SMALLEST_KG

    @property
    def short_with_meal(self) -> bool:
        """Whether it does for the trays, but not for the first meal's bedding too."""
        left = (self.stock_kg or 0.0) + self.others_kg - self.need.mid
        return self.stock_kg is not None and not self.short and self.meal_kg > left + SMALLEST_KG


@dataclass(frozen=True, slots=True)
class MealNeed:
    """The first meal of the tray fed from now on, kg, by the keeper's last ones; `caddy_kg` is what waits."""

    tray: str
    scraps: Band | None
    bedding: Band | None
    meals: int
    caddy_kg: float


@dataclass(frozen=True, slots=True)
class Needs:
    """All that the day takes. `support` is the stock against the usual turn, with what to do instead."""

    bedding: BeddingNeed | None
    meal: MealNeed | None
    support: TurnSupport | None


def needs_of(stack: Stack, plan: DayPlan) -> Needs:
    """What this plan takes from the stock, as it is now."""
    support = turn_supported(stack, stack.as_of)
    meal = _meal(stack, plan)
    trays = (*plan.fresh, *((plan.comes_back,) if plan.comes_back else ()))
    return Needs(_bedding(stack, trays, meal, support) if trays else None, meal, support)


def _bedding(
    stack: Stack, trays: tuple[str, ...], meal: MealNeed | None, support: TurnSupport | None
) -> BeddingNeed:
    name = main_bedding(stack)
    each = a_tray(stack, fold(name), True)
    held = next((one.kg for one in stack.supplies if fold(one.name) == fold(name)), None)
    others = support.others_kg if support is not None else 0.0
    meal_kg = meal.bedding.mid if meal is not None and meal.bedding is not None else 0.0
    return BeddingNeed(name, trays, each.one.times(len(trays)), each.basis, held, others, meal_kg)


def _meal(stack: Stack, plan: DayPlan) -> MealNeed | None:
    if plan.fed is None:
        return None
    meals = [meal for meal in stack.last_feedings if meal.items_kg][-LAST_MEALS:]
    caddy = sum(stack.caddy_kg.values())
    if not meals:
        return MealNeed(plan.fed, None, None, 0, caddy)
    return MealNeed(plan.fed, *_habit(meals), len(meals), caddy)


def _habit(meals: Sequence[Fed]) -> tuple[Band, Band]:
    """The scraps and the bedding of these meals: from the least to the most, and their mean between."""
    scraps = [sum(meal.items_kg.values()) for meal in meals]
    bedding = [sum(meal.bedding_kg.values()) for meal in meals]
    return _band(scraps), _band(bedding)


def _band(kgs: Sequence[float]) -> Band:
    return Band(min(kgs), fmean(kgs), max(kgs))


def bedding_lines(needs: Needs, units: Units) -> tuple[str, ...]:
    """The stock against what fresh trays take, and what to do where it does not reach."""
    need, support = needs.bedding, needs.support
    if need is None:
        return ()
    if support is not None and need.trays == (support.tray,):
        lines = support_lines(support) or (stock_line(support),)
    else:
        lines = tuple(_several(need, units))
    return (*lines, *_with_meal(need, units))


def short_of_bedding(needs: Needs, units: Units) -> str:
    """The one line on what is short; empty where nothing is."""
    need, support = needs.bedding, needs.support
    if need is None or not need.short:
        return ""
    usual = support is not None and support.short and need.trays == (support.tray,)
    return short_line(support) if usual and support is not None else next(_several(need, units))


def _several(need: BeddingNeed, units: Units) -> Iterator[str]:
    name = clean(need.bedding, 40)
    who, take = ("Trays", "take") if len(need.trays) > 1 else ("Tray", "takes")
    takes = f"{who} {listed(need.trays)} {take} about {rough_mass(need.need.mid, units)} of {name}"
    if need.stock_kg is None:
        yield f"{takes}. How much there is is not known: it was never counted."
        return
    there = f"about {rough_mass(need.stock_kg, units)}" if need.stock_kg > SMALLEST_KG else "none"
    yield f"{takes}, and {there} is in stock."
    if need.short:
        more = rough_mass(need.short_kg, units)
        yield f"{verb(need.bedding)} about {more} more first, or bring one fewer in."


def _with_meal(need: BeddingNeed, units: Units) -> Iterator[str]:
    if need.short_with_meal:
        yield (
            f"The first meal takes about {rough_mass(need.meal_kg, units)} of bedding too: "
            "that is more than is left."
        )


def meal_line(needs: Needs, units: Units) -> str:
    """What the first meal of the new feeding tray is likely to take, and how much of it waits already."""
    meal = needs.meal
    if meal is None:
        return ""
    waits = f" About {rough_mass(meal.caddy_kg, units)} waits in the caddy." if meal.caddy_kg else ""
    if meal.scraps is None or meal.bedding is None:
        return f"Tray {meal.tray} is fed first: have a small meal and its bedding at hand.{waits}"
    dry = f" and {mass_band(meal.bedding, units)} of bedding" if meal.bedding.high > 0 else ""
    last = f"your last {count(meal.meals, 'meal')}" if meal.meals > 1 else "your last meal"
    scraps = mass_band(meal.scraps, units)
    return f"First meal of tray {meal.tray}: {scraps} of scraps{dry}, as in {last}.{waits}"
