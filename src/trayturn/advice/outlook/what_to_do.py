"""What to do where something is otherwise than planned: amounts from the plan, limits as published."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import timedelta

from trayturn.advice.bands import mass_band, rough_mass
from trayturn.advice.checking.measured import KILLS_C
from trayturn.advice.outlook.coming import meal_of
from trayturn.advice.outlook.result import Fan, Outlook, Plan
from trayturn.advice.phrases import times_words
from trayturn.advice.reading import LIMITS_SOURCE
from trayturn.domain.profile import Profile
from trayturn.domain.setup import Units
from trayturn.domain.units import show_temperature
from trayturn.domain.words import day
from trayturn.science.temperature import COLDEST, WARMEST, correction_band
from trayturn.science.water import bedding_for, surplus

USUAL_C = 20.0
BEFORE_LEAVING_DAYS = 3
"""A meal is looked at once more before leaving: one that heats or smells shows it by then. Our choice."""
MEALS_MISSED = 3.0
"""Away for longer than so many meals, somebody should feed once. Our choice."""


@dataclass(frozen=True, slots=True)
class _Case:
    days: float
    celsius: float
    times: float
    plan: Plan
    today: Outlook
    then: Outlook
    profile: Profile

    @property
    def units(self) -> Units:
        return self.profile.bin.units

    @property
    def meal_kg(self) -> float:
        """The scraps of one meal, kg."""
        return self.plan.scraps_kg_per_week * self.plan.feed_every_days / 7


def what_to_do(
    kind: str,
    days: float,
    celsius: float,
    times: float,
    plan: Plan,
    today: Outlook,
    then: Outlook,
    profile: Profile,
) -> Iterator[str]:
    """A few sentences for that kind of what if; `today` is the outlook without it, `then` the one with it."""
    yield from ACTS[kind](_Case(days, celsius, times, plan, today, then, profile))


def _holiday(case: _Case) -> Iterator[str]:
    now, units = case.then.as_of, case.units
    leave = now + timedelta(days=1)
    last = leave - timedelta(days=BEFORE_LEAVING_DAYS)
    when = f"on {day(last, now)}" if last.date() > now.date() else "today"
    meal = meal_of(case.plan, case.profile)
    moist = meal.water_kg / max(1e-9, meal.water_kg + meal.solids_kg)
    dry = bedding_for(surplus(case.meal_kg, min(moist, 1.0)))
    yield (
        f"Give the last meal {when}, no larger than usual ({rough_mass(case.meal_kg, units)}): leave time to "
        "see that it neither heats nor smells. Common practice, no source."
    )
    yield (
        f"Lay about {rough_mass(dry, units)} of dry bedding on it and at the bottom: it takes up the water "
        "that the meal lets go, at three times its weight (Solomon 1993)."
    )
    yield "Empty the sump before you leave, and turn or separate before or after, not in the last days."
    if case.days > MEALS_MISSED * case.plan.feed_every_days:
        yield from _long(case)


def _long(case: _Case) -> Iterator[str]:
    back = case.then.as_of + timedelta(days=1 + case.days)
    fan, place = case.then.series["worms"], 1 + round(case.days)
    worms = mass_band(fan.at(_at(fan, place)).band, case.units)
    yield (
        f"That is longer than {MEALS_MISSED:g} meals: have somebody feed once. Without, worms are "
        f"{worms} by {day(back, case.then.as_of)}."
    )


def _at(fan: Fan, days: int) -> int:
    """The place of that day from today in the fan, or its last."""
    return fan.days.index(float(days)) if float(days) in fan.days else len(fan) - 1


def _cold(case: _Case) -> Iterator[str]:
    at, limit = show_temperature(case.celsius, case.units), show_temperature(COLDEST, case.units)
    if case.celsius < COLDEST:
        yield f"{at} is below {limit}, the limit for Eisenia fetida ({LIMITS_SOURCE}): feed nothing."
        yield "Move the bin indoors, or wrap it; the model knows no death by cold."
        return
    low, high = (round(100 * share) for share in correction_band(case.celsius, USUAL_C))
    usual = show_temperature(USUAL_C, case.units)
    yield (
        f"At {at} they eat about {low} to {high} % of what they do at {usual}: feed that much less. Two "
        "published corrections disagree (Johnston et al. 2014; DEB data file)."
    )
    least, most = (rough_mass(case.meal_kg * share / 100, case.units) for share in (low, high))
    yield f"A meal is then {least} to {most} of scraps. Below {limit} feed nothing ({LIMITS_SOURCE})."


def _heat(case: _Case) -> Iterator[str]:
    at, limit = show_temperature(case.celsius, case.units), show_temperature(WARMEST, case.units)
    dies = show_temperature(KILLS_C, case.units)
    if case.celsius > WARMEST:
        yield f"{at} is above {limit}, the limit for Eisenia fetida ({LIMITS_SOURCE})."
        yield "Feed nothing until it is cooler."
    else:
        yield f"Feed thin layers, since food heats; above {limit} feed nothing ({LIMITS_SOURCE})."
    yield "Shade, a damp cover, a cooler room: do it before, not after."
    yield f"Above {dies} worms die (Oregon Metro). The model knows no death by heat: it is too hopeful here."


def _double_scraps(case: _Case) -> Iterator[str]:
    eaten = case.today.scraps_kg_per_week
    fed = case.times * case.plan.scraps_kg_per_week
    if eaten is not None:
        more = fed > eaten.p90
        yield (
            f"The worms there are need {mass_band(eaten.band, case.units)} of scraps a week; "
            f"{rough_mass(fed, case.units)} is {'more than' if more else 'within'} that."
        )
        if more:
            yield "Go up by a little each week, and wait where the last meal is still there."
    times = times_words(case.times)
    yield (
        f"{times[:1].upper()}{times[1:]} the scraps need {times} the dry bedding: "
        f"{rough_mass(case.times * case.meal_kg * case.plan.bedding_ratio, case.units)} at each meal."
    )


def _half_worms(case: _Case) -> Iterator[str]:
    fan, now = case.then.series["worms"], case.today.worms_kg
    meal = rough_mass(case.times * case.meal_kg, case.units)
    yield f"Feed by the worms for now: {meal} of scraps at a meal."
    if now is None:
        return
    back = next((d for d, kg in zip(fan.days, fan.p50, strict=True) if d > 0 and kg >= now.p50), None)
    if back is None:
        yield f"By {day(case.then.until, case.then.as_of)} they are not back to what they were, most likely."
    else:
        yield f"They are back to what they were about {day(case.then.on(back), case.then.as_of)}."


def _double_bedding(case: _Case) -> Iterator[str]:
    weeks = (case.then.until - case.then.as_of).days / 7
    more = (case.times - 1) * weeks * case.plan.scraps_kg_per_week * case.plan.bedding_ratio
    until = day(case.then.until, case.then.as_of)
    amount = f"{rough_mass(abs(more), case.units)} {'more' if more > 0 else 'less'}"
    yield f"It takes {amount} dry bedding until {until}."
    if case.today.sump_full_on is not None and case.then.sump_full_on is None:
        yield "It keeps the sump from filling up."
    yield "Read the moisture after two meals: a tray below 60 % needs water with it."


ACTS: dict[str, Callable[[_Case], Iterator[str]]] = {
    "holiday": _holiday,
    "cold": _cold,
    "heat": _heat,
    "double-scraps": _double_scraps,
    "half-worms": _half_worms,
    "double-bedding": _double_bedding,
}
