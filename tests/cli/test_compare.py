"""`compare`: one row a combination."""

from __future__ import annotations

from tests.cli.conftest import Keeper

QUICK = ("--draws", "20")


def test_one_row_a_combination(pantry: Keeper) -> None:
    data = pantry.asks("compare", "pantry", "--trays", "3,4", "--every", "45,60", *QUICK)
    assert [(row["trays"], row["every_days"]) for row in data["rows"]] == [(3, 45), (3, 60), (4, 45), (4, 60)]
    assert sum(row["now"] for row in data["rows"]) == 1
    assert {one["aim"] for one in data["best"]} == {
        "most castings",
        "least work",
        "most worms",
        "all my scraps",
    }
    again = pantry.asks("compare", "pantry", "--trays", "3,4", "--every", "45,60", *QUICK)
    assert again == data
    told = pantry.does("compare", "pantry", "--trays", "4", "--every", "60", "--scraps", "1kg,2kg", *QUICK)
    assert "4 trays, every 60 days, 1 kg of scraps a week." in told
    assert "Most castings:" in told


def test_slips_are_said(pantry: Keeper) -> None:
    assert "--trays takes numbers" in pantry.types("compare", "pantry", "--trays", "99").err
    assert "--every" in pantry.types("compare", "pantry", "--every", "soon").err
    assert "--draws" in pantry.types("compare", "pantry", "--draws", "3").err
    many = pantry.types(
        "compare", "pantry", "--trays", "1,2,3,4,5,6,7,8", "--every", "10,20,30,40,50,60,70,80"
    )
    assert "too many" in many.err
