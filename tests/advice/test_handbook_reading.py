"""A page that is not whole is refused, and the sentence says which and why."""

from __future__ import annotations

from typing import Any

import pytest

from trayturn.advice.handbook.model import Source, Sure
from trayturn.advice.handbook.reading import PageError, read_article, read_sources
from trayturn.advice.pages import Page

SOURCES = {"reeh": Source("reeh", "Reeh 1992", Sure.ABSTRACT)}
SECTION: dict[str, Any] = {
    "heading": "How much",
    "say": [["Worms eat.", "reeh"]],
    "columns": ["what", "how much"],
    "rows": [[["food", "some"], "reeh"]],
}
PAGE: dict[str, Any] = {
    "title": "Feeding",
    "summary": "Feed little.",
    "words": ["food"],
    "see": ["salt"],
    "section": [SECTION],
}


def test_a_whole_page_is_read() -> None:
    one = read_article(Page.FEEDING, PAGE, SOURCES)
    assert (one.page, one.see, one.words) == (Page.FEEDING, (Page.SALT,), ("food",))
    assert one.sections[0].table is not None
    assert one.sources == (SOURCES["reeh"],)
    assert SOURCES["reeh"].words == "Reeh 1992 (read in the abstract)"


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"title": ""}, "title is missing"),
        ({"summary": 3}, "summary is missing"),
        ({"words": []}, "words needs to be a list"),
        ({"section": []}, "section needs to be a list"),
        ({"see": ["paradise"]}, "'paradise', which is no page"),
        ({"colour": "red"}, "'colour' is not known here"),
        ({"section": [SECTION | {"heading": " "}]}, "heading is missing"),
        ({"section": [SECTION | {"say": [["It is so.", "hearsay"]]}]}, "'hearsay' is no source"),
        ({"section": [SECTION | {"say": [[3, "reeh"]]}]}, "is not what stands there"),
        ({"section": [SECTION | {"rows": [[["food"], "reeh"]]}]}, "needs 2 cells"),
        ({"section": [SECTION | {"rows": [["food", "reeh"]]}]}, "is not what stands there"),
        ({"section": [SECTION | {"rows": []}]}, "rows needs to be a list"),
        ({"section": [SECTION | {"picture": "x"}]}, "'picture' is not known here"),
    ],
)
def test_a_slip_is_told(change: dict[str, Any], said: str) -> None:
    with pytest.raises(PageError, match=said) as trouble:
        read_article(Page.FEEDING, PAGE | change, SOURCES)
    assert str(trouble.value).startswith("feeding")


def test_a_source_says_how_sure_it_is() -> None:
    read = read_sources({"reeh": {"cite": "Reeh 1992", "sure": "abstract"}, "trade": {"sure": "trade"}})
    assert read["reeh"] == SOURCES["reeh"]
    assert read["trade"].words == "trade lore"
    with pytest.raises(PageError, match="source x: sure needs to be one of TABLE"):
        read_sources({"x": {"cite": "X", "sure": "quite"}})
    with pytest.raises(PageError, match="'year' is not known"):
        read_sources({"x": {"cite": "X", "sure": "table", "year": 1992}})
