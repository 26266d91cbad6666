"""The commands that only read: the keys and types that scripts rely on, and what is told of a broken file."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import pytest

from tests.cli.conftest import Keeper
from trayturn.advice.cautions import WORKS

STACK_KEYS = [
    "bin",
    "name",
    "path",
    "as_of",
    "pattern",
    "trays",
    "off_stack",
    "sump",
    "temperature_c",
    "worms_kg",
    "supplies_kg",
    "feed_next",
    "next_turn",
    "last_turn_at",
    "separations",
    "findings",
]
TRAY_KEYS = [
    "id",
    "level",
    "stage",
    "started_at",
    "stage_since",
    "days_on_stack",
    "days_in_stage",
    "feedings",
    "fed_kg",
    "scraps_kg",
    "bedding_kg",
    "grit_kg",
    "water_kg",
    "last_fed_at",
    "moisture",
    "empty_kg",
    "gross_kg",
    "weighed_at",
]
DUE_KEYS = ["bin", "name", "kind", "due", "late", "what", "why", "tray", "page"]


def break_it(keeper: Keeper, key: str = "pantry") -> None:
    """A slip of the keeper's own hand in a file."""
    path = keeper.home / f"{key}.toml"
    path.write_text(
        path.read_text(encoding="utf-8").replace('kind = "fed"', 'kind = "fedd"'), encoding="utf-8"
    )


def test_stack_gives_its_keys_in_a_steady_order(pantry: Keeper) -> None:
    data = pantry.asks("stack", "pantry")
    assert list(data) == STACK_KEYS
    assert list(data["trays"][0]) == TRAY_KEYS
    assert list(data["sump"]) == ["volume_l", "capacity_l", "checked_at"]
    assert list(data["feed_next"]) == ["tray", "due", "ready", "what", "why"]
    assert list(data["next_turn"]) == ["due", "ready", "what", "why", "moves"]
    assert list(data["next_turn"]["moves"][0]) == ["tray", "from_level", "to_level", "from_stage", "to_stage"]


def test_stack_counts_levels_from_the_bottom_and_days_as_numbers(pantry: Keeper) -> None:
    trays = pantry.asks("stack", "pantry")["trays"]
    assert [(tray["id"], tray["level"], tray["stage"]) for tray in trays] == [
        ("C", 1, "bedding"),
        ("B", 2, "bedding"),
        ("A", 3, "feeding"),
    ]
    assert trays[2]["days_on_stack"] == pytest.approx(2 + 8.5 / 24, abs=1e-3)
    assert (trays[2]["feedings"], trays[2]["fed_kg"], trays[2]["grit_kg"]) == (1, 0.8, 0.02)
    assert trays[2]["scraps_kg"] == {"cabbage": 0.5, "apple": 0.3}


def test_stack_tells_what_to_feed_and_when_to_turn(pantry: Keeper) -> None:
    data = pantry.asks("stack", "pantry")
    assert data["feed_next"]["tray"] == "A"
    assert datetime.fromisoformat(data["feed_next"]["due"]) == datetime.fromisoformat(
        "2026-03-15T18:30:00+01:00"
    )
    assert datetime.fromisoformat(data["next_turn"]["due"]).tzinfo is not None
    assert {move["tray"] for move in data["next_turn"]["moves"]} == {"A", "B", "C"}


def test_stack_shows_readings(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "checked", "B", "--feel", "damp", "--weight", "6kg", "--sump", "0.5l")
    data = pantry.asks("stack", "pantry")
    assert data["trays"][1]["moisture"] == {
        "moisture_pct": None,
        "feel": "damp",
        "at": "2026-03-03T18:30:00+01:00",
    }
    assert data["trays"][1]["gross_kg"] == 6.0
    assert data["sump"] == {"volume_l": 0.5, "capacity_l": 5.0, "checked_at": "2026-03-03T18:30:00+01:00"}


def test_at_asks_as_of_a_moment(pantry: Keeper) -> None:
    data = pantry.asks("stack", "pantry", "--at", "2026-03-02T10:00:00+01:00")
    assert data["as_of"] == "2026-03-02T10:00:00+01:00"
    assert data["trays"][2]["feedings"] == 0
    assert data["trays"][2]["days_on_stack"] == 1.0
    before = pantry.asks("stack", "pantry", "--at", "2026-02-01T10:00:00Z")
    assert before["trays"] == []


def test_a_finding_gives_status_one(pantry: Keeper) -> None:
    path = pantry.home / "pantry.toml"
    twice = '\n[[journal]]\nat = 2026-03-02T10:00:00+01:00\nkind = "tray_started"\ntray = "A"\n'
    path.write_text(path.read_text(encoding="utf-8") + twice, encoding="utf-8")
    answer = pantry.types("stack", "pantry", "--json")
    assert answer.status == 1
    assert answer.data["findings"][0]["severity"] == "error"
    assert pantry.types("stack", "pantry").status == 1
    assert pantry.types("today").status == 1


def test_today_lists_what_is_due(pantry: Keeper) -> None:
    pantry.it_is("2026-03-20T10:00:00+01:00")
    data = pantry.asks("today")
    assert list(data) == ["as_of", "due", "broken"]
    assert all(list(item) == DUE_KEYS for item in data["due"])
    feed = next(item for item in data["due"] if item["kind"] == "feed")
    assert (feed["bin"], feed["name"], feed["tray"], feed["late"]) == ("pantry", "Pantry", "A", True)
    assert feed["why"]


def test_today_puts_the_pressing_bin_first(separating: Keeper) -> None:
    separating.does("new", "Attic", "--trays", "1")
    separating.does("log", "attic", "started", "A", "--stage", "feeding")
    separating.does("log", "attic", "fed", "A", "tea=100 g")
    assert separating.asks("today")["due"][0]["bin"] == "pantry"
    assert separating.does("today").index("Pantry") < separating.does("today").index("Attic")


def test_bins_gives_the_next_thing_in_each(pantry: Keeper) -> None:
    (one,) = pantry.asks("bins")["bins"]
    assert list(one) == ["bin", "name", "path", "trays", "next", "problems", "findings"]
    assert (one["bin"], one["name"], one["trays"]) == ("pantry", "Pantry", 3)
    assert list(one["next"]) == DUE_KEYS


@pytest.mark.parametrize("command", ["bins", "today"])
def test_without_a_bin_the_way_to_one_is_told(keeper: Keeper, command: str) -> None:
    assert "trayturn new NAME" in keeper.does(command)


@pytest.mark.parametrize("command", ["bins", "today"])
def test_a_broken_profile_hides_no_other(pantry: Keeper, command: str) -> None:
    pantry.does("new", "Attic")
    break_it(pantry)
    answer = pantry.types(command)
    assert (answer.status, answer.err) == (1, "")
    assert "Attic" in answer.out
    assert "pantry" in answer.out
    assert "did you mean fed?" in " ".join(answer.out.split())


def test_a_broken_profile_is_data_too(pantry: Keeper) -> None:
    break_it(pantry)
    answer = pantry.types("today", "--json")
    assert answer.status == 1
    (broken,) = answer.data["broken"]
    assert broken["bin"] == "pantry"
    assert list(broken["problems"][0]) == ["message", "key", "line", "file"]
    assert pantry.types("bins", "--json").data["bins"][0]["next"] is None


@pytest.mark.parametrize("command", ["stack", "journal", "separation"])
def test_a_broken_profile_is_told_with_every_problem(pantry: Keeper, command: str) -> None:
    break_it(pantry)
    answer = pantry.types(command, "pantry")
    assert (answer.status, answer.out) == (1, "")
    assert "did you mean fed?" in answer.err


def test_separation_tells_the_step_and_its_time(separating: Keeper) -> None:
    (running,) = separating.asks("separation", "pantry")["separations"]
    assert (running["tray"], running["came_from_level"], running["passes"]) == ("A", 2, [])
    assert running["step"] == {
        "step": "get_ready",
        "pass_number": None,
        "started_at": "2026-07-01T09:00:00+02:00",
        "ends_at": None,
        "seconds_left": None,
    }


def test_separation_tells_how_the_last_one_ended(separating: Keeper) -> None:
    assert "tray A: separation begun today" in separating.does("separation", "pantry")
    separating.does("log", "pantry", "pass-done", "--worms", "many", "--skimmed", "2 kg")
    assert "Many worms came off" in separating.does("separation", "pantry")
    separating.does("log", "pantry", "separation-ended")
    told = separating.does("separation", "pantry")
    assert "No separation is under way in Pantry." in told
    assert "Tray A was separated in 1 pass" in told


def test_no_separation_yet(pantry: Keeper) -> None:
    assert pantry.does("separation", "pantry") == "No separation is under way in Pantry.\n"


def kinds(data: Any) -> list[str]:
    return [entry["kind"] for entry in data["entries"]]


def test_journal_is_newest_first_with_the_place_in_the_file(pantry: Keeper) -> None:
    entries = pantry.asks("journal", "pantry")["entries"]
    assert [entry["entry"] for entry in entries] == [4, 3, 2, 1]
    assert list(entries[0])[:4] == ["entry", "kind", "at", "note"]
    assert entries[0]["items_kg"] == {"cabbage": 0.5, "apple": 0.3}


def test_journal_by_tray_and_kind_and_number(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "turned", "C", "A", "B")
    assert kinds(pantry.asks("journal", "pantry", "--tray", "a")) == ["turned", "fed", "tray_started"]
    assert kinds(pantry.asks("journal", "pantry", "--kind", "tray-started")) == ["tray_started"] * 3
    assert kinds(pantry.asks("journal", "pantry", "--kind", "started", "--last", "1")) == ["tray_started"]
    assert (
        kinds(pantry.asks("journal", "pantry", "--at", "2026-03-02T10:00:00+01:00")) == ["tray_started"] * 3
    )


def test_journal_leaves_out_what_was_undone(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "undo")
    assert kinds(pantry.asks("journal", "pantry")) == ["tray_started"] * 3


def test_cautions_have_reason_and_source(keeper: Keeper) -> None:
    every = keeper.asks("cautions")["cautions"]
    assert all(list(caution) == ["code", "title", "to_do", "why", "source"] for caution in every)
    some = keeper.asks("cautions", "--work", "giving-away")["cautions"]
    assert 0 < len(some) < len(every)
    assert every[0]["title"] in keeper.does("cautions")


@pytest.mark.parametrize("work", WORKS)
def test_cautions_for_each_work(keeper: Keeper, work: str) -> None:
    assert keeper.asks("cautions", "--work", work)["work"] == work


def test_verify_a_sound_profile(pantry: Keeper) -> None:
    path = str(pantry.home / "pantry.toml")
    (one,) = pantry.asks("verify", path)["files"]
    assert one == {"file": path, "sound": True, "entries": 4, "problems": [], "findings": []}
    assert pantry.does("verify", "pantry") == f"sound, 4 entries: {path}\n"


def test_verify_goes_on_past_a_broken_file(pantry: Keeper) -> None:
    pantry.does("new", "Attic")
    break_it(pantry)
    answer = pantry.types("verify", "pantry", "attic")
    assert answer.status == 1
    assert "not sound" in answer.out
    assert "sound, 0 entries" in answer.out


def test_verify_takes_a_file_of_any_name(keeper: Keeper) -> None:
    path = keeper.clock_file.with_name("notes.txt")
    path.write_text("not = a [profile", encoding="utf-8")
    answer = keeper.types("verify", str(path), "--json")
    assert answer.status == 1
    assert answer.data["files"][0]["problems"][0]["line"] == 1


def test_verify_reads_on_past_now(pantry: Keeper) -> None:
    pantry.it_is("2026-03-01T09:00:00+01:00")
    answer = pantry.types("verify", "pantry")
    assert answer.status == 0
    assert "warning: entry 4 (fed A, 2026-03-03 18:30): 4 entries are dated ahead of the" in answer.out


@pytest.mark.parametrize("words", ["stack pantry", "today", "bins"])
def test_entries_ahead_of_the_clock_are_told_and_are_no_error(pantry: Keeper, words: str) -> None:
    assert "ahead of the clock" not in " ".join(pantry.does(*words.split()).split())
    pantry.it_is("2026-03-02T09:00:00+01:00")
    told = " ".join(pantry.does(*words.split()).split())
    assert "1 entry is dated ahead of the clock (2026-03-02 09:00)." in told
    assert "entry 4 (fed A, 2026-03-03 18:30)" in told
    pantry.does("log", "pantry", "undo")
    assert "ahead of the clock" not in " ".join(pantry.does(*words.split()).split())


def test_a_moment_asked_about_needs_no_clock(pantry: Keeper) -> None:
    pantry.it_is("2026-03-02T09:00:00+01:00")
    assert pantry.asks("stack", "pantry", "--at", "2026-03-04T10:00:00+01:00")["findings"] == []
