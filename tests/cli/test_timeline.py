"""`timeline`: the order of work for all separations under way."""

from __future__ import annotations

import itertools

from tests.cli.conftest import Keeper


def two_under_way(keeper: Keeper) -> Keeper:
    for name in ("Attic", "Cellar"):
        keeper.does("new", name, "--trays", "2")
        keeper.does("log", name.lower(), "started", "A", "--stage", "feeding")
        keeper.does("log", name.lower(), "separation-begun", "A")
    return keeper


def test_the_order_of_work_in_words(keeper: Keeper) -> None:
    told = two_under_way(keeper).does("timeline")
    assert told.startswith("Now get ready for tray A in Attic.")
    assert "All done between" in told
    assert "loosen tray A in Cellar, then it rests until" in told


def test_the_order_of_work_as_data(keeper: Keeper) -> None:
    data = two_under_way(keeper).asks("timeline")
    assert {row["bin"] for row in data["work"]} == {"attic", "cellar"}
    ends = [(row["starts"], row["ends"]) for row in data["work"]]
    assert all(before[1] <= after[0] for before, after in itertools.pairwise(ends))
    assert data["done_at"]["low"] <= data["done_at"]["mid"] <= data["done_at"]["high"]
    assert [row["bin"] for row in keeper.asks("timeline", "attic")["work"]] == ["attic"] * len(
        keeper.asks("timeline", "attic")["work"]
    )


def test_nothing_under_way_is_said(keeper: Keeper) -> None:
    keeper.does("new", "Attic")
    assert "Nothing is being separated" in keeper.does("timeline")
    assert keeper.asks("timeline")["work"] == []
