"""Finding pages by words, as a keeper types them in a hurry."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from trayturn.advice.handbook.book import article, articles
from trayturn.advice.handbook.figures import BRACES
from trayturn.advice.handbook.model import Article, TableRow
from trayturn.advice.pages import Page
from trayturn.science.finding import FILLERS, holds, stems


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
    typed = _words(words)
    wanted = [word for word in typed if len(word) > 2] or typed
    if not wanted:
        return list(articles())
    ranks = {one.page: [_rank(one.page, word) for word in wanted] for one in articles()}
    least = min(found.count(None) for found in ranks.values())
    best = {
        page: sum(rank for rank in found if rank is not None)
        for page, found in ranks.items()
        if found.count(None) == least < len(wanted)
    }
    meant = named(words)
    first = meant.page if meant else None
    return [article(page) for page in sorted(best, key=lambda page: (page is not first, best[page]))]


def _rank(page: Page, word: str) -> int | None:
    title, words, text = _forms(page)
    forms = (word, *stems(word))
    if _begun(title, forms):
        return 0
    if _begun(words, forms):
        return 1
    if holds(words, forms[1:]):
        return 2
    return 3 if _begun(text, forms) else None


def _begun(have: Sequence[str], forms: tuple[str, ...]) -> bool:
    """Whether a word begins like this one, as it was typed or as its stem."""
    return any(one.startswith(forms) for one in have)


def _words(text: str) -> list[str]:
    return [word for word in re.findall(r"[^\W_]+", text.casefold()) if word not in FILLERS]


@cache
def _forms(page: Page) -> tuple[tuple[str, ...], ...]:
    """The words of a page's title, of what it is found by, and of all its text: as written, and as stems."""
    one = article(page)
    title = f"{one.title} {page}"
    words = f"{title} {' '.join(one.words)}"
    parts = (title, words, f"{words} {_text(one)}")
    return tuple(tuple(dict.fromkeys((*_words(part), *stems(part)))) for part in parts)


def _text(one: Article) -> str:
    """All that is said on a page, with what stands in braces left out."""
    parts = [one.summary]
    for section in one.sections:
        parts.append(section.heading)
        parts += [
            " ".join(claim.cells) if isinstance(claim, TableRow) else claim.text for claim in section.claims
        ]
    return BRACES.sub(" ", " ".join(parts))
