"""Sheets from which pieces, what does not belong and its source are picked, with gloves on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from trayturn.advice.pieces import kinds_of_pieces, sources_named
from trayturn.domain.entries import Contaminant, Piece
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.supplies import fold
from trayturn.domain.units import INCH_M, show_length
from trayturn.domain.words import clean
from trayturn.procedure.separation import Thing
from trayturn.tui.screens.separation import typed
from trayturn.tui.screens.separation.rows import (
    Add,
    LotRow,
    PieceRow,
    ThingRow,
    piece_row,
    thing_row,
)
from trayturn.tui.widgets.answer_rows import Answer, Cycle, Mass, Tick, Words
from trayturn.tui.widgets.choose import Choose
from trayturn.tui.widgets.type_in import TypeIn

if TYPE_CHECKING:
    from trayturn.tui.app import TrayturnApp
    from trayturn.tui.widgets.answers import Answers

OTHER, UNKNOWN = "other, typed", "not known"
CM = (1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0)
INCHES = tuple(round(100 * INCH_M * inches, 2) for inches in (0.5, 1, 1.5, 2, 2.5, 3, 4, 6, 8))
"""Sizes to pick from, both in cm."""
PIECE_LONGEST, SOURCE_LONGEST = 60, 200
PICKED = (Add, PieceRow, ThingRow, Cycle, Mass, Words)
"""Rows that Enter picks or types something for."""


CHOOSE = "- and + change it; Space goes on."


def enter_does(row: Answer | None) -> str:
    """What Enter does on that row, in two or three words; empty where it does nothing."""
    ways: tuple[tuple[type[Answer], str], ...] = (
        (PieceRow, "Enter takes a size"),
        (ThingRow, "Enter takes another source"),
        (LotRow, "Enter types another place"),
        (Mass, "Enter types"),
        (Words, "Enter types"),
        (Tick, "Enter tells why"),
        (Add, "Enter picks"),
        (Cycle, "Enter picks"),
    )
    return next((words for kind, words in ways if isinstance(row, kind)), "")


async def pick(house: TrayturnApp, stack: Stack, tray: str, answers: Answers, row: Answer) -> None:
    """Pick or type what the marked row takes, and put it in."""
    if isinstance(row, Add):
        add = _add_piece if row.key == "add-piece" else _add_thing
        await add(house, stack, tray, answers, row)
    elif isinstance(row, PieceRow):
        await _take_size(house, stack, answers, row)
    elif isinstance(row, ThingRow):
        source = await _source(house, stack, tray, answers, row.source)
        if source is not None:
            _put_thing(answers, Thing(row.what, row.number or 1, source), row.key)
    elif isinstance(row, LotRow):
        tub = await _typed(house, "Where do the castings wait?", "such as hatch tub", SOURCE_LONGEST)
        if tub is not None:
            answers.put(row.at(tub))
    elif isinstance(row, Cycle):
        chosen = await _chosen(house, row.label, row.options, row.chosen or 0)
        if chosen is not None:
            answers.put(row.picked(chosen + 1))
    elif isinstance(row, Mass | Words):
        await _type_in(house, answers, row)


async def _add_piece(house: TrayturnApp, stack: Stack, tray: str, answers: Answers, row: Answer) -> None:
    kinds = kinds_of_pieces(stack)
    place = await _chosen(house, "Which piece?", [*kinds, OTHER])
    if place is None:
        return
    what: str | None = kinds[place] if place < len(kinds) else None
    if what is None:
        what = await _typed(house, "What is it?", "such as peach stone", PIECE_LONGEST)
    if what is None:
        return
    known = next((one for one in answers.answers if one.key == f"piece:{fold(what)}"), None)
    if isinstance(known, PieceRow):
        answers.mark_row(known.key)
        answers.put(known.stepped(1))
        return
    fresh = piece_row(Piece(what=what), stack.setup.units)
    answers.add(fresh, row.key)
    await _take_size(house, stack, answers, fresh)


async def _take_size(house: TrayturnApp, stack: Stack, answers: Answers, row: PieceRow) -> None:
    units = stack.setup.units
    usual = INCHES if units is Units.US else CM
    sizes = [None, *sorted({*usual, *((row.size_cm,) if row.size_cm else ())})]
    names = [show_length(size / 100, units) if size else "not measured" for size in sizes]
    now = sizes.index(row.size_cm or None)
    place = await _chosen(house, "How long is the longest?", names, now)
    if place is not None:
        answers.put(row.sized(sizes[place], units))


async def _add_thing(house: TrayturnApp, stack: Stack, tray: str, answers: Answers, row: Answer) -> None:
    kinds = list(Contaminant)
    place = await _chosen(house, "What does not belong?", [str(kind) for kind in kinds])
    source = await _source(house, stack, tray, answers) if place is not None else None
    if place is not None and source is not None:
        _put_thing(answers, Thing(kinds[place], 1, source), row.key)


def _put_thing(answers: Answers, thing: Thing, place: str) -> None:
    """Put it in at that row; where such a one stands already, there is one more of it."""
    fresh = thing_row(thing)
    known = next((one for one in answers.answers if one.key == fresh.key), None)
    if isinstance(known, ThingRow) and known.key != place:
        answers.mark_row(known.key)
        answers.put(replace(known, number=(known.number or 0) + thing.count))
    elif place.startswith("add-"):
        answers.add(fresh, place)
    else:
        answers.swap(place, fresh)


async def _source(house: TrayturnApp, stack: Stack, tray: str, answers: Answers, now: str = "") -> str | None:
    """What it came in with; empty where nobody knows, None where the keeper left. `now` is as written."""
    here = [row.source for row in answers.answers if isinstance(row, ThingRow)]
    names = sources_named(stack, tray, [one for one in (now, *here) if one])
    known = [fold(name) for name in names]
    marked = 1 + known.index(fold(now)) if fold(now) in known else 0
    place = await _chosen(house, "What did it come in with?", [UNKNOWN, *names, OTHER], marked)
    if place is None or place <= len(names):
        return None if place is None else ["", *names][place]
    return await _typed(house, "What did it come in with?", "such as parcels", SOURCE_LONGEST)


async def _chosen(house: TrayturnApp, title: str, names: Sequence[str], marked: int = 0) -> int | None:
    """The place of the name that was taken, that of `marked` marked at first; None where the keeper left."""
    choices = [(str(place), clean(name, 40), "") for place, name in enumerate(names)]
    taken = await house.push_screen_wait(Choose(title, choices, str(marked)))
    return None if taken is None else int(taken)


async def _typed(house: TrayturnApp, question: str, hint: str, longest: int) -> str | None:
    """A name that is typed with clean hands; None where the keeper left."""
    text = await house.push_screen_wait(TypeIn(question, "", hint, partial(_trouble, longest)))
    return text.strip() if text is not None else None


def _trouble(longest: int, text: str) -> str | None:
    if not text.strip():
        return "Type a name, or leave with Esc."
    return f"That is too long; the most is {longest} characters." if len(text.strip()) > longest else None


async def _type_in(house: TrayturnApp, answers: Answers, row: Mass | Words) -> None:
    start = row.text if isinstance(row, Words) else ""
    sheet = TypeIn(row.label.strip(), start, typed.example(row), partial(typed.trouble, row))
    text = await house.push_screen_wait(sheet)
    if text is not None:
        answers.put(typed.answered(row, text))
