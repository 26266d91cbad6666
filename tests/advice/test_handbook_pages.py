"""The pages of the handbook: whole, short, plain, and every figure with its source."""

from __future__ import annotations

import re
from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.advice.cautions import CAUTIONS
from trayturn.advice.handbook import Article, article, articles, in_units, lay_out
from trayturn.advice.handbook.book import _data, _sources
from trayturn.advice.handbook.layout import UNIT
from trayturn.advice.handbook.model import Said, Sure, TableRow
from trayturn.advice.pages import Page
from trayturn.domain.entry_base import Feel, Pest
from trayturn.domain.setup import Units

TWO_SCREENS = 2 * (24 - 3)
"""Lines of two windows of 80 by 24, less the title, a rest that runs and the keys."""
PAGES = articles()
IN_BOTH = [in_units(one, units) for one in PAGES for units in Units]
UNCONFIRMED = {
    "594": "life expectancy in days",
    "4.85": "size of a cocoon, mm",
    "2.82": "size of a cocoon, mm",
    "19.5": "cocoons of Perionyx a week",
    "0.4 to 0.7": "bulk density of a tray's contents, g/cm3",
    "30 mA": "rating of a household breaker",
    "3 mg/m3": "a guideline for particles",
    "assigned protection": "of masks",
    "bake": "shells at a temperature",
}
"""What the reference marks as from memory or not confirmed, and which no page may say."""
by_page = pytest.mark.parametrize("one", PAGES, ids=lambda one: one.page)
in_both = pytest.mark.parametrize("one", IN_BOTH, ids=lambda one: one.page)


def claims(one: Article) -> list[Said | TableRow]:
    return [claim for section in one.sections for claim in section.claims]


def words_of(claim: Said | TableRow) -> str:
    return claim.text if isinstance(claim, Said) else " ".join(claim.cells)


def texts(one: Article) -> list[str]:
    return [one.title, one.summary, *(s.heading for s in one.sections), *map(words_of, claims(one))]


def test_every_page_is_there() -> None:
    assert [one.page for one in PAGES] == list(Page)
    assert len({one.title for one in PAGES}) == len(PAGES)


@in_both
def test_a_page_is_read_in_two_screens(one: Article) -> None:
    assert len(lay_out(one, 76)) <= TWO_SCREENS
    assert len(one.title) <= 24
    assert len(lay_out(one, 76)) >= 10


@in_both
def test_a_page_is_plain_text(one: Article) -> None:
    text = " ".join(texts(one)).replace("°", "")
    assert text.isascii()
    assert not set(text) & set("{}|*_`~")
    assert "  " not in text
    assert all(words_of(claim).strip() == words_of(claim) for claim in claims(one))
    assert all(claim.text.endswith((".", "?")) for claim in claims(one) if isinstance(claim, Said))
    assert one.summary.endswith(".")


@in_both
def test_every_figure_has_its_source(one: Article) -> None:
    bare = [words_of(claim) for claim in claims(one) if not claim.sources]
    in_the_program = [s for s in one.sections if s.heading == "In the program"]
    told_elsewhere = [said.text for section in in_the_program for said in section.said]
    assert [text for text in bare if re.search(r"\d", text) and text not in told_elsewhere] == []


@in_both
def test_what_is_not_confirmed_is_not_said(one: Article) -> None:
    told = " ".join(map(words_of, claims(one)))
    assert "[M]" not in told
    assert "memory" not in told
    said = [bad for bad in UNCONFIRMED if re.search(rf"(?<![\d.]){re.escape(bad)}(?![\d.]\d)", told)]
    assert [bad for bad in said if not (bad == "bake" and "only unofficial pages" in told)] == []


def test_a_claim_without_source_says_so_and_every_source_is_used() -> None:
    used = {source.id for one in PAGES for source in one.sources}
    assert set(_sources()) - used == set()
    assert all(source.cite or source.sure in SELF_TOLD for source in _sources().values())


SELF_TOLD = {Sure.TRADE, Sure.PRACTICE, Sure.RECKONED, Sure.OURS, Sure.NONE}


def test_how_sure_explains_every_word() -> None:
    page = in_units(article(Page.HOW_SURE), Units.METRIC)
    table = page.sections[0].table
    assert table is not None
    assert {row.cells[0] for row in table.rows} == set(Sure)


def test_every_page_leads_on_and_can_be_come_to() -> None:
    for one in PAGES:
        assert 2 <= len(one.see) <= 9
        assert one.page not in one.see
        assert max(Counter(one.see).values()) == 1
    assert {page for one in PAGES for page in one.see} | {Page.HOW_SURE} == set(Page)


def test_troubles_point_at_pages_that_it_leads_to() -> None:
    page = article(Page.TROUBLES)
    table = page.sections[0].table
    assert table is not None
    titles = [article(see).title for see in page.see]
    named = {row.cells[-1] for row in table.rows}
    assert all(sum(title.startswith(name) for title in titles) == 1 for name in named)
    assert len(named) == len(titles)


def test_each_creature_and_feel_of_a_check_is_told_of() -> None:
    pests, squeeze = article(Page.PESTS).sections[0].table, article(Page.SQUEEZE_TEST).sections[0].table
    assert pests is not None
    assert squeeze is not None
    names = " ".join(row.cells[0] for row in pests.rows)
    assert [pest for pest in Pest if pest not in names] == []
    assert [row.cells[1] for row in squeeze.rows] == list(Feel)


def test_every_caution_is_on_the_page_of_cautions() -> None:
    told = texts(in_units(article(Page.CAUTIONS), Units.METRIC))
    assert [caution.code for caution in CAUTIONS if not any(caution.title in text for text in told)] == []


@pytest.mark.parametrize("page", [Page.GRIT, Page.LIFTING, Page.CASTINGS, Page.CAUTIONS, Page.SMELLS])
def test_work_that_can_hurt_sends_to_those_who_know(page: Page) -> None:
    told = " ".join(map(words_of, claims(article(page))))
    wanted = {
        Page.GRIT: ("mask", "asthma"),
        Page.LIFTING: ("doctor", "pregnancy"),
        Page.CASTINGS: ("local authority", "doctor", "manure"),
        Page.CAUTIONS: ("doctor", "licensed practice", "Local codes"),
        Page.SMELLS: ("leave", "doctor"),
    }
    assert [word for word in wanted[page] if word not in told] == []


@given(st.sampled_from(IN_BOTH), st.integers(50, 120))
def test_a_page_fits_any_width_and_loses_nothing(one: Article, width: int) -> None:
    lines = lay_out(one, width)
    assert all(len(line.text) <= width for line in lines)
    assert not any(line.text != line.text.rstrip() for line in lines)
    drawn = re.sub(r"\s", "", "".join(line.text for line in lines if line.look != "row"))
    for said in (claim for claim in claims(one) if isinstance(claim, Said)):
        assert re.sub(r"\s", "", said.text) in drawn


@in_both
def test_columns_stand_under_each_other(one: Article) -> None:
    """A row whose cells all fit starts each cell where the head of its column starts."""
    lines = lay_out(one, 300)
    for section in one.sections:
        if section.table is None or not all(section.table.columns):
            continue
        head = next(
            line.text for line in lines if line.look == "head" and section.table.columns[0] in line.text
        )
        places = [head.index(name) for name in section.table.columns]
        drawn = [line.text for line in lines if line.look == "row"]
        for row in section.table.rows:
            assert any(
                all(text[place:].startswith(cell) for place, cell in zip(places, row.cells, strict=True))
                for text in drawn
            ), row.cells


@in_both
def test_no_unit_is_parted_from_its_number(one: Article) -> None:
    for width in (40, 60, 76):
        for above, below in pairwise(line.text for line in lay_out(one, width) if line.look == "text"):
            assert not UNIT.match(f"{above} {below.lstrip()}", len(above))


@by_page
def test_marks_lead_to_the_sources_under_them(one: Article) -> None:
    """Every number behind a claim is in the list below it, and the list holds no other."""
    seen: set[str] = set()
    for line in lay_out(in_units(one, Units.METRIC), 2000):
        numbers = {n for mark in re.findall(r"\[([\d,]+)\]", line.text) for n in mark.split(",")}
        if line.look == "source":
            assert numbers == seen
            seen = set()
        seen |= numbers if line.look in ("text", "row") else set()
    assert not seen


@by_page
def test_a_shipped_page_has_nothing_that_is_read_twice(one: Article) -> None:
    data = _data(f"pages/{one.page}.toml")
    assert len(set(data["words"])) == len(data["words"])
    assert len({section["heading"] for section in data["section"]}) == len(data["section"])
