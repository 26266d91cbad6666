"""Pages are found by what a keeper types in a hurry."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.advice.handbook import Article, articles, look_up, named
from trayturn.advice.pages import Page

PAGES = articles()
WORDS = [(one, word) for one in PAGES for word in one.words]
by_page = pytest.mark.parametrize("one", PAGES, ids=lambda one: one.page)


@by_page
def test_a_page_is_found_by_its_title_and_its_name(one: Article) -> None:
    assert look_up(one.title)[0] is one
    assert one in look_up(one.page)
    assert named(one.title) is one
    assert named(f" {one.page.upper()} ") is one


@pytest.mark.parametrize(("one", "word"), WORDS, ids=lambda given: getattr(given, "page", given))
def test_a_page_is_found_by_each_of_its_words_also_in_the_plural(one: Article, word: str) -> None:
    assert one in look_up(word)
    plural = word if word.endswith("s") else f"{word[:-1]}ies" if word.endswith("y") else f"{word}s"
    assert one in look_up(plural)


@pytest.mark.parametrize(
    ("one", "word"),
    [(o, w) for o, w in WORDS if len(w) >= 7 and " " not in w],
    ids=lambda g: getattr(g, "page", g),
)
def test_a_small_slip_is_forgiven(one: Article, word: str) -> None:
    """Two letters in the middle changed places, or one was left out."""
    place = len(word) // 2
    swapped = word[:place] + word[place + 1] + word[place] + word[place + 2 :]
    assert one in look_up(swapped)
    assert one in look_up(word[:place] + word[place + 1 :])


@pytest.mark.parametrize(
    ("typed", "page"),
    [
        ("worms climbing out of the bin", Page.STRAYS),
        ("it smells like ammonia", Page.SMELLS),
        ("flyes in fruit", Page.PESTS),
        ("white mites", Page.PESTS),
        ("too wet", Page.MOISTURE),
        ("moi", Page.MOISTURE),
        ("baby worms", Page.HATCHING),
        ("how much to feed", Page.FEEDING),
        ("is it too hot", Page.TEMPERATURE),
        ("liquid in the bottom", Page.SUMP),
        ("dead worms", Page.STRAYS),
        ("onions", Page.MEALS),
        ("salty", Page.SALT),
        ("how deep", Page.LAYERS),
        ("when is it finished", Page.TURNING),
        ("back pain", Page.LIFTING),
        ("egg shells", Page.GRIT),
        ("ph", Page.PH),
        ("how many worms", Page.WORM_NUMBERS),
        ("can I sell castings", Page.CASTINGS),
    ],
)
def test_what_is_typed_at_the_bin_finds_its_page_first(typed: str, page: Page) -> None:
    assert look_up(typed)[0].page is page


def test_no_words_find_all_and_nonsense_finds_none() -> None:
    assert look_up("") == look_up("  ") == list(PAGES)
    assert look_up("zzzzqq") == []
    assert named("flies") is None


@given(st.text(max_size=40))
def test_any_text_can_be_typed(text: str) -> None:
    found = look_up(text)
    assert len({one.page for one in found}) == len(found)


@given(st.sampled_from(PAGES), st.data())
def test_what_is_typed_of_a_title_so_far_keeps_the_page(one: Article, data: st.DataObject) -> None:
    """As letters are typed the page that they lead to never drops out."""
    so_far = data.draw(st.integers(1, len(one.title)))
    assert one in look_up(one.title[:so_far])
