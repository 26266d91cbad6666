"""A page as lines of a width: the same for the screen and for the command line."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain
from textwrap import wrap

from trayturn.advice.handbook.model import Article, Said, Section, Source, Table, TableRow

GAP = 2
UNBROKEN = "\N{NO-BREAK SPACE}"
UNIT = re.compile(r"(?<=\d) (?=(?:%|°[CF]|k?g|l|[cm]m|lb|oz|qt|in|[CF])(?![a-z]))")
"""The gap between a number and its unit."""
NARROWEST = 6
"""No column of a table gets narrower: a longer word is then broken."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line, and what part of the page it is: its look follows from that.

    Looks are `summary`, `heading`, `text`, `head` (of a table), `row` and `source`.
    """

    text: str
    look: str = "text"


def lay_out(article: Article, width: int) -> list[Line]:
    """The page's lines under its title, no longer than `width`, which is 50 or more."""
    lines = [Line(text, "summary") for text in _wrapped(article.summary, width)]
    for section in article.sections:
        heading = [Line(text, "heading") for text in _wrapped(section.heading, width)]
        lines += [Line(""), *heading, *_section(section, width)]
    return lines


def _section(section: Section, width: int) -> list[Line]:
    """The table first: it answers at a glance. Several sayings stand one by one, so that one is found."""
    marks = _marks(section)
    lines = _table(section.table, marks, width) if section.table is not None else []
    lead = "- " if len(section.said) > 1 or section.table is not None else ""
    for one in section.said:
        text = f"{lead}{one.text}{_mark(one, marks, UNBROKEN)}"
        lines += [Line(line) for line in _wrapped(text, width, " " * len(lead))]
    return lines + _sources(section.sources, marks, width)


def _wrapped(text: str, width: int, indent: str = "") -> list[str]:
    """Wrapped text in which no unit is parted from its number. Nothing gives one empty line."""
    held = UNIT.sub(UNBROKEN, text)
    lines = wrap(held, width, subsequent_indent=indent, break_on_hyphens=False) or [""]
    return [line.replace(UNBROKEN, " ") for line in lines]


def _marks(section: Section) -> dict[Source, int]:
    """A number for each source; none where all that is said rests on the same."""
    if len({one.sources for one in section.claims}) < 2:
        return {}
    return {source: number for number, source in enumerate(section.sources, 1)}


def _mark(one: Said | TableRow, marks: dict[Source, int], before: str = "") -> str:
    numbers = ",".join(str(marks[source]) for source in one.sources if source in marks)
    return f"{before}[{numbers}]" if numbers else ""


def _sources(sources: Sequence[Source], marks: dict[Source, int], width: int) -> list[Line]:
    if not sources:
        return []
    if marks:
        text = "; ".join(f"[{marks[source]}] {source.words}" for source in sources)
    else:
        text = "; ".join(source.words for source in sources)
        text = text if any(source.cite for source in sources) else f"{text[:1].upper()}{text[1:]}"
    return [Line(f"  {line}", "source") for line in _wrapped(f"{text}.", width - 2)]


def _table(table: Table, marks: dict[Source, int], width: int) -> list[Line]:
    rows: list[tuple[str, ...]] = [row.cells for row in table.rows]
    heads = table.columns
    if any(_mark(row, marks) for row in table.rows):
        rows = [(*row.cells, _mark(row, marks)) for row in table.rows]
        heads = (*heads, "")
    widths = _widths([heads, *rows], width)
    head = _cells(heads, widths, "head") if any(table.columns) else []
    return [*head, *chain.from_iterable(_cells(row, widths, "row") for row in rows)]


def _widths(rows: Sequence[Sequence[str]], width: int) -> list[int]:
    """How wide each column is: as wide as its longest cell, the widest narrowed until all fit."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    spare = width - GAP * (len(widths) - 1)
    while sum(widths) > spare and max(widths) > NARROWEST:
        widths[widths.index(max(widths))] -= 1
    return widths


def _cells(cells: Sequence[str], widths: Sequence[int], look: str) -> list[Line]:
    """One row as lines: a cell too long for its column goes on below."""
    columns = [_wrapped(cell, size) for cell, size in zip(cells, widths, strict=True)]
    high = max(map(len, columns))
    padded = [[*column, *[""] * (high - len(column))] for column in columns]
    gap = " " * GAP
    return [
        Line(gap.join(f"{cell:<{size}}" for cell, size in zip(line, widths, strict=True)).rstrip(), look)
        for line in zip(*padded, strict=True)
    ]
