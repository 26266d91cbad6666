"""The rows of the due list and of the ranking, and what stands beside them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime
from textwrap import wrap

from trayturn.advice.due import Due
from trayturn.advice.next import Next
from trayturn.domain.words import clean
from trayturn.tui.widgets.line_list import Row, Span

DAY_WIDTH = 12
NAME_WIDTH = 14
LEAST = 24
"""How narrow what is due is wrapped at most."""


def row_key(due: Due) -> str:
    """What a row stands for, so that the mark stays with it wherever it moves."""
    return f"{due.bin}\n{due.item}"


def name_width(names: Sequence[str]) -> int:
    """How wide the column of bins is; nothing where none are named."""
    return min(NAME_WIDTH, max(map(len, names))) + 2 if names else 0


def due_rows(due: Sequence[Due], now: datetime, width: int, names: int) -> list[Row]:
    """One row a thing: whether it presses, its day, its bin where there are several, and what to do."""
    return [Row(tuple(_lines(one, now, width, names)), row_key(one)) for one in due]


def _lines(one: Due, now: datetime, width: int, names: int) -> Iterator[tuple[Span, ...]]:
    off = "  put off" if one.snoozed_until is not None else ""
    look = "strong" if one.pressing else "plain"
    what = wrap(one.what + off, max(LEAST, width - 2 - DAY_WIDTH - names))
    name = f"{clean(one.name, NAME_WIDTH):{names}}" if names else ""
    yield (
        ("! " if one.pressing else "  ", "act"),
        (f"{_short(one.when(now)):{DAY_WIDTH}}", "act" if one.pressing else "muted"),
        (name, look),
        (what[0], look),
    )
    for line in what[1:]:
        yield ((" " * (2 + DAY_WIDTH + names), "plain"), (line, look))


def _short(day: str) -> str:
    """A rest of another day has its clock time on the line of its own words already."""
    return day if len(day) < DAY_WIDTH else day.rsplit(" ", 1)[0][: DAY_WIDTH - 1]


def next_rows(ranked: Sequence[Next], width: int, names: int) -> list[Row]:
    """One row a bin: its place, or a dash where it rests, and why as far as there is room."""
    return [_next_row(place, one, width - 4 - names, names) for place, one in enumerate(ranked, 1)]


def _next_row(place: int, one: Next, room: int, names: int) -> Row:
    mark = "-" if one.resting else str(place)
    told = one.line if len(one.line) <= room else one.what
    look = "wait" if one.resting else "strong"
    spans = (
        (f"{mark:<4}", "muted" if one.resting else "act"),
        (f"{clean(one.name, NAME_WIDTH):{names}}" if names else "", "plain"),
        (clean(told), look),
    )
    return Row((spans,), one.bin)


def next_lines(one: Next) -> list[str]:
    """The whole reason of a place, and the first thing to do in that bin where that is another."""
    first = [] if one.first == one.feed else [f"First there: {one.first.what}"]
    return [one.line, *first, "", *one.why]
