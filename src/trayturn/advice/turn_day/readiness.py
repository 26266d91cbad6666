"""What is not ready for a turn, with the measure. The choice is the keeper's."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trayturn.advice.bands import mass_band
from trayturn.advice.checking.kinds import Kind
from trayturn.advice.checking.ranges import range_of
from trayturn.advice.contents import tray_contents
from trayturn.advice.pantry import Pantry
from trayturn.advice.phrases import aged, when
from trayturn.advice.reading import moisture_of
from trayturn.advice.turn_day.plan import DayPlan
from trayturn.domain.entries import Stage
from trayturn.domain.stack import Stack, TrayState, days_between
from trayturn.domain.units import show_temperature
from trayturn.domain.words import listed

YOUNG_SHARE = 0.75
"""A tray that finished for less than so much of the time between turns is young. Our choice."""
UNEATEN_SHARE = 0.10
"""More of the scraps than this still there is much. Our choice."""
WET_PCT = 80.0
"""Moister than this, castings smear and do not crumble. Our choice; published is only that too soggy ones
are to stand uncovered first (see the handbook)."""
SLOW_C = 10.0
"""Colder than this worms move so slowly that passes and rests get long. Our choice."""
WARMTH_FOR_DAYS = 14
"""A reading of the temperature older than this says nothing of today. Our choice."""
COLD_TO_DO = "Bring the tray somewhere warmer first, or give longer rests."
HOT_TO_DO = "Turn in the cool of the day, and keep trays out of the sun."


@dataclass(frozen=True, slots=True)
class NotReady:
    """One thing that speaks for waiting: its code, the sentence with the measure, and what to do."""

    code: str
    what: str
    to_do: str


def not_ready(stack: Stack, plan: DayPlan, pantry: Pantry) -> tuple[NotReady, ...]:
    """What speaks against turning today, by tray; empty where nothing does."""
    return (*_trays(stack, plan, pantry), *_weather(stack), *_unfed(stack, plan))


def _trays(stack: Stack, plan: DayPlan, pantry: Pantry) -> Iterator[NotReady]:
    for tray_id in plan.separating:
        tray = stack.tray(tray_id)
        if tray is not None and tray.stage is not Stage.SEPARATING:
            yield from _young(tray, stack)
            yield from _wet(tray)
            yield from _uneaten(tray, stack, pantry)


def _young(tray: TrayState, stack: Stack) -> Iterator[NotReady]:
    least = YOUNG_SHARE * stack.setup.days_between_turns
    if tray.stage is Stage.FINISHING and tray.days_in_stage < least:
        yield NotReady(
            "young",
            f"Tray {tray.id} has finished for {aged(tray.days_in_stage)}; usual is {least:.0f} days or more "
            "(three quarters of the time between turns, our choice).",
            "Wait, or separate it and give back what is not done as pieces.",
        )


def _wet(tray: TrayState) -> Iterator[NotReady]:
    read = moisture_of(tray)
    if read.percent is not None and read.percent > WET_PCT:
        about = "about " if read.by_feel else ""
        yield NotReady(
            "wet",
            f"Tray {tray.id} is {about}{read.percent:.0f} % moist; above {WET_PCT:.0f} % castings smear "
            "instead of crumbling (our choice).",
            "Let it stand on top, uncovered, for some days first.",
        )


def _uneaten(tray: TrayState, stack: Stack, pantry: Pantry) -> Iterator[NotReady]:
    if not tray.fed_kg:
        return
    left = tray_contents(tray, stack, pantry).uneaten_kg
    if left.mid > UNEATEN_SHARE * tray.fed_kg:
        share, there = round(100 * left.mid / tray.fed_kg), mass_band(left, stack.setup.units)
        yield NotReady(
            "uneaten",
            f"About {share} % of what tray {tray.id} was fed is still there, {there} as reckoned; "
            f"usual is under {round(100 * UNEATEN_SHARE)} % (our choice).",
            "Wait, or carry the pieces on to the next tray.",
        )


def _weather(stack: Stack) -> Iterator[NotReady]:
    """The warmth of a recent reading against the species' published limits."""
    celsius, read_at = stack.temperature_c, stack.temperature_at
    known = range_of(Kind.TEMPERATURE, stack.setup)
    if celsius is None or read_at is None or known is None:
        return
    if days_between(read_at, stack.as_of) > WARMTH_FOR_DAYS:
        return
    least, most = known.limits
    read = f"It was {show_temperature(celsius, stack.setup.units)} {when(read_at, stack.as_of)}"
    published = next(line for line in known.lines if "imits" in line)
    if celsius > most:
        yield NotReady("hot", f"{read}, too hot for worms. {published}", HOT_TO_DO)
    elif celsius < least:
        yield NotReady("cold", f"{read}, too cold for worms. {published}", COLD_TO_DO)
    elif celsius < SLOW_C:
        slow = show_temperature(SLOW_C, stack.setup.units)
        yield NotReady("cold", f"{read}: worms move slowly below {slow} (our choice).", COLD_TO_DO)


def _unfed(stack: Stack, plan: DayPlan) -> Iterator[NotReady]:
    """A stack in which nothing would be fed after the turn."""
    if plan.order and plan.fed is None and not plan.by_hand:
        names = listed(plan.order)
        yield NotReady(
            "unfed",
            f"No tray would be fed after this turn; {names} would stand.",
            "Bring a tray with fresh bedding in, or put the turn off.",
        )
