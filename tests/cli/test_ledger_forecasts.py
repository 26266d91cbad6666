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
    without = keeper.asks("ledger", "stairwell")["turns"]
    assert {turn["forecast_kg"] for turn in without} == {None}
