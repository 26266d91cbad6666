"""Rows for what is picked out of a tray while skimming and settling: pieces, and what does not belong."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from trayturn.advice.pieces import known_overs
from trayturn.domain.entries import ContaminantFound, Entry, Piece
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.supplies import fold
from trayturn.procedure.separation import Thing
from trayturn.tui.screens.separation.rows import Add, PieceRow, ThingRow, known_row, piece_row, thing_row
from trayturn.tui.widgets.answer_rows import Answer

ADD_PIECE = Add("add-piece", "Add a piece", "Too big or tough to be done: it goes round again.")
ADD_THING = Add("add-thing", "Add contaminant", "Plastic, tape, stickers: what it is, what it came in with.")


def piece_rows(stack: Stack, sep: Separation, found: Sequence[Piece], before: int = 0) -> list[Answer]:
    """The pieces known to lie in the tray, then the others found, and the row that adds one.

    Pieces known that passes before have found already have no row, unless they are found again. `before` is
    how many passes those are.
    """
    units, known = stack.setup.units, {fold(over.what): over for over in known_overs(stack, sep.tray)}
    now = {fold(piece.what): piece for piece in found}
    rows: list[Answer] = []
    for name, over in known.items():
        so_far = _found_in(sep, name, before)
        if name in now:
            rows.append(piece_row(now[name], units, over, over.count - so_far))
        elif so_far < over.count:
            rows.append(known_row(over, units, so_far))
    others = [piece_row(piece, units) for name, piece in now.items() if name not in known]
    return [*rows, *others, ADD_PIECE]


def _found_in(sep: Separation, name: str, passes: int) -> int:
    """How many pieces of that name the first so many passes have found."""
    pieces = (piece for done in sep.passes[:passes] for piece in done.pieces)
    return sum(piece.count for piece in pieces if fold(piece.what) == name)


def thing_rows(found: Iterable[Entry]) -> list[Answer]:
    """What was answered before of what does not belong, and the row that adds more."""
    things = [Thing(e.what, e.count, e.source) for e in found if isinstance(e, ContaminantFound)]
    return [*map(thing_row, things), ADD_THING]


def pieces_in(answers: Iterable[Answer]) -> tuple[Piece, ...]:
    """The pieces as answered."""
    return tuple(row.piece for row in answers if isinstance(row, PieceRow) and row.piece is not None)


def things_in(answers: Iterable[Answer]) -> tuple[Thing, ...]:
    """What does not belong, as answered."""
    return tuple(row.thing for row in answers if isinstance(row, ThingRow) and row.thing is not None)
