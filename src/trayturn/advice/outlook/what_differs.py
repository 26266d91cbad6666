"""What differs between two outlooks of one bin, in sentences."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from trayturn.advice.bands import mass_band, rough_mass
from trayturn.advice.outlook.result import Harvest, Outlook
from trayturn.advice.outlook.words import sump_words
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.words import day

A_DIFFERENCE = 0.03
"""Less than this share is no difference: the bands are wider by far. Our choice."""
DROPS_L = 0.1
NONE = "Nothing differs by more than the bands can tell."


def differences(today: Outlook, then: Outlook, stack: Stack) -> Iterator[str]:
    """What is otherwise, the harvests first; one sentence where nothing is."""
    found = [
        *_harvests(today, then, stack.setup.units),
        *_worms(today, then, stack.setup.units),
        *_sump(today, then, stack.setup.units),
        *_soaked(today, then),
    ]
    yield from found or [NONE]


def _harvests(today: Outlook, then: Outlook, units: Units) -> Iterator[str]:
    seen: dict[str, int] = {}
    for one in today.harvests:
        nth = seen[one.tray] = seen.get(one.tray, 0) + 1
        other = _nth(then, one.tray, nth)
        if other is None:
            yield f"Tray {one.tray} is not separated by {day(then.until, then.as_of)}."
        else:
            yield from _harvest(one, other, units, then.as_of)


def _nth(told: Outlook, tray: str, nth: int) -> Harvest | None:
    of_tray = [one for one in told.harvests if one.tray == tray]
    return of_tray[nth - 1] if nth <= len(of_tray) else None


def _harvest(one: Harvest, other: Harvest, units: Units, now: datetime) -> Iterator[str]:
    kg, was = other.castings_kg, one.castings_kg
    moved, changed = other.date != one.date, _differ(kg.p50, was.p50)
    if moved or changed:
        when = f", on {day(other.date, now)} instead of {day(one.date, now)}" if moved else ""
        was_said = f" instead of {rough_mass(was.p50, units)}" if changed else ""
        yield (
            f"Tray {one.tray} gives about {rough_mass(kg.p50, units)} of castings "
            f"({mass_band(kg.band, units)}){was_said}{when}."
        )


def _worms(today: Outlook, then: Outlook, units: Units) -> Iterator[str]:
    if "worms" in today.series and "worms" in then.series:
        was, kg = (told.series["worms"].at(len(told.series["worms"]) - 1) for told in (today, then))
        if _differ(kg.p50, was.p50):
            yield (
                f"Worms by {day(then.until, then.as_of)}: about {rough_mass(kg.p50, units)} "
                f"({mass_band(kg.band, units)}) instead of {rough_mass(was.p50, units)}."
            )


def _sump(today: Outlook, then: Outlook, units: Units) -> Iterator[str]:
    if today.sump_full_on != then.sump_full_on:
        yield f"The sump, not emptied, is full {_by(then, 'sump')} instead of {_by(today, 'sump')}."
    elif "sump" in today.series and "sump" in then.series:
        was, litres = (told.series["sump"].at(len(told.series["sump"]) - 1) for told in (today, then))
        if abs(litres.p50 - was.p50) > DROPS_L:
            until = day(then.until, then.as_of)
            yield (
                f"The sump, not emptied, holds {sump_words(litres, units)} by {until} instead of "
                f"{sump_words(was, units)}."
            )


def _soaked(today: Outlook, then: Outlook) -> Iterator[str]:
    if today.bottom_tray is not None and _middle(today, "soaked") != _middle(then, "soaked"):
        yield (
            f"Tray {today.bottom_tray}, the lowest, is soaked {_by(then, 'soaked')} instead of "
            f"{_by(today, 'soaked')}."
        )


def _middle(told: Outlook, what: str) -> datetime | None:
    days = told.sump_full_on if what == "sump" else told.bottom_tray_soaked_on
    return days.mid if days is not None else None


def _by(told: Outlook, what: str) -> str:
    mid = _middle(told, what)
    return f"about {day(mid, told.as_of)}" if mid is not None else f"later than {day(told.until, told.as_of)}"


def _differ(one: float, other: float) -> bool:
    return abs(one - other) > A_DIFFERENCE * max(abs(one), abs(other), 1e-9)
