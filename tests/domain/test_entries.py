"""Journal entries: every kind is read from plain data, told by its kind, and never changes."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest
from pydantic import ValidationError

from tests.builders import entry, fed, moment, noted, started
from trayturn.domain.entries import ENTRY_TYPES, JOURNAL, Amount, Feel, Outcome, Stage, Step, name_entry

LEAST: dict[str, dict[str, Any]] = {
    "tray_started": {"tray": "A"},
    "fed": {"tray": "A", "grit_kg": 0.01},
    "checked": {},
    "turned": {"order": ["A", "B"], "stages": {"A": "finishing"}},
    "separation_begun": {"tray": "A"},
    "step_started": {"tray": "A", "step": "rest", "pass_number": 1, "ends_at": moment(1)},
    "step_ended": {"tray": "A", "step": "rest"},
    "deadline_moved": {"tray": "A", "ends_at": moment(1)},
    "pass_done": {"tray": "A", "pass_number": 1, "worms_seen": "few"},
    "settled": {"tray": "A"},
    "separation_ended": {"tray": "A"},
    "worms_added": {"worms_kg": 0.5},
    "worms_removed": {"worms_kg": 0.5},
    "supplies_added": {"supplies_kg": {"grit": 1}},
    "supplies_used": {"supplies_kg": {"grit": 1}},
    "supplies_counted": {"supplies_kg": {"grit": 0}},
    "follow_up_set": {"code": "too-wet", "what": "Look at tray B", "due": moment(7), "signs": ["drips"]},
    "snoozed": {"item": "feed:B", "until": moment(3)},
    "done": {"item": "check"},
    "measure_set": {"measure": "handful", "kg": 0.06},
    "meal_kept": {"name": "Sunday", "grit_kg": 0.01},
    "meal_dropped": {"name": "Sunday"},
    "put_off": {},
    "turn_day_begun": {"order": ["A", "B"], "stages": {"A": "finishing"}, "separating": ["B"]},
    "day_step_done": {"step": "look"},
    "turn_day_ended": {},
    "overs_carried": {"tray": "A", "to": "B", "pieces": [{"what": "avocado stone"}]},
    "contaminant_found": {"what": "tape"},
    "source_stopped": {"source": "parcels"},
    "lot_begun": {"lot": "C1"},
    "lot_moved": {"lot": "C1", "stage": "drying"},
    "lure_set": {"lot": "C1"},
    "hatchlings_recovered": {"lot": "C1", "counted": 0},
    "sieved": {"lot": "C1", "mesh_mm": 6, "passed_kg": 0},
    "packed": {"lot": "C1", "label": "tall jar", "kg": 1},
    "castings_used": {"lot": "C1"},
    "castings_given": {"lot": "C1"},
    "lot_closed": {"lot": "C1"},
    "cautions_read": {"work": "grit", "codes": ["grit-dust"]},
    "note": {"text": "first frost"},
    "undone": {"entry_at": moment(0), "entry_kind": "note"},
}


def test_the_list_here_has_every_kind() -> None:
    assert LEAST.keys() == ENTRY_TYPES.keys()


@pytest.mark.parametrize("kind", LEAST)
def test_every_kind_is_read_by_its_kind(kind: str) -> None:
    (read,) = JOURNAL.validate_python([{"kind": kind, "at": moment(0), **LEAST[kind]}])
    assert type(read) is ENTRY_TYPES[kind]
    assert (read.kind, read.at, read.note) == (kind, moment(0), "")


@pytest.mark.parametrize("kind", LEAST)
def test_every_kind_survives_being_written_and_read(kind: str) -> None:
    written = entry(kind, 0, **LEAST[kind], note="[/ {'a'} \U0001fab1 \u202e" + "x" * 10_000)
    (read,) = JOURNAL.validate_python([written.model_dump()])
    assert read == written


@pytest.mark.parametrize("kind", LEAST)
def test_no_entry_can_be_changed_or_carry_an_unknown_key(kind: str) -> None:
    with pytest.raises(ValidationError, match="frozen"):
        entry(kind, 0, **LEAST[kind]).at = moment(1)
    with pytest.raises(ValidationError, match="Extra inputs"):
        entry(kind, 0, **LEAST[kind], tary="B")


@pytest.mark.parametrize("kind", LEAST)
def test_every_kind_is_named_by_words_tray_and_moment(kind: str) -> None:
    tray = " A" if "tray" in LEAST[kind] else ""
    title = ENTRY_TYPES[kind].title
    assert name_entry(entry(kind, 0, **LEAST[kind])) == f"{title}{tray}, 2026-03-01 10:00"


def test_kinds_have_names_of_their_own_in_plain_words() -> None:
    """Those of the file that a keeper never says are called otherwise: no lure, no overs, no day step."""
    titles = {kind: model.title for kind, model in ENTRY_TYPES.items()}
    assert len(set(titles.values())) == len(titles)
    assert all(title and len(title) <= 24 and title.replace("-", " ").islower() for title in titles.values())
    words = {word for title in titles.values() for word in title.split()}
    assert words.isdisjoint({"lure", "overs", "snoozed"})
    assert (titles["lure_set"], titles["lot_moved"]) == ("bait laid", "lot gone on")
    assert titles["day_step_done"] == "step of the turn day"


def test_words_of_the_file_become_members() -> None:
    assert entry("checked", 0, feel="moist", strays="many").feel is Feel.MOIST
    assert entry("turned", 0, order=["A"], stages={"A": "bedding"}).stages == {"A": Stage.BEDDING}
    assert entry("pass_done", 0, tray="A", pass_number=1, worms_seen="none").worms_seen is Amount.NONE
    assert entry("step_ended", 0, tray="A", step="skim").step is Step.SKIM
    assert entry("separation_ended", 0, tray="A").outcome is Outcome.FINISHED


@pytest.mark.parametrize(
    ("kind", "fields"),
    [
        ("tray_started", {"tray": "A", "level": 0}),
        ("tray_started", {"tray": "A", "stage": "finishing"}),
        ("tray_started", {"tray": ""}),
        ("tray_started", {"tray": "A B"}),
        ("tray_started", {"tray": "-A"}),
        ("tray_started", {"tray": "A\n"}),
        ("tray_started", {"tray": "A" * 13}),
        ("fed", {"tray": "A"}),
        ("fed", {"tray": "A", "grit_kg": 0}),
        ("fed", {"tray": "A", "items_kg": {"cabbage": float("nan")}}),
        ("fed", {"tray": "A", "items_kg": {"cabbage": float("inf")}}),
        ("fed", {"tray": "A", "items_kg": {"cabbage": True}}),
        ("checked", {"ph": 15}),
        ("checked", {"moisture_pct": -1}),
        ("checked", {"temperature_c": 200}),
        ("turned", {"order": []}),
        ("pass_done", {"tray": "A", "pass_number": 0, "worms_seen": "few"}),
        ("worms_added", {"worms_kg": 0}),
        ("supplies_added", {"supplies_kg": {}}),
        ("note", {"text": ""}),
        ("note", {"text": "x" * 20_001}),
        ("note", {"text": "x", "note": "x" * 20_001}),
    ],
)
def test_what_no_keeper_can_mean_is_refused(kind: str, fields: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        entry(kind, 0, **fields)


@pytest.mark.parametrize("at", [datetime(2026, 3, 1), datetime(206, 3, 1, tzinfo=UTC), datetime.max])
def test_a_moment_needs_its_offset_and_a_likely_year(at: datetime) -> None:
    with pytest.raises(ValidationError):
        noted("x", at)


def test_trays_may_be_named_in_any_script() -> None:
    assert [started(name).tray for name in ("A", "Ä-1", "2", "底", "b_2")] == ["A", "Ä-1", "2", "底", "b_2"]


def test_a_feeding_may_be_grit_or_bedding_alone() -> None:
    assert fed("A", 0, {}, grit_kg=0.01).items_kg == {}
    assert fed("A", 0, {}, bedding_kg={"leaves": 0.1}).bedding_kg == {"leaves": 0.1}
