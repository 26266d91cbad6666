"""The meal and its figures as rows to draw."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from trayturn.advice.composing.composed import Composed
from trayturn.advice.composing.draft import TURN, Line, Part
from trayturn.advice.composing.ground import Ground
from trayturn.advice.composing.larder import Suggestion
from trayturn.advice.composing.load import Load
from trayturn.advice.composing.minding import Mind, Press
from trayturn.advice.composing.order import feeding_order
from trayturn.advice.composing.telling import Figure
from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean
from trayturn.tui.widgets.line_list import Row, Span

ADD, PROPOSED, SHARE, MORE, ORDER = "@add", "@proposed", "@share", "@more", "@order"
"""The rows that are no line of the meal."""
MIND = "mind:"
"""What begins the key of a row of what is worth minding."""
ORDERED = "In this order:"
PLACE, AMOUNT, LABEL = 10, 9, 7
"""Widths of the columns: the part, the amount, and what a figure is of."""
LOOKS = {Press.ACT: ("! ", "error"), Press.MIND: ("- ", "act"), Press.KNOW: ("· ", "muted")}
LEVELS = ("fine", "act", "error")
BAR = 16
"""How long the bar of the load is: half of it is what the worms can take."""


def meal_rows(made: Composed, width: int) -> list[Row]:
    """The meal in feeding order, and below it what else can be done."""
    units, lines, before = made.ground.units, list(made.draft), 0
    rows = []
    for line in lines:
        place = "" if TURN[line.part] == before else f"{TURN[line.part]} {_named(line.part)}"
        before = TURN[line.part]
        rows.append(Row((_line(line, place, units, width),), line.key))
    return [*rows, *_below(made, width)]


def _named(part: Part) -> str:
    """What a step of the work is called in the narrow column."""
    return {Part.AMENDMENTS: "then", Part.GRIT: "then", Part.WATER: "then"}.get(part, str(part))


def _line(line: Line, place: str, units: Units, width: int) -> tuple[Span, ...]:
    amount, look = _amount(line, units)
    room = max(8, width - PLACE - max(AMOUNT, len(amount) + 1))
    name = clean(line.name, room - 1)
    return (
        (f"{place:<{PLACE}}", "muted"),
        (f"{name:<{room}}", "plain" if line.kg > 0 else "muted"),
        (f"{amount:>{width - PLACE - room}}", look),
    )


def _amount(line: Line, units: Units) -> tuple[str, str]:
    if line.kg > 0:
        return show_mass(line.kg, units), "strong"
    if line.held_kg:
        return f"waits {show_mass(line.held_kg, units)}", "wait"
    return (f"+ {show_mass(line.last_kg, units)}" if line.last_kg else "-"), "muted"


def _below(made: Composed, width: int) -> Iterator[Row]:
    yield Row(((("add ", "plain"), ("a few letters of a name", "muted")),), ADD)
    yield Row(((("more ", "plain"), ("meals, measures, goals, the form", "muted")),), MORE)
    head = "as proposed" if made.as_proposed else "proposed"
    told = wrap(f"{head}: {made.proposal.why}", max(20, width - 2))
    look = "muted" if made.as_proposed else "plain"
    if made.proposal.lines or made.as_proposed:
        yield Row(tuple(((text, look),) for text in told), PROPOSED)
    if made.report.load.level and made.report.load.meal_kg:
        words = "too much at once: Enter here shares it out, now and later"
        yield Row(tuple(((text, "act"),) for text in wrap(words, max(20, width - 2))), SHARE)


def _order(made: Composed, width: int) -> Iterator[Row]:
    steps = feeding_order(made.draft, made.ground)
    told = [line for step in steps for line in wrap(step, max(20, width - 2), subsequent_indent="   ")]
    if told:
        yield Row((((ORDERED, "muted"),), *(((line, "plain"),) for line in told)), ORDER)


def figure_rows(made: Composed, width: int, *, wide: bool, ascii_only: bool) -> list[Row]:
    """The figures, each as high as ever, then what is worth minding; with room the order of the work too."""
    rows = [_figure(one, made.report.load, ascii_only) for one in made.figures]
    minds = [_mind(one, place, width, wide) for place, one in enumerate(made.minds)]
    return [*rows, *minds, *(_order(made, width) if wide else ())]


def _figure(one: Figure, load: Load, ascii_only: bool) -> Row:
    look = LEVELS[one.level] if one.code == "load" else "plain"
    first: tuple[Span, ...] = ((f"{one.label:<{LABEL}}", "muted"),)
    if one.code == "load" and load.share is not None:
        first += ((f"{bar(load.share.mid, ascii_only)} ", look),)
    lines = [(*first, (one.words[0], look if one.code != "load" else "plain"))]
    lines += [((" " * LABEL, "plain"), (words, look)) for words in one.words[1:]]
    return Row(tuple(lines), one.code)


def bar(share: float, ascii_only: bool) -> str:
    """The load as a bar: half of it is all that the worms can take, and the tick stands there."""
    full, empty, tick = ("#", ".", "|") if ascii_only else ("█", "░", "│")
    filled = round(min(share, 2.0) / 2 * BAR)
    cells = full * filled + empty * (BAR - filled)
    return f"{cells[: BAR // 2]}{tick}{cells[BAR // 2 :]}"


def _mind(one: Mind, place: int, width: int, wide: bool) -> Row:
    mark, look = LOOKS[one.press]
    told = wrap(one.what, max(20, width - 3))
    marks = [mark] + ["  "] * (len(told) - 1)
    lines: list[tuple[Span, ...]] = [
        ((sign, look), (text, look)) for sign, text in zip(marks, told, strict=True)
    ]
    if wide:
        lines += [(("  ", "plain"), (text, "muted")) for text in wrap(one.why, max(20, width - 3))]
        lines.append((("", "plain"),))
    return Row(tuple(lines), f"{MIND}{place}")


def suggestion_rows(found: list[Suggestion], ground: Ground, width: int) -> list[Row]:
    """The names that may be meant, each with where it is from or what is said of it."""
    return [Row((_suggestion(one, ground.units, width),), str(place)) for place, one in enumerate(found)]


def _suggestion(one: Suggestion, units: Units, width: int) -> tuple[Span, ...]:
    mark, look = {"avoid": ("! ", "error"), "limit": ("- ", "act")}.get(one.guidance, ("  ", "plain"))
    told, room = _told(one, units), max(8, width - 16)
    return ((mark, look), (f"{clean(one.name, room - 1):<{room}}", "plain"), (told, "muted"))


def _told(one: Suggestion, units: Units) -> str:
    if one.guidance != "ok":
        return {"avoid": "leave out", "limit": "a little"}[one.guidance]
    if one.last_kg is not None:
        return f"last {show_mass(one.last_kg, units)}"
    return {"own": "your own", "new": "as typed"}.get(one.origin, clean(one.via, 13))
