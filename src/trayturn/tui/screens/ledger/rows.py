"""The rows of the ledger as they are drawn, and the bars of the marked bin."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from trayturn.advice.ledger.books import Ledger, Totals, in_all
from trayturn.advice.ledger.table import Columns, columns_of, sum_row, sums_of, turn_line
from trayturn.advice.ledger.turn import Turn
from trayturn.domain.setup import Units
from trayturn.tui.screens.ledger.bars import Bar
from trayturn.tui.widgets.line_list import Row

SUM, FOUND = "sum:", "@found"
"""What begins the key of a sum, and the row that leads to what was found."""


def columns(books: Sequence[Ledger]) -> Columns:
    """The columns: with several bins each row names its own."""
    return columns_of(books, named=len(books) != 1)


def turn_key(turn: Turn) -> str:
    """What a row is told apart by."""
    return f"{turn.bin}:{turn.life.tray}:{turn.life.started_at.isoformat()}"


def sums(books: Sequence[Ledger]) -> dict[str, tuple[str, Totals]]:
    """The sums by their row's key."""
    return {f"{SUM}{n}": one for n, one in enumerate(sums_of(books, in_all(books)))}


def ledger_rows(books: Sequence[Ledger], units: Units) -> list[Row]:
    """Every turn, the newest first, then the sums, then the way to what was found."""
    across = columns(books)
    found = [(turn, book) for book in books for turn in book.turns]
    found.sort(key=lambda pair: pair[0].life.ended_at, reverse=True)
    rows = [Row(((_turn(turn, book, across, units),)), turn_key(turn)) for turn, book in found]
    rows += [
        Row((((sum_row(label, totals, across, units), "strong"),),), key)
        for key, (label, totals) in sums(books).items()
    ]
    return [*rows, Row(((("Enter: pieces that go round, and what does not belong", "muted"),),), FOUND)]


def _turn(turn: Turn, book: Ledger, across: Columns, units: Units) -> tuple[tuple[str, str], ...]:
    wrong = bool(book.remarks_of(turn))
    line = turn_line(turn, book.name, across, book.as_of, units, wrong=wrong)
    look = "error" if wrong else "plain" if turn.castings.whole else "muted"
    return ((line, look),)


def bars_of(book: Ledger, marked: Turn | None) -> tuple[list[Bar], int | None]:
    """The turns of a bin from the oldest on, and the place of the marked one."""
    turns = list(reversed(book.turns))
    place: Mapping[str, int] = {turn_key(turn): n for n, turn in enumerate(turns)}
    bars = [Bar(turn.life.tray, turn.per_scraps) for turn in turns]
    return bars, place.get(turn_key(marked)) if marked is not None else None
