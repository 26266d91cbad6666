"""`ledger --forecasts`: what had been forecast, beside what came."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Keeper
from tests.tui.stories import samples


def test_past_forecasts_stand_beside_what_came(keeper: Keeper, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("trayturn.advice.outlook.score.DRAWS", 20)
    monkeypatch.setattr("trayturn.advice.outlook.score.MOST", 2)
    samples(keeper.home, "stairwell")
    keeper.it_is("2026-11-21T10:05:00+01:00")
    turns = keeper.asks("ledger", "stairwell", "--forecasts")["turns"]
    told = [turn["forecast_kg"] for turn in turns if turn["forecast_kg"] is not None]
    assert len(told) == 2
    assert all(band["low"] <= band["mid"] <= band["high"] for band in told)
    text = keeper.does("ledger", "stairwell", "--forecasts")
    assert max(map(len, text.splitlines())) < 80
    heading, newest = text.splitlines()[1:3]
    assert heading.split() == ["tray", "separated", "scraps", "castings", "forecast", "held", "yield"]
    band = told[0]
    held = "yes" if band["low"] <= turns[0]["castings_kg"] <= band["high"] else "no"
    assert newest.split()[-2:] == [held, "0.65"]
    assert f"{band['low']:.2g} kg to " in newest
    assert "The outlook had led to expect" in text
    without = keeper.asks("ledger", "stairwell")["turns"]
    assert {turn["forecast_kg"] for turn in without} == {None}
    assert "forecast" not in keeper.does("ledger", "stairwell")


def test_where_no_forecast_can_be_made_it_says_so(keeper: Keeper) -> None:
    keeper.does("new", "Pantry")
    assert "No forecast could be made again" in keeper.does("ledger", "pantry", "--forecasts")
