"""A planned turn day in words: at a glance, and part by part."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.bands import mass_band
from trayturn.advice.turn_day.lifts import LIFT_HEAD, heights_words, index_words, lift_line, lift_row
from trayturn.advice.turn_day.needs import bedding_lines, meal_line, short_of_bedding
from trayturn.advice.turn_day.telling import lacking_words
from trayturn.advice.turn_day.times import minutes_words
from trayturn.advice.turn_day.whole import Whole
from trayturn.domain.stack import Stack
from trayturn.domain.words import count, listed


def short_lines(whole: Whole, stack: Stack) -> tuple[str, ...]:
    """The day at a glance: what speaks against it first, a lift that is too hard, then stock and time."""
    return tuple(dict.fromkeys(line for line in _short(whole, stack) if line))


def _short(whole: Whole, stack: Stack) -> Iterator[str]:
    units, plan = stack.setup.units, whole.plan
    heavy = whole.heaviest is not None and whole.heaviest.heavy
    yield from plan.wrong
    yield from (f"{one.what} {one.to_do}" for one in whole.waits)
    if whole.lacking:
        yield lacking_words(whole.lacking, whole.places)
    if heavy:
        yield heaviest_line(whole, stack)
    yield short_of_bedding(whole.needs, units)
    if plan.left_out:
        yield "No fresh tray comes in. Put one in once there is bedding for it."
    yield time_line(whole)
    if not heavy:
        yield heaviest_line(whole, stack)
    if plan.comes_back is not None:
        yield f"Tray {plan.comes_back} comes back with fresh bedding once it is separated."
    yield from bedding_lines(whole.needs, units)
    yield meal_line(whole.needs, units)


def time_line(whole: Whole) -> str:
    """`Time: 2 to 3 h, 1 to 1.5 h hands on (rests on 3 turn days of yours).`"""
    time = whole.time
    basis = f"rests on {time.basis}" if "yours" in time.basis else time.basis
    whole_time, hands = minutes_words(time.minutes), minutes_words(time.hands)
    return f"Time: {whole_time}, {'all' if hands == whole_time else hands} hands on ({basis})."


def heaviest_line(whole: Whole, stack: Stack) -> str:
    """The hardest of the lifts, and how many there are."""
    hard = whole.heaviest
    if hard is None:
        return "Nothing has to be lifted."
    weight = f"{mass_band(hard.kg, stack.setup.units)}, {hard.basis.partition(' from')[0]}"
    number = len(whole.lifts) + len(whole.back)
    lifts = "1 lift," if number == 1 else f"{number} lifts, hardest"
    return f"{lifts} tray {hard.lift.tray}: {weight}; {index_words(hard.index)}."


def wide_lines(whole: Whole, stack: Stack) -> list[str]:
    """All of it in few lines, for beside the drawing: the lifts as a table."""
    lines = [*short_lines(whole, stack), "", *lift_rows(whole, stack), ""]
    lines += [f"Tools: {listed(whole.tools)}.", "", "Cautions: " + "; ".join(_titles(whole)) + "."]
    return lines


def _titles(whole: Whole) -> Iterator[str]:
    yield from (caution.title for caution in whole.cautions)


def lift_rows(whole: Whole, stack: Stack) -> list[str]:
    """The lifts as a table, one a row; `index` is that of the worse end."""
    if not whole.lifts and not whole.back:
        return ["Nothing has to be lifted."]
    rows = [lift_row(told, stack, number) for number, told in enumerate(whole.lifts, 1)]
    later = [lift_row(told, stack, number) for number, told in enumerate(whole.back, len(rows) + 1)]
    between = [f"   and to bring {whole.plan.comes_back} back, once it is empty:"] if later else []
    return [LIFT_HEAD, *rows, *between, *later]


def _back_lines(whole: Whole, stack: Stack) -> list[str]:
    """The lifts that bring the emptied tray back, with what it is filled with."""
    if not whole.back:
        return []
    lines = ["", f"To bring tray {whole.plan.comes_back} back fresh, once it is separated"]
    first = len(whole.lifts) + 1
    places = whole.bringing.places
    return [*lines, *(lift_line(one, stack, places, n) for n, one in enumerate(whole.back, first))]


def full_lines(whole: Whole, stack: Stack) -> list[str]:
    """All of it, part by part, for a longer read."""
    lines = ["To know first", *(f"- {line}" for line in short_lines(whole, stack)), ""]
    more = ", more than it has" if whole.moving.lacking else ""
    lines += [f"Lifts, one after the other, with {count(whole.moving.places, 'place')} beside it{more}"]
    told = (lift_line(one, stack, whole.moving.places, n) for n, one in enumerate(whole.lifts, 1))
    lines += list(told) or ["Nothing has to be lifted."]
    lines += _back_lines(whole, stack)
    lines += [heights_words(stack.setup), "", f"Tools: {listed(whole.tools)} (common practice, no source)."]
    lines += ["", "Cautions today", *(f"- {one.title}. {one.to_do}" for one in whole.cautions)]
    return lines
