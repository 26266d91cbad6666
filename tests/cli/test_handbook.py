"""The handbook at the command line: its list, a page, what is found, and the data."""

from __future__ import annotations

import subprocess
import sys

import pytest

from tests.cli.conftest import Keeper
from trayturn.advice.due.item import KINDS, PAGES
from trayturn.advice.handbook import article, articles
from trayturn.advice.handbook.model import Sure
from trayturn.advice.pages import Page

KEYS = ["id", "title", "summary", "words", "sections", "tables", "sources", "see"]


def test_without_words_every_page_is_listed(keeper: Keeper) -> None:
    told = keeper.does("handbook")
    assert [line.split()[0] for line in told.splitlines() if line and line[0].islower()] == list(Page)
    assert "trayturn handbook troubles" in told
    assert max(map(len, told.splitlines())) <= 80


@pytest.mark.parametrize("page", Page)
def test_a_page_is_printed_by_its_name_or_title(keeper: Keeper, page: Page) -> None:
    told = keeper.does("handbook", page)
    assert told.splitlines()[0] == article(page).title
    assert told == keeper.does("handbook", *article(page).title.split())
    assert max(map(len, told.splitlines())) <= 80
    assert told.rstrip().endswith(article(page).see[-1])
    assert "{" not in told


def test_words_find_pages_the_best_first(keeper: Keeper) -> None:
    told = keeper.does("handbook", "flies")
    assert told.startswith("pests ")
    assert "Read one with: trayturn handbook pests" in told
    assert "lifting" not in told


def test_one_page_found_is_printed(keeper: Keeper) -> None:
    assert keeper.does("handbook", "white", "mites").startswith("Small life and pests\n")
    assert keeper.does("handbook", "temprature").startswith("Temperature\n")


def test_words_on_no_page_are_refused_in_a_sentence(keeper: Keeper) -> None:
    answer = keeper.types("handbook", "zzzzqq")
    assert (answer.status, answer.out) == (2, "")
    assert answer.err == (
        "trayturn: No page of the handbook holds 'zzzzqq'. See them all with: trayturn handbook\n"
    )


def test_the_units_are_the_keepers(keeper: Keeper) -> None:
    assert "15 to 20 °C" in keeper.does("handbook", "temperature")
    assert "59 to 68 °F" in keeper.does("handbook", "temperature", "--us")
    assert "°C" not in keeper.does("handbook", "temperature", "--us")


def test_plain_signs_keep_the_columns(keeper: Keeper) -> None:
    for page in Page:
        assert keeper.does("handbook", page, "--ascii").isascii()
    told = keeper.does("handbook", "temperature", "--ascii").splitlines()
    rows = [line for line in told if "Eisenia fetida  " in line]
    assert len({line.index("[") for line in rows}) == 1
    assert "15 to 20 C  [1]" in rows[0]


def test_the_data_have_every_section_table_and_source(keeper: Keeper) -> None:
    (page,) = keeper.asks("handbook", "moisture")["pages"]
    assert list(page) == KEYS
    assert (page["id"], page["title"]) == ("moisture", "Moisture")
    table = page["tables"][0]
    assert table["columns"] == ["for", "water"]
    assert table["rows"][1] == {"cells": ["limits, Eisenia fetida", "60 to 90 %"], "sources": ["edwards"]}
    sources = {source["id"]: source for source in page["sources"]}
    assert sources["edwards"]["how_sure"] == Sure.TABLE
    assert sources["practice"] == {"id": "practice", "cite": None, "how_sure": Sure.PRACTICE}
    assert page["sections"][1]["sentences"][1]["sources"] == ["practice"]
    assert page["see"] == list(article(Page.MOISTURE).see)


def test_the_data_of_all_pages_hold_together(keeper: Keeper) -> None:
    pages = keeper.asks("handbook")["pages"]
    assert [page["id"] for page in pages] == list(Page)
    for page, one in zip(pages, articles(), strict=True):
        known = {source["id"] for source in page["sources"]}
        named = {i for section in page["sections"] for said in section["sentences"] for i in said["sources"]}
        named |= {i for table in page["tables"] for row in table["rows"] for i in row["sources"]}
        assert named == known
        assert all(len(r["cells"]) == len(t["columns"]) for t in page["tables"] for r in t["rows"])
        assert len(page["sections"]) == len(one.sections)
    assert len(keeper.asks("handbook", "flies")["pages"]) == 4


def test_what_is_due_names_its_page(pantry: Keeper) -> None:
    due = pantry.asks("today")["due"]
    assert due
    assert all(item["page"] == PAGES[item["kind"]] for item in due)
    assert {item["kind"] for item in due} <= set(KINDS)


def test_no_large_library_is_loaded_and_help_reads_no_page() -> None:
    watched = "[m for m in ('textual', 'numpy', 'scipy', 'rich') if m in sys.modules]"
    for words, more in ((["handbook", "salt"], watched), (["--help"], "'trayturn.advice' in sys.modules")):
        run = f"from trayturn.cli.main import main; main({words!r})"
        code = f"import sys; {run}; print({more}, file=sys.stderr)"
        done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
        assert done.stderr.strip() in ("[]", "False")
