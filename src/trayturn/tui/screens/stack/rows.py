"""The due list as rows: what is due in one line, and in a wide window why it is."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from textwrap import wrap

from trayturn.advice.due import Due
from trayturn.domain.problems import Finding, Problem
from trayturn.domain.words import clean, count
from trayturn.tui.widgets.line_list import Row, Span

FINDINGS = "findings"
"""The key of the row that tells of a journal that does not add up."""
MORE = "more"
"""The key of the row that stands for those there is no room for."""
SHORT, TALL = 8, 14
"""Lines of room in a window of usual size and in a wide one, where the reasons stand beneath."""


def due_rows(due: Sequence[Due], findings: Sequence[Finding], width: int, *, with_why: bool) -> list[Row]:
    """The first due things, wrapped to the width, each by its place in the list; one row for the findings."""
    width = max(20, width)
    found = [_findings_row(findings, width)] if findings else []
    rows = [Row(_lines(one, width, with_why), str(place)) for place, one in enumerate(due)]
    room = (TALL if with_why else SHORT) - sum(len(row.lines) for row in found)
    return [*_fitting(rows, room), *found]


def _findings_row(findings: Sequence[Finding], width: int) -> Row:
    what = count(len(findings), "thing")
    lines = wrap(f"{what} in the journal to look at. Enter tells.", width - 3)
    return Row(tuple((("? ", "act"), (line, "plain")) for line in lines), FINDINGS)


def _fitting(rows: list[Row], room: int) -> list[Row]:
    """All of them, or as many as leave a line to say how many more there are. The first is always there."""
    ends = list(accumulate(len(row.lines) for row in rows))
    if ends[-1] <= room:
        return rows
    fit = max(1, sum(end < room for end in ends))
    more = Row(((("  ", "plain"), (f"and {len(rows) - fit} more; d shows all", "muted")),), MORE)
    return [*rows[:fit], more]


def _lines(one: Due, width: int, with_why: bool) -> tuple[tuple[Span, ...], ...]:
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


def problem_rows(problems: Sequence[Problem], width: int) -> list[Row]:
    """What is wrong with a file that cannot be read, wrapped to the width."""
    told = [wrap(clean(str(problem), 400), max(20, width)) for problem in problems]
    return [Row(tuple(((line, "error"),) for line in lines), str(place)) for place, lines in enumerate(told)]
