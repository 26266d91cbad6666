"""The pages that are shipped with the program, each read when it is first asked for."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from trayturn.advice.handbook.model import Article, Source
from trayturn.advice.handbook.reading import PageError, read_article, read_sources
from trayturn.advice.pages import Page


def articles() -> tuple[Article, ...]:
    """Every page, in the order of the handbook."""
    return tuple(article(page) for page in Page)


@cache
def article(page: Page) -> Article:
    """One page. Raises `PageError` for one that cannot be read."""
    return read_article(page, _data(f"pages/{page}.toml"), _sources())


@cache
def _sources() -> Mapping[str, Source]:
    return read_sources(_data("sources.toml"))


def _data(name: str) -> dict[str, Any]:
    text = files("trayturn.advice.handbook").joinpath(name).read_text(encoding="utf-8")
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise PageError(f"{name}: {error}") from None
