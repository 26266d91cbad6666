"""An entry in the keeper's words: on one line, and told in full."""

from datetime import timedelta, timezone
from typing import Any
from unicodedata import category

import pytest
from hypothesis import given

from tests.builders import entry, fed, moment, noted, started, turned, undone
from tests.strategies import ODD_TEXTS, journals
from trayturn.advice.entry_words import GROUPS, WORDS, entry_line, entry_story, entry_words, group_of
from trayturn.domain.entries import ENTRY_TYPES, Entry
from trayturn.domain.setup import Units

UNDRAWN = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
"""Unicode categories that a terminal acts on, or shows nothing for. Blanks of any width are drawn."""
CASES: list[tuple[Any, str]] = [
    (
        started("A", 0, level=2, water_kg=0.6, stage="feeding"),
        "shredded cardboard 500 g; water 600 g; level 2; fed at once",
    ),
    (started("A", 0, came_from="Shed"), "shredded cardboard 500 g; from Shed"),
    (
        fed("B", 1, {"cabbage": 0.5}, bedding_kg={"straw": 0.2}, grit_kg=0.01),
        "cabbage 500 g; bedding straw 200 g; grit 10 g",
    ),
    (
        entry("checked", 1, tray="B", feel="damp", moisture_pct=71.3, temperature_c=18),
        "damp; moisture 71.3 %; 18 °C",
    ),
    (
        entry("checked", 1, ph=7, smell="earthy", sump_l=0, strays="none"),
        "pH 7; smell earthy; sump 0 ml; no worms astray",
    ),
    (turned("CAB", 60, A="finishing"), "from the bottom up C, A, B; A finishing"),
    (entry("separation_begun", 1, tray="A"), "set on top of the stack"),
    (
        entry("step_started", 1, tray="A", step="rest", pass_number=2, ends_at=moment(1, 10, 15)),
        "resting, pass 2, until 10:15",
    ),
    (entry("step_ended", 1, tray="A", step="settle"), "done with settling"),
    (entry("deadline_moved", 1, tray="A", ends_at=moment(1, 10, 20)), "timer moved, now until 10:20"),
    (
        entry(
            "pass_done",
            1,
            tray="A",
            pass_number=1,
            worms_seen="few",
            skimmed_kg=1.2,
            overs="a cob",
            contaminants="tape",
        ),
        "pass 1 done: few worms seen; skimmed 1.2 kg; pieces a cob; found tape",
    ),
    (
        entry("settled", 1, tray="A", castings_kg=3.0, worms_to="tray B", rest_to="a tub", overs_to="tray B"),
        "castings 3 kg; worms to tray B; the rest to a tub; pieces to tray B",
    ),
    (entry("separation_ended", 1, tray="A"), "over, the tray is empty"),
    (entry("separation_ended", 1, tray="A", outcome="put_back"), "put back to finish longer"),
    (entry("worms_added", 1, worms_kg=0.5, source="a friend"), "500 g put in; from a friend"),
    (entry("worms_removed", 1, worms_kg=0.5, went_to="a friend"), "500 g taken out; to a friend"),
    (entry("supplies_added", 1, supplies_kg={"grit": 0.5}), "grit 500 g came in"),
    (entry("supplies_used", 1, supplies_kg={"grit": 0.5}), "grit 500 g went"),
    (
        entry("cautions_read", 1, work="separation", codes=("dust", "mould")),
        "2 cautions read before separation",
    ),
    (
        entry("supplies_counted", 1, supplies_kg={"grit": 0.5, "straw": 0}),
        "grit 500 g and straw 0 g in stock",
    ),
    (entry("worms_added", 1, worms_kg=0.5, counted=1000), "500 g put in; 1,000 counted"),
    (
        entry("checked", 1, worms="few", pests=["ants", "pot worms"]),
        "few worms seen; ants and pot worms seen",
    ),
    (
        entry(
            "follow_up_set", 1, code="too-wet", what="Look again", due=moment(8), signs=["drips"], tray="B"
        ),
        "Look again by 2026-03-09; seen: drips",
    ),
    (entry("snoozed", 1, item="feed:B", until=moment(3)), "feed B put off until 2026-03-04"),
    (entry("snoozed", 1, item="feed:B", until=moment(1)), "feed B no longer put off"),
    (entry("done", 1, item="follow_up:too-wet:B"), "follow up too wet B done"),
    (entry("measure_set", 1, measure="handful", kg=0.06, of="card"), "a handful of card weighs 60 g"),
    (
        entry("meal_kept", 1, name="Sunday", items_kg={"tea": 0.2}, bedding_kg={"card": 0.1}, grit_kg=0.01),
        "Sunday kept; tea 200 g; bedding card 100 g; grit 10 g",
    ),
    (entry("meal_dropped", 1, name="Sunday"), "Sunday no longer kept"),
    (entry("put_off", 1, items_kg={"melon": 2.0}), "melon 2 kg in the caddy"),
    (entry("put_off", 1), "nothing waits in the caddy any more"),
    (
        entry(
            "turn_day_begun",
            1,
            order=["D", "B", "A"],
            separating=["C"],
            fresh="D",
            bedding_kg={"straw": 0.4},
        ),
        "planned from the bottom up D, B, A; C to be separated; D comes in with straw 400 g",
    ),
    (entry("turn_day_begun", 1, order=["B"], no_fresh=True), "planned from the bottom up B; no fresh tray"),
    (entry("day_step_done", 1, step="move", tray="C", number=2), "tray moved (2)"),
    (entry("day_step_done", 1, step="look", skipped=True), "looked into the bin; left undone"),
    (entry("turn_day_ended", 1), "all done"),
    (entry("turn_day_ended", 1, outcome="left"), "left as it stood"),
    (
        entry(
            "overs_carried",
            1,
            tray="C",
            to="B",
            pieces=[{"what": "avocado stone", "count": 2, "size_cm": 4}, {"what": "cob"}],
        ),
        "2 avocado stone, 4 cm; 1 cob; on to tray B",
    ),
    (entry("contaminant_found", 1, what="tape", count=3, source="parcels"), "3 tape; came in with parcels"),
    (entry("source_stopped", 1, source="parcels"), "nothing more comes in with parcels"),
    (entry("lot_begun", 1, lot="C1", kg=3.0, place="the shed"), "lot C1, hatching; 3 kg; in the shed"),
    (
        entry("lot_moved", 1, lot="C1", stage="drying", kg=2.5, moisture_pct=62),
        "lot C1, drying; 2.5 kg; moisture 62 %",
    ),
    (entry("lure_set", 1, lot="C1", bait="melon"), "lot C1, bait laid; melon"),
    (
        entry("hatchlings_recovered", 1, lot="C1", counted=40, worms_kg=0.004),
        "lot C1, 40 hatchlings lifted out; 4 g",
    ),
    (entry("hatchlings_recovered", 1, lot="C1"), "lot C1, hatchlings lifted out"),
    (
        entry("sieved", 1, lot="C1", mesh_mm=6, passed_kg=2.0, oversize_kg=0.3, oversize_to="tray B"),
        "lot C1, sieved at 6 mm; 2 kg fell through; 300 g stayed on it; which went to tray B",
    ),
    (
        entry("packed", 1, lot="C1", label="tall jar", kg=0.5, count=3, use_by=moment(60)),
        "lot C1, 3 x tall jar, 500 g each; use by 2026-04-30",
    ),
    (
        entry("castings_used", 1, lot="C1", label="tall jar", kg=0.5, where="tomatoes", share_pct=15),
        "lot C1 (tall jar), 500 g used; for tomatoes; 15 % of the mix",
    ),
    (entry("castings_given", 1, lot="C1", to="a friend"), "lot C1, some given away; to a friend"),
    (entry("lot_closed", 1, lot="C1"), "lot C1, nothing left"),
    (noted("two\nlines", 1, note="and more"), "two lines; and more"),
    (undone(fed("A", 1), 2), "fed of 2026-03-02 10:00 taken back"),
]


@pytest.mark.parametrize(("told", "words"), CASES, ids=lambda case: getattr(case, "kind", ""))
def test_an_entry_is_told_on_one_line(told: Entry, words: str) -> None:
    assert entry_words(told) == words


def test_every_kind_has_its_words_and_a_short_group() -> None:
    assert set(WORDS) == set(ENTRY_TYPES) == {told.kind for told, _ in CASES}
    assert set(GROUPS) < set(ENTRY_TYPES)
    assert all(len(group_of(told)) <= 10 for told, _ in CASES)


def test_a_us_keeper_reads_pounds_and_fahrenheit() -> None:
    assert entry_words(fed("A", 1, {"cabbage": 0.45359237}), Units.US) == "cabbage 1 lb"
    assert entry_words(entry("checked", 1, temperature_c=20), Units.US) == "68 °F"


def test_one_line_is_short_and_the_story_is_whole() -> None:
    many = fed("A", 1, {f"item {n}": 0.1 for n in range(6)}, note="x" * 5000)
    assert len(entry_words(many)) < 300
    assert "and 3 more" in entry_words(many)
    story = entry_story(many, Units.METRIC)
    assert all(f"item {n} 100 g" in story[3].lower() for n in range(6))
    assert story[-1] == "x" * 5000


def test_a_story_tells_group_tray_and_the_clock_time_of_then() -> None:
    told = noted("one\ntwo", moment(3).astimezone(timezone(timedelta(hours=3))), tray="B")
    assert entry_story(told, Units.METRIC) == ["Note, tray B", "Wednesday 2026-03-04 12:00", "", "one", "two"]


def test_a_line_has_group_and_tray_in_front_and_shortens_nothing() -> None:
    many = fed("A", 1, {f"item {n}": 0.1 for n in range(6)}, note="x" * 5000)
    line = entry_line(many)
    assert line.startswith("fed A: item 0 100 g, ")
    assert line.endswith("; " + "x" * 5000)
    assert "item 5" in line
    assert entry_line(turned("CAB", 60)) == "turned: from the bottom up C, A, B"
    assert entry_line(undone(started("A", 1), 2)) == "undone: tray started of 2026-03-02 10:00 taken back"


@given(journals(4))
def test_any_entry_is_told_in_text_that_can_be_drawn(journal: list[Entry]) -> None:
    for told in journal:
        lines = [entry_words(told), *entry_story(told, Units.METRIC)]
        assert not {category(ch) for line in lines for ch in line} & UNDRAWN


@pytest.mark.parametrize("text", ODD_TEXTS, ids=lambda text: repr(text[:8]))
def test_odd_notes_become_one_line(text: str) -> None:
    assert "\n" not in entry_words(noted(text, 1))
    assert len(entry_words(noted(text, 1))) <= 200
