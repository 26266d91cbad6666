"""The due list as rows: what is due in one line, and in a wide window why it is."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from trayturn.advice.due import Due
from trayturn.domain.problems import Finding, Problem
from trayturn.domain.words import clean, count
from trayturn.tui.widgets.line_list import Row, Span

FINDINGS = "findings"
"""The key of the row that tells of a journal that does not add up."""


def due_rows(due: Sequence[Due], findings: Sequence[Finding], width: int, *, with_why: bool) -> list[Row]:
    """One row a due thing, wrapped to the width, its key its place in the list; and one for the findings."""
    rows = [Row(_lines(one, max(20, width), with_why), str(place)) for place, one in enumerate(due)]
    if findings:
        what = count(len(findings), "thing")
        lines = wrap(f"{what} in the journal to look at. Enter tells.", max(20, width) - 3)
        rows.append(Row(tuple((("? ", "act"), (line, "plain")) for line in lines), FINDINGS))
    return rows


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
