"""The ways as rows: what each is, a bar on one scale for what is aimed at, and the figures beside it."""

from __future__ import annotations

from trayturn.advice.bands import Band
from trayturn.advice.comparing.result import Aim, Comparison, Row
from trayturn.advice.comparing.words import COLUMNS, cells, several_scraps, way_words
from trayturn.domain.setup import Units
from trayturn.tui.widgets.chart.bars import Five, bar
from trayturn.tui.widgets.line_list import Row as Line
from trayturn.tui.widgets.line_list import Span

WAY, BAR, LEAST_WIDE = 24, 24, 120
WITH_SCRAPS = 40
CELLS = (18, 18, 7, 9, 11, 10, 20)


def _width(found: Comparison) -> int:
    return WITH_SCRAPS if several_scraps(found) else WAY


def header(found: Comparison, width: int) -> str:
    """The names of the columns."""
    first = f"   {COLUMNS[0]:<{_width(found)}}{'':<{BAR}}  "
    names = [f"{name:<{size}}" for name, size in zip(COLUMNS[1:], CELLS, strict=True)]
    return first + "".join(names[: _shown(width)])


def ways_rows(found: Comparison, aim: Aim, units: Units, width: int, plain: bool) -> list[Line]:
    """One row a way. The best for the aim is marked, and so are those that cannot be told from it."""
    best = found.of(aim)
    fives = [five_of(row, aim) for row in found.rows]
    top = max(five[4] for five in fives)
    scraps = several_scraps(found)
    lines = []
    for place, (row, five) in enumerate(zip(found.rows, fives, strict=True)):
        mark = "*" if place == best.place else "=" if place in best.as_good else " "
        way = way_words(row.way, units, scraps=scraps)
        drawn = f"{bar(five, top, BAR, plain=plain):<{BAR}}"
        spans: list[Span] = [
            (f"{mark} {way:<{_width(found)}}", "act" if mark == "*" else "plain"),
            (f"{drawn}  ", "wait"),
            (_figures(row, units, width), "plain"),
        ]
        if place == found.now:
            spans.append((" today", "muted"))
        lines.append(Line((tuple(spans),), str(place)))
    return lines


def five_of(row: Row, aim: Aim) -> Five:
    """The band that is drawn for an aim; of work low, middle and high alone."""
    if aim is Aim.WORK:
        work: Band = row.work_min
        return work.low, (work.low + work.mid) / 2, work.mid, (work.mid + work.high) / 2, work.high
    if aim is Aim.WORMS:
        return row.worms_kg
    if aim is Aim.SCRAPS:
        share = row.takes_all
        return share, share, share, share, share
    return row.castings_kg_per_month


def _figures(row: Row, units: Units, width: int) -> str:
    told = [f"{cell:<{size}}" for cell, size in zip(cells(row, units), CELLS, strict=True)]
    return "".join(told[: _shown(width)]).rstrip()


def _shown(width: int) -> int:
    """How many columns of figures there is room for."""
    return len(CELLS) if width >= LEAST_WIDE + WITH_SCRAPS else 2 if width >= LEAST_WIDE else 1
