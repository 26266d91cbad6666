"""The stock in words: what there is, what goes, how long it lasts, and what to gather by when."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from trayturn.advice.bands import Band, rough_mass
from trayturn.advice.phrases import every, when
from trayturn.advice.stock.outlook import Lasts, Outlook
from trayturn.advice.stock.turn_words import other_ways, verb
from trayturn.advice.stock.turns import turn_supported
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.supplies import SMALLEST_KG, fold
from trayturn.domain.words import clean, count, day, due

HOW_TO_COUNT = "Weigh it in its bag or box, take off what that weighs, and write it down as counted."
BANDS = (
    "A band holds about 4 times in 5, as long as you go on as you have: the 80 % prediction interval of your "
    "own feedings and trays, or a rule of thumb with its own ends."
)


def amount(band: Band, units: Units) -> str:
    """`about 480 g (380 to 580 g)`: the middle, and the ends where they are said otherwise."""
    low, mid, high = (rough_mass(kg, units) if kg > SMALLEST_KG else "none" for kg in band)
    return f"about {mid}" if low == mid == high else f"about {mid} ({low} to {high})"


def gather_line(one: Outlook, now: datetime, units: Units) -> str:
    """What to gather by when, or nothing: `Shred about 230 g of newspaper by Fri 4 Dec, in 13 days.`"""
    if one.gather_kg is None or one.gather_by is None:
        return ""
    if one.gather_by <= now:
        by = "now"
    else:
        near, distance = day(one.gather_by, now), due(one.gather_by, now)
        by = f"by {near}" if near == distance else f"by {near}, {distance}"
    return f"{verb(one.name)} about {rough_mass(one.gather_kg, units)} of {clean(one.name, 40)} {by}."


def lasts_words(one: Outlook, now: datetime) -> str:
    """How long it lasts in a word or two, for a table: `20 Jan`, `over a year`, `not known`, `used up`."""
    if one.lasts is None:
        return "not known"
    if one.lasts.mid is None:
        return "over a year"
    if not one.supply.kg:
        return "used up"
    at = one.lasts.mid
    near = {0: "today", 1: "tomorrow"}.get((at.date() - now.date()).days)
    return near or f"{at.day} {at:%b}" + ("" if at.year == now.year else f" {at.year}")


def state_word(one: Outlook) -> str:
    """How the stock is, in one word: `enough`, `short`, `none left`, `count it`."""
    if one.supply.kg is None:
        return "count it"
    if not one.short:
        return "enough"
    return "short" if one.supply.kg > SMALLEST_KG else "none left"


def story(one: Outlook, stack: Stack) -> list[str]:
    """One supply in a few sentences, the pressing ones first."""
    units = stack.setup.units
    # Imported where it is told: the due list needs no more of a supply than what to gather.
    from trayturn.advice.found.hints import source_hints

    minded = [hint.what for hint in source_hints(stack, [one.name])]
    lines = [gather_line(one, stack.as_of, units), *minded, *_instead(one, stack), stock_line(one, stack)]
    lines += [_used_line(one, units), _turn_line(one, stack), _month_line(one, units)]
    return [line for line in (*lines, _lasts_line(one, stack.as_of)) if line]


def _instead(one: Outlook, stack: Stack) -> tuple[str, ...]:
    """What else can be done at the next turn, where it is the turn's bedding that is short."""
    support = turn_supported(stack) if one.short and one.turn is not None else None
    if support is None or fold(support.bedding) != fold(one.name):
        return ()
    return other_ways(support)


def stock_line(one: Outlook, stack: Stack) -> str:
    """What there is, and how that is known; or how to find out."""
    supply, units, now = one.supply, stack.setup.units, stack.as_of
    if supply.doubted_at is not None:
        used = when(supply.doubted_at, now)
        return f"How much there is is not known: it was used {used} though none was left. {HOW_TO_COUNT}"
    if supply.kg is None:
        return f"How much there is was never written down. {HOW_TO_COUNT}"
    held = f"{rough_mass(supply.kg, units)} in stock" if supply.kg > SMALLEST_KG else "None in stock"
    if supply.counted_at is None:
        came = f" (last {when(supply.came_in_at, now)})" if supply.came_in_at else ""
        return f"{held}, never counted: reckoned from what came in{came} and what went."
    return f"{held}: counted {when(supply.counted_at, now)}, and reckoned on from then."


def _used_line(one: Outlook, units: Units) -> str:
    if one.record.per_week is None:
        return f"How much goes in a week is not known: {one.record.rests_on}."
    return f"In a week {amount(one.record.per_week, units)} goes: {one.record.rests_on}."


def _turn_line(one: Outlook, stack: Stack) -> str:
    if one.turn is None or one.turn_at is None:
        return ""
    what = "The next fresh tray" if stack.trays else "The first tray"
    at = "due now" if one.turn_at <= stack.as_of else due(one.turn_at, stack.as_of)
    return f"{what}, {at}, needs {amount(one.turn, stack.setup.units)}: {one.habit.tray.basis}."


def _month_line(one: Outlook, units: Units) -> str:
    what = listed_events(one)
    if one.month.high <= SMALLEST_KG:
        return f"The next 30 days need none of it: {one.habit.feeding.basis}."
    return f"The next 30 days need {amount(one.month, units)}: {what}."


def listed_events(one: Outlook) -> str:
    """`3 feedings and 1 turn`: what the next 30 days hold."""
    feedings, trays = count(round(one.month_feedings), "feeding"), round(one.month_trays)
    return f"{feedings} and {count(trays, 'fresh tray')}" if trays else feedings


def _lasts_line(one: Outlook, now: datetime) -> str:
    if one.lasts is None or not one.supply.kg:
        return ""
    if one.lasts.mid is None:
        return "It lasts for more than a year." + (
            f" At the earliest it runs out on {day(one.lasts.early, now)}." if one.lasts.early else ""
        )
    band = band_of_days(one.lasts, now)
    return f"It lasts until about {day(one.lasts.mid, now)}{f' ({band})' if band else ''}."


def band_of_days(lasts: Lasts, now: datetime) -> str:
    """`Tue 20 Jan to Sun 8 Mar`, or `from Tue 20 Jan on` where the late end is more than a year away.

    Nothing where all fall on one day.
    """
    early = day(lasts.early, now) if lasts.early else ""
    if lasts.late is None:
        return f"from {early} on"
    late = day(lasts.late, now)
    return "" if early == late else f"{early} to {late}"


def reasons(one: Outlook, stack: Stack) -> list[str]:
    """All that the story rests on, a line each: for the why."""
    setup, units = stack.setup, stack.setup.units
    return [
        *story(one, stack),
        "",
        *_habit_lines(one, units),
        "",
        _rhythm(setup.days_between_feedings, setup.days_between_turns),
        BANDS,
    ]


def _habit_lines(one: Outlook, units: Units) -> Iterator[str]:
    for what, spread in (("A feeding", one.habit.feeding), ("A fresh tray", one.habit.tray)):
        if spread.basis:
            takes = amount(spread.one, units) if spread.one.high > SMALLEST_KG else "none"
            yield f"{what} takes {takes}: {spread.basis}."
    if one.habit.a_day.basis:
        yield f"Otherwise {amount(one.habit.a_day.times(7), units)} a week goes: {one.habit.a_day.basis}."


def _rhythm(feedings: float, turns: float) -> str:
    return (
        f"Reckoned ahead as this bin is set up: fed {every(feedings)}, turned {every(turns)}; what is due "
        "already counts as today."
    )
