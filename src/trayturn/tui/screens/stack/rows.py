"""The due list as rows: what is due in one line, and in a wide window why it is."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from textwrap import wrap

from trayturn.advice.due import Due
from trayturn.domain.problems import Problem
from trayturn.domain.words import clean
from trayturn.tui.widgets.line_list import Row, Span


def due_rows(due: Sequence[Due], now: datetime, width: int, *, with_why: bool) -> list[Row]:
    """One row a due thing, wrapped to the width; its key is its place in the list."""
    return [Row(_lines(one, now, max(20, width), with_why), str(place)) for place, one in enumerate(due)]


def _lines(one: Due, now: datetime, width: int, with_why: bool) -> tuple[tuple[Span, ...], ...]:
    pressing = one.pressing
    what = wrap(one.what, width - 3)
    marks = ["! " if pressing else "  "] + ["  "] * (len(what) - 1)
    lines: list[tuple[Span, ...]] = [
        ((mark, "act"), (text, "strong" if pressing else "plain"))
        for mark, text in zip(marks, what, strict=True)
    ]
    if with_why and one.why:
        lines += [(("  ", "plain"), (text, "muted")) for text in wrap(one.why[0], width - 3)]
    return tuple(lines)


def problem_rows(problems: Sequence[Problem]) -> list[Row]:
    """What is wrong with a file that cannot be read."""
    return [
        Row((((clean(str(problem), 400), "error"),),), str(place)) for place, problem in enumerate(problems)
    ]
