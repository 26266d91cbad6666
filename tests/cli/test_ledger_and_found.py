"""The castings ledger and what was found on the command line, as text and as data."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Keeper


@pytest.fixture
def turned(separating: Keeper) -> Keeper:
    """Tray A separated on 1 July, one pass weighed and all of it settled."""
    separating.does("log", "pantry", "checked", "A", "--moisture", "70")
    separating.does("log", "pantry", "pass-done", "--worms", "many", "--skimmed", "150 g")
    separating.does("log", "pantry", "settled", "--castings", "160 g", "--worms-to", "tray B")
    separating.does("log", "pantry", "separation-ended")
    return separating


def test_the_ledger_tells_a_row_and_what_it_comes_to(turned: Keeper) -> None:
    text = turned.does("ledger", "pantry")
    assert "Ledger of Pantry" in text
    row = next(line for line in text.splitlines() if line.startswith("A "))
    assert row.split() == ["A", "1", "Jul", "2026", "122", "800", "g", "500", "g", "160", "g", "0.2"]
    assert "in all, 1 of 1 weighed" in text
    assert "Your yield, kg of castings: 0.2 for each kg of scraps" in text
    assert "Published: 40 to 60 %" in text
    assert "Castings are weighed wet." in " ".join(text.split())


def test_the_ledger_as_data(turned: Keeper) -> None:
    data = turned.asks("ledger", "pantry")
    (row,) = data["turns"]
    assert (row["tray"], row["castings_kg"], row["weighed"]) == ("A", 0.16, "settled")
    assert row["scraps_kg"] == {"cabbage": 0.5, "apple": 0.3}
    assert row["castings_per_kg_of_scraps"] == pytest.approx(0.2)
    assert row["water_share"] == pytest.approx({"low": 0.65, "mid": 0.7, "high": 0.75})
    assert (row["worms_to"], row["forecast_kg"], row["inputs_known"]) == ("tray B", None, True)
    assert row["ended_at"] == "2026-07-01T09:00:00+02:00"
    assert data["totals"]["castings_kg"] == 0.16
    assert data["totals"]["castings_per_kg_of_scraps"]["sd"] is None
    assert [year["year"] for year in data["years"]] == [2026]
    assert data["remarks"] == []


def test_what_is_not_weighed_is_null(separating: Keeper) -> None:
    separating.does("log", "pantry", "separation-ended")
    data = separating.asks("ledger", "pantry")
    (row,) = data["turns"]
    assert (row["castings_kg"], row["weighed"], row["solids_kept"], row["water_share"]) == (
        None,
        "not",
        None,
        None,
    )
    assert data["totals"]["castings_kg"] is None
    text = separating.does("ledger", "pantry")
    assert "not weighed" in text
    assert "in all, 0 of 1 weighed" in text
    assert "No yield yet" in text


def test_more_out_than_in_is_said_with_the_entry_to_look_at(separating: Keeper) -> None:
    separating.does("log", "pantry", "pass-done", "--worms", "many", "--skimmed", "16 kg")
    separating.does("log", "pantry", "separation-ended")
    text = " ".join(separating.does("ledger", "pantry").split())
    assert "! 16 kg" in text
    assert "! More came out of tray A than went in" in text
    assert "Look at the entries pass done of 2026-07-01 first" in text
    (remark,) = separating.asks("ledger", "pantry")["remarks"]
    assert (remark["code"], remark["tray"]) == ("more-than-went-in", "A")


def test_a_separation_under_way_is_named(separating: Keeper) -> None:
    separating.does("log", "pantry", "pass-done", "--worms", "few", "--skimmed", "1 kg")
    text = separating.does("ledger", "pantry")
    assert "No tray was separated and emptied yet." in text
    assert "Tray A is being separated: 1 kg so far, in no sum yet." in text
    (running,) = separating.asks("ledger", "pantry")["under_way"]
    assert (running["tray"], running["castings_kg"]) == ("A", 1.0)


def test_the_ledger_of_all_bins_adds_up(turned: Keeper) -> None:
    turned.does("new", "Shed")
    data = turned.asks("ledger")
    assert [one["bin"] for one in data["bins"]] == ["pantry", "shed"]
    assert (data["in_all"]["turns"], data["broken"]) == (1, [])
    text = turned.does("ledger")
    assert "all bins, 1 of 1 weighed" in text
    assert "Ledger of Shed" in text


def test_as_of_an_earlier_moment_the_turn_is_still_to_come(turned: Keeper) -> None:
    assert turned.asks("ledger", "pantry", "--at", "2026-06-30T10:00:00+02:00")["turns"] == []


def test_a_broken_bin_is_named(turned: Keeper) -> None:
    (turned.home / "shed.toml").write_text("format = 1\n", encoding="utf-8")
    for command in ("ledger", "found"):
        answer = turned.types(command)
        assert answer.status == 1
        assert "shed cannot be read" in answer.out
        assert turned.types(command, "--json").data["broken"] == ["shed"]
        assert turned.types(command, "shed").status == 1


def test_nothing_yet(keeper: Keeper) -> None:
    for command in ("ledger", "found"):
        assert "There are no bins here yet" in keeper.does(command)
        assert keeper.asks(command)["bins"] == []
    keeper.does("new", "Pantry")
    assert "No tray was separated and emptied yet." in keeper.does("ledger", "pantry")
    assert "Nothing was written down yet" in keeper.does("found", "pantry")
    assert keeper.asks("found", "pantry")["sources"] == []


@pytest.fixture
def littered(separating: Keeper) -> Keeper:
    """Stickers and tape, a source that was stopped, and pieces that go round."""
    log = ("log", "pantry")
    separating.does(*log, "contaminant-found", "sticker", "--count", "3", "--source", "banana", "--tray", "A")
    separating.does(*log, "contaminant-found", "tape", "--count", "2", "--source", "parcels")
    separating.does(*log, "source-stopped", "parcels")
    separating.does(*log, "overs-carried", "A", "avocado stone=2x4cm", "--to", "B")
    return separating


def test_found_tells_pieces_sources_and_what_to_do(littered: Keeper) -> None:
    text = " ".join(littered.does("found", "pantry").split())
    assert "2 x avocado stone, 4 cm, in tray B: carried on once" in text
    assert "Banana: 3 stickers within a year" in text
    assert "This source: still open." in text
    assert "stopped since today, nothing more found" in text
    assert "Stickers: peel them off before feeding." in text
    assert "(common practice, no source)" in text


def test_found_as_data(littered: Keeper) -> None:
    data = littered.asks("found", "pantry")
    (over,) = data["overs"]
    assert (over["what"], over["count"], over["size_cm"], over["turns"]) == ("avocado stone", 2, 4.0, 1)
    assert over["usual"]["source"]
    banana, parcels = data["sources"]
    assert (banana["source"], banana["state"], banana["year"]) == ("banana", "open", {"sticker": 3})
    assert (parcels["state"], parcels["stopped_at"]) == ("stopped", "2026-07-01T09:00:00+02:00")
    assert [kind["kind"] for kind in data["kinds"]] == ["sticker", "tape"]
    assert (data["overs_gone"], data["went"], data["noted"]) == ([], [], [])


def test_feeding_and_logging_say_what_came_in_before(littered: Keeper) -> None:
    came = "3 stickers came in with banana: peel them off before feeding."
    meal = " ".join(littered.does("feed", "pantry", "C", "banana peel=300 g").split())
    assert came in meal
    (warning,) = [
        one
        for one in littered.asks("feed", "pantry", "C", "banana peel=300 g")["warnings"]
        if one["code"] == "source:banana"
    ]
    assert warning["page"] == "found"
    assert f"Mind: {came}" in " ".join(littered.does("log", "pantry", "fed", "C", "banana=300 g").split())
    assert "Mind:" not in littered.does("log", "pantry", "fed", "C", "lettuce=300 g")
    littered.does("log", "pantry", "source-stopped", "banana")
    assert came not in " ".join(littered.does("feed", "pantry", "C", "banana peel=300 g").split())


def test_a_fresh_tray_and_supplies_say_it_too(littered: Keeper) -> None:
    littered.does("log", "pantry", "separation-ended")
    littered.does("log", "pantry", "contaminant-found", "staple", "--source", "cardboard boxes")
    said = "1 staple came in with cardboard boxes: pull them out before shredding."
    started = littered.does("log", "pantry", "started", "A", "--bedding", "cardboard=500 g")
    assert f"Mind: {said}" in " ".join(started.split())
    fetched = littered.does("log", "pantry", "supplies-added", "cardboard=2 kg")
    assert f"Mind: {said}" in " ".join(fetched.split())
    assert said in " ".join(littered.does("supplies", "pantry").split())
