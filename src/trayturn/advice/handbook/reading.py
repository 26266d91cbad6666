"""From the tables of a page's TOML to the page. Whatever is missing, misspelt or left over is refused."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, TypeVar

from trayturn.advice.handbook.model import Article, Said, Section, Source, Sure, Table, TableRow
from trayturn.advice.pages import Page

Sources = Mapping[str, Source]
T = TypeVar("T")


class PageError(ValueError):
    """A page that cannot be read. The message says which and what is wrong with it."""


def read_sources(data: Mapping[str, Any]) -> dict[str, Source]:
    """The sources by their short names: how sure they are, and what they cite unless they cite nothing."""
    return {name: _source(name, given) for name, given in data.items()}


def _source(name: str, given: Mapping[str, Any]) -> Source:
    _only(given, ("sure", "cite"), f"source {name}")
    try:
        sure = Sure[str(given.get("sure", "")).upper()]
    except KeyError:
        raise PageError(f"source {name}: sure needs to be one of {', '.join(Sure.__members__)}.") from None
    return Source(name, str(given.get("cite", "")), sure)


def read_article(page: Page, data: Mapping[str, Any], sources: Sources) -> Article:
    """A page from its data. Raises `PageError`."""
    _only(data, ("title", "summary", "words", "see", "section"), page)
    return Article(
        page,
        _text(data, "title", page),
        _text(data, "summary", page),
        tuple(_section(one, page, sources) for one in _several(data, "section", page)),
        tuple(_page(name, page) for name in data.get("see", ())),
        tuple(str(word) for word in _several(data, "words", page)),
    )


def _page(name: str, page: Page) -> Page:
    try:
        return Page(name)
    except ValueError:
        raise PageError(f"{page}: see names {name!r}, which is no page.") from None


def _section(data: Mapping[str, Any], page: Page, sources: Sources) -> Section:
    _only(data, ("heading", "say", "columns", "rows"), page)
    heading = _text(data, "heading", page)
    where = f"{page}, {heading}"
    said = tuple(Said(*_sourced(one, str, where, sources)) for one in data.get("say", ()))
    return Section(heading, said, _table(data, where, sources))


def _table(data: Mapping[str, Any], where: str, sources: Sources) -> Table | None:
    if "columns" not in data and "rows" not in data:
        return None
    columns = tuple(str(one) for one in _several(data, "columns", where))
    rows = []
    for one in _several(data, "rows", where):
        cells, its = _sourced(one, list, where, sources)
        if len(cells) != len(columns):
            raise PageError(f"{where}: the row {cells} needs {len(columns)} cells.")
        rows.append(TableRow(tuple(map(str, cells)), its))
    return Table(columns, tuple(rows))


def _sourced(one: Sequence[Any], of: type[T], where: str, sources: Sources) -> tuple[T, tuple[Source, ...]]:
    """What is said, and the sources named after it: `["It is so.", "reeh"]`."""
    first, *names = one
    if not isinstance(first, of):
        raise PageError(f"{where}: {first!r} is not what stands there.")
    unknown = [name for name in names if name not in sources]
    if unknown:
        raise PageError(f"{where}: {unknown[0]!r} is no source.")
    return first, tuple(sources[name] for name in names)


def _text(data: Mapping[str, Any], key: str, where: str) -> str:
    value = data.get(key)
    if not isinstance(value, str) or not value.strip():
        raise PageError(f"{where}: {key} is missing.")
    return value


def _several(data: Mapping[str, Any], key: str, where: str) -> Sequence[Any]:
    value = data.get(key)
    if not isinstance(value, list) or not value:
        raise PageError(f"{where}: {key} needs to be a list with something in it.")
    return value


def _only(data: Mapping[str, Any], known: Sequence[str], where: str) -> None:
    unknown = [key for key in data if key not in known]
    if unknown:
        raise PageError(f"{where}: {unknown[0]!r} is not known here; use {', '.join(known)}.")
