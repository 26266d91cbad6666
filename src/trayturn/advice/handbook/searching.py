"""Finding pages by words, as a keeper types them in a hurry."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from trayturn.advice.handbook.book import article, articles
from trayturn.advice.handbook.figures import BRACES
from trayturn.advice.handbook.model import Article, TableRow
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
    """The pages that hold the words, the best first; where none holds them all, those that hold the most.

    A word may be only begun. It counts most in the title, then among the words to find by, least in the text,
    where no slip is forgiven: too much would be found. Beside longer words, those of one or two letters do
    not count.
    """
    wanted = [word for word in stems(words) if len(word) > 2] or stems(words)
    if not wanted:
        return list(articles())
    ranks = {one.page: [_rank(one.page, word) for word in wanted] for one in articles()}
    least = min(found.count(None) for found in ranks.values())
    best = {
        page: sum(rank for rank in found if rank is not None)
        for page, found in ranks.items()
        if found.count(None) == least < len(wanted)
    }
    return [article(page) for page in sorted(best, key=best.__getitem__)]


def _rank(page: Page, word: str) -> int | None:
    title, words, text = _stems(page)
    if _begun(title, word):
        return 0
    if _begun(words, word):
        return 1
    if holds(words, [word]):
        return 2
    return 3 if _begun(text, word) else None


def _begun(have: Sequence[str], word: str) -> bool:
    return any(one.startswith(word) for one in have)


@cache
def _stems(page: Page) -> tuple[tuple[str, ...], ...]:
    """The words of a page's title, of what it is found by, and of all its text."""
    one = article(page)
    title = tuple(dict.fromkeys(stems(f"{one.title} {page}")))
    words = tuple(dict.fromkeys((*title, *stems(" ".join(one.words)))))
    return title, words, tuple(dict.fromkeys((*words, *stems(_text(one)))))


def _text(one: Article) -> str:
    """All that is said on a page, with what stands in braces left out."""
    parts = [one.summary]
    for section in one.sections:
        parts.append(section.heading)
        parts += [
            " ".join(claim.cells) if isinstance(claim, TableRow) else claim.text for claim in section.claims
        ]
    return BRACES.sub(" ", " ".join(parts))
