"""Finding pages by words, as a keeper types them in a hurry."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from trayturn.advice.handbook.book import article, articles
from trayturn.advice.handbook.model import Article
from trayturn.advice.pages import Page
from trayturn.science.finding import holds, stems


def named(words: str) -> Article | None:
    """The page that those words name, by its id or its title; word order and plurals do not matter."""
    wanted = sorted(stems(words))
    return next((one for one in articles() if wanted in _names(one.page)), None)


@cache
def _names(page: Page) -> tuple[list[str], ...]:
    return sorted(stems(page)), sorted(stems(article(page).title))


def look_up(words: str) -> list[Article]:
    """The pages that hold every word: in the title first, then in the words to find by, then in the text.

    The last word may be only begun. In the text, a slip is not forgiven: too much would be found.
    """
    wanted = stems(words)
    if not wanted:
        return list(articles())
    ranked = [
        (rank, place, one) for place, one in enumerate(articles()) if (rank := _rank(one, wanted)) is not None
    ]
    return [one for _, _, one in sorted(ranked, key=lambda found: found[:2])]


def _rank(one: Article, wanted: Sequence[str]) -> int | None:
    title, words, text = _stems(one.page)
    if _begun(title, wanted):
        return 0
    if _begun(words, wanted):
        return 1
    if holds(words, wanted):
        return 2
    return 3 if _begun(text, wanted) else None


def _begun(have: Sequence[str], wanted: Sequence[str]) -> bool:
    """Whether every word is there, the last one perhaps only begun."""
    *whole, last = wanted
    return set(whole) <= set(have) and any(word.startswith(last) for word in have)


@cache
def _stems(page: Page) -> tuple[tuple[str, ...], ...]:
    """The words of a page's title, of what it is found by, and of all its text."""
    one = article(page)
    title = tuple(dict.fromkeys(stems(f"{one.title} {page}")))
    words = tuple(dict.fromkeys((*title, *stems(" ".join(one.words)))))
    return title, words, tuple(dict.fromkeys((*words, *stems(_text(one)))))


def _text(one: Article) -> str:
    parts = [one.summary]
    for section in one.sections:
        rows = section.table.rows if section.table else ()
        parts += [section.heading, *(said.text for said in section.said)]
        parts += [cell for row in rows for cell in row.cells]
    return " ".join(parts)
