"""`handbook`: its pages as text, found by words, and as data."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence

from trayturn.advice.handbook import Article, articles, in_units, lay_out, look_up, named, reworded
from trayturn.advice.handbook.model import Section, Source, Table
from trayturn.cli import as_json
from trayturn.cli.layout import WIDTH, Page, column
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.setup import Units
from trayturn.domain.words import clean


def handbook(options: Namespace, clock: Clock) -> int:
    """Print the list of pages, the page that is named, or those that are found."""
    units = Units.US if options.us else Units.METRIC
    found = [in_units(one, units) for one in _asked(" ".join(options.words))]
    if options.json:
        as_json.print_json({"pages": [_data(one) for one in found]})
        return 0
    page = Page(options.ascii)
    if options.words and len(found) == 1:
        _print_page(found[0], page)
    else:
        _print_list(found, page)
    return 0


def _asked(words: str) -> Sequence[Article]:
    """The page of that name, or those that hold the words. Raises `Refused` where none does."""
    if not words.strip():
        return articles()
    one = named(words)
    found = [one] if one else look_up(words)
    if not found:
        what = clean(words.strip(), 40)
        raise Refused(f"No page of the handbook holds {what!r}. See them all with: trayturn handbook")
    return found


def _print_list(found: Sequence[Article], page: Page) -> None:
    width = column([one.page for one in found])
    for one in found:
        page.row(one.page, one.summary, width, 0)
    page.line()
    page.line(f"Read one with: trayturn handbook {found[0].page}")


def _print_page(one: Article, page: Page) -> None:
    """The signs are made plain before the columns are set, since that can shorten a cell."""
    page.line(one.title)
    page.line()
    for line in lay_out(reworded(one, page.plain), WIDTH):
        page.line(line.text)
    page.line()
    page.line(f"See also: {', '.join(one.see)}", hanging=2)


def _data(one: Article) -> as_json.Data:
    return {
        "id": one.page,
        "title": one.title,
        "summary": one.summary,
        "words": list(one.words),
        "sections": [_section(section) for section in one.sections],
        "tables": [_table(section.heading, section.table) for section in one.sections if section.table],
        "sources": [{"id": its.id, "cite": its.cite or None, "how_sure": its.sure} for its in one.sources],
        "see": list(one.see),
    }


def _section(section: Section) -> as_json.Data:
    said = [{"text": one.text, "sources": _ids(one.sources)} for one in section.said]
    return {"heading": section.heading, "sentences": said}


def _table(heading: str, table: Table) -> as_json.Data:
    """A table under the heading of its section; each row with the ids of its sources."""
    rows = [{"cells": list(row.cells), "sources": _ids(row.sources)} for row in table.rows]
    return {"heading": heading, "columns": list(table.columns), "rows": rows}


def _ids(sources: Sequence[Source]) -> list[str]:
    return [source.id for source in sources]
