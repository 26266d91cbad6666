"""The hatch tub after a separation: when to bait hatchlings out of the castings, and when to use them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.due.item import Due, Press, due_at
from trayturn.advice.phrases import when
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.units import show_mass, show_temperature
from trayturn.domain.words import due as in_days
from trayturn.science.hatching import Hatch, hatch

ROOM_C = 20.0
"""The temperature reckoned with where none was read. Our choice."""
LINGERS = timedelta(weeks=3)
"""How long it is still worth a look after the latest day by which most have hatched. Our choice."""
NOT_HATCHING = timedelta(weeks=12)
"""How long a tub that is too cold or too hot for cocoons is told of. Our choice."""
A_DAY = timedelta(days=1)
BAIT = (
    "A bait is a little soft, ripe food on the castings, such as melon or banana peel in a mesh bag. "
    "Hatchlings gather in it within days and are lifted out with it (common practice, no source)."
)


@dataclass(frozen=True, slots=True)
class Tub:
    """The castings of one tray since they were taken, and their mass, kg, where it was weighed."""

    tray: str
    since: datetime
    castings_kg: float | None


def hatching(stack: Stack) -> Iterator[Due]:
    """A bait when half may have hatched, and a look once most have. Tubs long past are let be."""
    if not stack.past_separations:
        return
    celsius = ROOM_C if stack.temperature_c is None else stack.temperature_c
    times = hatch(celsius, stack.setup.species)
    last = timedelta(days=times.most[1]) + LINGERS if times else NOT_HATCHING
    for tub in tubs(stack, stack.as_of - last):
        yield from _bait_and_look(tub, times, stack) if times else _too_cold_or_hot(tub, celsius, stack)


def tubs(stack: Stack, from_then_on: datetime) -> Iterator[Tub]:
    """The latest castings of each tray, where they were taken since that moment."""
    seen = set()
    for one in reversed(stack.past_separations):
        if one.ended_at is not None and one.ended_at < from_then_on:
            return
        since = _taken_at(one)
        if since is not None and since >= from_then_on and one.tray not in seen and not _is_lot(one, stack):
            seen.add(one.tray)
            weighed = one.settled.castings_kg if one.settled is not None else None
            yield Tub(one.tray, since, weighed or one.skimmed_kg or None)


def _is_lot(one: Separation, stack: Stack) -> bool:
    """Whether its castings are kept as a lot, which tells of itself."""
    ended = one.ended_at or stack.as_of
    return any(lot.tray == one.tray and one.begun_at <= lot.begun_at <= ended + A_DAY for lot in stack.lots)


def _taken_at(one: Separation) -> datetime | None:
    """When its castings were taken out; None where nothing tells that any were."""
    if one.settled is not None:
        return one.settled.at
    return one.passes[-1].at if one.passes else None


def _bait_and_look(tub: Tub, times: Hatch, stack: Stack) -> Iterator[Due]:
    """The bait goes in at the early end of half, the look comes at the late end of most."""
    now = stack.as_of
    lure = tub.since + timedelta(days=math.floor(times.half[0]))
    look = tub.since + timedelta(days=math.ceil(times.most[1]))
    if look > now:
        what = f"Lay a bait in the hatch tub of tray {tub.tray} {_day(lure, now)}."
        yield _due(stack, "lure", what, (*_why(tub, times, stack), BAIT, times.why), lure, tub)
    what = f"Look for hatchlings in the hatch tub of tray {tub.tray} {_day(look, now)}."
    use = "Once none gather any more, the castings can be used; a few cocoons may hatch later still."
    yield _due(stack, "look", what, (*_why(tub, times, stack), use, *_share(times), times.why), look, tub)


def _due(stack: Stack, code: str, what: str, why: tuple[str, ...], due: datetime, tub: Tub) -> Due:
    press = Press.NOW if due <= stack.as_of else Press.LATER
    return due_at(stack, "hatch", what, why, due, tub.tray, press, code)


def _day(moment: datetime, now: datetime) -> str:
    return "now" if moment <= now else in_days(moment, now)


def _why(tub: Tub, times: Hatch, stack: Stack) -> tuple[str, ...]:
    taken = f"{show_mass(tub.castings_kg, stack.setup.units)} of castings" if tub.castings_kg else "Castings"
    verb = "was" if tub.castings_kg else "were"
    return (
        f"{taken} {verb} taken from tray {tub.tray} {when(tub.since, stack.as_of)}.",
        "Skimming takes the worms and leaves the cocoons, which go on hatching in the castings for weeks.",
        f"Of the cocoons laid last, half of those that hatch have done so {weeks(times.half)} after that, "
        f"and most (95 %) {weeks(times.most)}.",
        f"{warmth_words(stack)} A cooler tub takes longer.",
    )


def warmth_words(stack: Stack) -> str:
    """The temperature a tub is reckoned at, and where that is from."""
    units = stack.setup.units
    if stack.temperature_c is None or stack.temperature_at is None:
        return f"Reckoned at {show_temperature(ROOM_C, units)}, which is assumed: no temperature was read."
    read = when(stack.temperature_at, stack.as_of)
    degrees = show_temperature(stack.temperature_c, units)
    return f"Reckoned at the bin's last reading, {degrees} {read}; where the tub stands it may differ."


def weeks(band: tuple[float, float]) -> str:
    """A band of days in whole weeks, rounded outward: `between 3 and 7 weeks`; short ones stay in days."""
    low, high = band
    if high < 21:
        return f"between {math.floor(low)} and {math.ceil(high)} days"
    return f"between {math.floor(low / 7)} and {math.ceil(high / 7)} weeks"


def _share(times: Hatch) -> tuple[str, ...]:
    if times.share is None:
        return ()
    low, high = (round(100 * share) for share in times.share)
    return (
        f"{low} % of cocoons hatch at all." if low == high else f"{low} to {high} % of cocoons hatch at all.",
    )


def _too_cold_or_hot(tub: Tub, celsius: float, stack: Stack) -> Iterator[Due]:
    do = "warmer" if celsius < ROOM_C else "cooler"
    what = f"Keep the hatch tub of tray {tub.tray} {do}: cocoons do not hatch like this."
    why = (
        f"{warmth_words(stack)} By what is published no cocoon hatches at that.",
        f"Its castings were taken {when(tub.since, stack.as_of)}; cocoons in them may still live, and hatch "
        f"once it is {do}.",
    )
    yield due_at(stack, "hatch", what, why, None, tub.tray, Press.ANY_TIME, "warmth")
