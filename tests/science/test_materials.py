"""The table of ingredients against USDA's open data, and the words it is found by."""

from __future__ import annotations

import csv
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.science.errors import OutOfRange
from trayturn.science.finding import stems
from trayturn.science.materials import MOST_CARBON, Material, NotKnown, load_materials, read_row

TABLE = load_materials()
SR28 = {
    row["ndb"]: row
    for row in csv.DictReader(
        (Path(__file__).parents[1] / "data" / "sr28_extract.csv").read_text(encoding="utf-8").splitlines()
    )
}
FOODS = [row for row in TABLE.rows if row.source.startswith("USDA SR28")]
NAMES = [(row, name) for row in TABLE.rows for name in (row.name, *row.aliases)]


def test_the_table_is_large_enough_and_every_row_says_what_it_rests_on() -> None:
    assert len(TABLE.rows) >= 100
    assert len({row.id for row in TABLE.rows}) == len(TABLE.rows)
    assert len(FOODS) >= 80
    assert all(row.source and row.sure for row in TABLE.rows)
    assert all(row.reason for row in TABLE.rows if row.guidance == "avoid")
    assert all((row.c or 0) <= MOST_CARBON for row in TABLE.rows)


@pytest.mark.parametrize("row", FOODS, ids=lambda row: row.id)
def test_moisture_and_nitrogen_are_usdas(row: Material) -> None:
    """USDA SR28, 2015: water, and protein by the food's own factor over its solids; salt is Na x 2.542."""
    open_data = SR28[row.source.split()[-1]]
    water, protein, factor = (float(open_data[key]) for key in ("water_g", "protein_g", "n_factor"))
    assert row.moisture is not None
    assert 100 * row.moisture == pytest.approx(water, abs=0.2)
    nitrogen = protein / factor / (100 - water)
    assert row.n == pytest.approx(nitrogen, rel=0.05, abs=2e-4)
    assert row.salt == pytest.approx(float(open_data["sodium_mg"] or 0) * 2.542e-5, abs=2e-5)


def test_carbon_is_derived_from_usdas_ash() -> None:
    """Richard 1996, after Adams et al. 1951: C is (100 - ash) / 1.8 percent of dry solids."""
    for row in FOODS:
        open_data = SR28[row.source.split()[-1]]
        ash = float(open_data["ash_g"]) / (100 - float(open_data["water_g"]))
        assert row.c == pytest.approx((1 - ash) / 1.8, abs=0.002), row.name


@pytest.mark.parametrize(("row", "name"), NAMES)
def test_every_name_and_alias_finds_its_row(row: Material, name: str) -> None:
    assert TABLE.find(name) is row
    assert TABLE.find(f"  {name.upper()} ") is row


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("banana peels", "banana peel"),
        ("peel of the banana", "banana peel"),
        ("coffe grounds", "coffee grounds"),
        ("Egg Shells", "egg shell"),
        ("tomatoes", "tomato"),
        ("strawberries", "strawberry"),
        ("newspapers", "shredded newspaper"),
        ("cabbage", "cabbage"),
        ("leaves", "dry leaves"),
        ("shredded card board", "shredded cardboard"),
    ],
)
def test_plurals_order_and_slips_do_not_matter(words: str, found: str) -> None:
    assert TABLE.find(words).name == found


def test_what_is_not_there_names_the_nearest() -> None:
    with pytest.raises(NotKnown, match=r"'brocoly soup' is not in the table .* nearest are"):
        TABLE.find("brocoly soup")
    with pytest.raises(NotKnown, match="not in the table"):
        TABLE.find("   ")


@given(st.sampled_from(NAMES), st.randoms(use_true_random=False))
def test_the_order_of_the_words_does_not_matter(named: tuple[Material, str], random: object) -> None:
    row, name = named
    words = name.split()
    random.shuffle(words)  # type: ignore[attr-defined]
    assert stems(TABLE.find(" ".join(words)).name) == stems(row.name) or sorted(stems(name)) in [
        sorted(stems(other))
        for other in (TABLE.find(" ".join(words)).name, *TABLE.find(" ".join(words)).aliases)
    ]


@given(st.text(max_size=40))
def test_any_words_find_a_row_or_say_so(words: str) -> None:
    try:
        found: object = TABLE.find(words)
    except NotKnown as told:
        found = str(told)
    assert found in TABLE.rows or str(found).endswith(".")


def test_search_holds_all_the_words() -> None:
    assert {"orange peel", "lemon peel", "banana peel"} <= {row.name for row in TABLE.search("peel")}
    assert TABLE.search("") == list(TABLE.rows)
    assert TABLE.search("zzzz") == []


def test_a_keepers_own_row_stands_in_for_the_shipped_one() -> None:
    own = replace(TABLE.find("cabbage"), id="own-1", moisture=0.5, sure="own", source="your own")
    assert TABLE.with_own([own]).find("cabbage").moisture == 0.5
    assert len(TABLE.with_own([own]).rows) == len(TABLE.rows)


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("c_pct", "106"),
        ("c_pct", "61"),
        ("n_pct", "-1"),
        ("moisture_pct", "nan"),
        ("breakdown", "brisk"),
        ("sure", ""),
    ],
)
def test_impossible_rows_are_refused(column: str, value: str) -> None:
    text = dict.fromkeys(
        ("moisture_pct", "n_pct", "c_pct", "density_kg_m3", "salt_pct", "breakdown", "aliases"), ""
    )
    row = {
        "id": "x",
        "name": "x",
        "group": "x",
        "role": "food",
        "guidance": "ok",
        "reason": "",
        "source": "s",
    }
    with pytest.raises(OutOfRange):
        read_row({**text, **row, "sure": "own", column: value})
