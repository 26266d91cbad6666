"""`log`: what is typed stands in the journal as it was meant, and a slip writes nothing."""

from __future__ import annotations

from typing import Any

import pytest

from tests.cli.conftest import Keeper
from trayturn.cli.building import BUILDERS
from trayturn.cli.kinds import KINDS, ON_SCREENS_ONLY, OTHER_NAMES
from trayturn.domain.entries import ENTRY_TYPES


def entry(keeper: Keeper, *words: str) -> Any:
    """The one entry that `log pantry …` saves, as data."""
    answer = keeper.types("log", "pantry", *words, "--json")
    assert answer.err == ""
    (saved,) = answer.data["entries"]
    return saved


def test_every_kind_that_can_be_typed_is_built() -> None:
    assert set(BUILDERS) == set(KINDS) - {"undo"}
    assert set(OTHER_NAMES.values()) <= set(KINDS)


def test_every_kind_of_the_journal_can_be_typed_or_is_known_as_the_screens_own() -> None:
    typed = {OTHER_NAMES.get(name.replace("_", "-"), name.replace("_", "-")) for name in ENTRY_TYPES}
    assert typed <= set(KINDS) | set(ON_SCREENS_ONLY)


def test_a_note_needs_no_quotes(pantry: Keeper) -> None:
    assert entry(pantry, "note", "first", "frost")["text"] == "first frost"


def test_a_note_may_begin_with_a_dash(pantry: Keeper) -> None:
    answer = pantry.types("log", "pantry", "note", "--json", "--", "-4 degrees")
    assert answer.data["entries"][0]["text"] == "-4 degrees"


def test_a_feeding_with_its_options_between_the_items(pantry: Keeper) -> None:
    saved = entry(
        pantry, "fed", "a", "cabbage=500 g", "--bedding", "card=120g", "apple=0,3 kg", "--note", "late"
    )
    assert saved["tray"] == "A"
    assert saved["items_kg"] == {"cabbage": 0.5, "apple": 0.3}
    assert saved["bedding_kg"] == {"card": 0.12}
    assert saved["note"] == "late"
    assert saved["at"] == "2026-03-03T18:30:00+01:00"


def test_the_same_item_twice_is_added_up(pantry: Keeper) -> None:
    assert entry(pantry, "fed", "A", "tea=100 g", "tea=50 g")["items_kg"] == pytest.approx({"tea": 0.15})


def test_a_check_with_every_reading(pantry: Keeper) -> None:
    words = (
        "checked b --moisture 70% --feel Damp --temperature 18C --ph 7 --smell earthy --sump 0.5l"
        " --strays few --weight 6kg --worms-seen Many --worms-weigh 1.2kg --food-left 25%"
        " --pests ants --pests Springtails"
    )
    saved = entry(pantry, *words.split())
    assert saved | {"at": ""} == {
        "kind": "checked",
        "at": "",
        "note": "",
        "tray": "B",
        "moisture_pct": 70.0,
        "feel": "damp",
        "temperature_c": 18.0,
        "ph": 7.0,
        "smell": "earthy",
        "sump_l": 0.5,
        "strays": "few",
        "gross_kg": 6.0,
        "worms": "many",
        "worms_kg": 1.2,
        "food_left_pct": 25.0,
        "pests": ["ants", "springtails"],
    }


def test_a_check_of_the_whole_bin_names_no_tray(pantry: Keeper) -> None:
    assert entry(pantry, "checked", "--temperature", "-2")["tray"] is None


def test_a_keeper_with_us_units_types_pounds_and_fahrenheit(keeper: Keeper) -> None:
    keeper.does("new", "Pantry", "--units", "us")
    assert entry(keeper, "worms-added", "1")["worms_kg"] == pytest.approx(0.45359237)
    assert entry(keeper, "checked", "--temperature", "68")["temperature_c"] == pytest.approx(20)


def test_a_turn_in_an_order_of_ones_own(pantry: Keeper) -> None:
    saved = entry(pantry, "turned", "c", "a", "b", "--stage", "a=finishing", "--stage", "B=feeding")
    assert saved["order"] == ["C", "A", "B"]
    assert saved["stages"] == {"A": "finishing", "B": "feeding"}


def test_the_usual_turn_is_worked_out_and_told(pantry: Keeper) -> None:
    pantry.it_is("2026-05-01T09:00:00+02:00")
    told = pantry.does("log", "pantry", "turned", "--note", "windy")
    assert "The stack from the bottom up:" in told
    assert pantry.kinds()[-1] == "turned"
    assert pantry.asks("journal", "pantry", "--last", "1")["entries"][0]["note"] == "windy"
    trays = pantry.asks("stack", "pantry")["trays"]
    assert [tray["id"] for tray in trays if tray["stage"] == "finishing"] == ["A"]


def test_the_fresh_tray_of_the_usual_turn_takes_bedding(keeper: Keeper) -> None:
    keeper.does("new", "Pantry", "--trays", "2")
    keeper.does("log", "pantry", "started", "A", "--stage", "feeding")
    keeper.it_is("2026-05-01T09:00:00+02:00")
    keeper.does("log", "pantry", "turned", "--bedding", "leaves=300 g")
    assert keeper.kinds() == ["tray_started", "tray_started", "turned"]
    fresh = next(tray for tray in keeper.asks("stack", "pantry")["trays"] if tray["id"] == "B")
    assert fresh["bedding_kg"] == {"leaves": 0.3}


def test_a_started_tray_takes_water_by_volume_or_by_weight(keeper: Keeper) -> None:
    keeper.does("new", "Pantry")
    assert entry(keeper, "started", "a", "--water", "1.5 l")["water_kg"] == 1.5
    assert entry(keeper, "started", "b", "--water", "800 g", "--level", "1")["water_kg"] == 0.8


def test_worms_and_supplies_in_and_out(pantry: Keeper) -> None:
    assert (
        entry(pantry, "worms-added", "0.5kg", "--tray", "a", "--source", "a friend")["source"] == "a friend"
    )
    assert entry(pantry, "worms-removed", "100g", "--to", "the school")["went_to"] == "the school"
    assert entry(pantry, "supplies-added", "cardboard=2 kg", "grit=1kg")["supplies_kg"] == {
        "cardboard": 2,
        "grit": 1,
    }
    assert entry(pantry, "supplies-used", "cardboard=1 kg")["supplies_kg"] == {"cardboard": 1}


def test_kinds_go_by_their_name_in_the_file_too(pantry: Keeper) -> None:
    assert entry(pantry, "worms_added", "1kg")["kind"] == "worms_added"


def test_a_separation_logged_after_the_fact(separating: Keeper) -> None:
    separating.does("log", "pantry", "pass-done", "--worms", "few", "--skimmed", "1.2kg")
    separating.does("log", "pantry", "pass-done", "--worms", "many", "--overs", "stalks")
    separating.does("log", "pantry", "settled", "--castings", "3kg", "--worms-to", "tray B")
    running = separating.asks("separation", "pantry")["separations"][0]
    assert [done["pass_number"] for done in running["passes"]] == [1, 2]
    assert running["step"]["step"] == "clean_up"
    separating.does("log", "pantry", "separation-ended", "--note", "good ones")
    data = separating.asks("separation", "pantry")
    assert data["separations"] == []
    assert data["past_separations"][-1]["settled"]["castings_kg"] == 3.0
    assert separating.asks("stack", "pantry")["findings"] == []


def test_a_separation_can_be_put_back(separating: Keeper) -> None:
    told = separating.does("log", "pantry", "separation-ended", "a", "--put-back")
    assert "separation A: put back" in told
    assert "C bedding, A finishing, B feeding" in told


def test_undo_takes_the_last_entry_back(pantry: Keeper) -> None:
    told = pantry.does("log", "pantry", "undo")
    assert told.startswith("Taken back in Pantry: fed A, 2026-03-03 18:30.")
    assert pantry.kinds()[-2:] == ["fed", "undone"]
    assert pantry.asks("stack", "pantry")["trays"][-1]["feedings"] == 0


def test_undo_takes_a_whole_act_back(pantry: Keeper) -> None:
    before = pantry.asks("stack", "pantry")["trays"]
    pantry.does("new", "Attic", "--trays", "3")
    pantry.does("log", "attic", "started", "A", "--stage", "feeding")
    pantry.does("log", "attic", "turned")
    assert pantry.kinds("attic")[-2:] == ["tray_started", "turned"]
    told = pantry.does("log", "attic", "undo")
    assert told.startswith("Taken back in Attic: tray started B, 2026-03-03 18:30 and turned, 2026-03-03")
    assert [tray["id"] for tray in pantry.asks("stack", "attic")["trays"]] == ["A"]
    assert pantry.asks("stack", "pantry")["trays"] == before


def test_undo_takes_a_pass_back_with_its_steps(separating: Keeper) -> None:
    running = separating.asks("separation", "pantry")["separations"]
    separating.does("log", "pantry", "pass-done", "--worms", "few")
    told = separating.does("log", "pantry", "undo")
    assert told.startswith("Taken back in Pantry: pass done A, 2026-07-01 09:00.")
    assert separating.asks("separation", "pantry")["separations"] == running


def test_undo_in_an_empty_journal_says_so(keeper: Keeper) -> None:
    keeper.does("new", "Pantry")
    answer = keeper.types("log", "pantry", "undo")
    assert (answer.status, answer.out) == (1, "")
    assert "undo" in answer.err


def test_an_earlier_time_is_kept_with_its_offset(pantry: Keeper) -> None:
    saved = entry(pantry, "note", "before", "--at", "2026-03-02T08:00:00-05:00")
    assert saved["at"] == "2026-03-02T08:00:00-05:00"


def test_what_was_saved_and_where_is_told(pantry: Keeper) -> None:
    told = pantry.does("log", "pantry", "note", "first frost")
    path = pantry.home / "pantry.toml"
    assert told == f"Saved in Pantry, 2026-03-03 18:30: note: first frost.\nIn {path}\n"


def test_what_cannot_have_happened_is_not_saved(pantry: Keeper) -> None:
    before = (pantry.home / "pantry.toml").read_bytes()
    answer = pantry.types("log", "pantry", "started", "A")
    assert answer.status == 2
    assert answer.err.startswith("trayturn: Nothing was saved. Tray A is on the stack already.")
    assert (pantry.home / "pantry.toml").read_bytes() == before


def test_what_only_wants_a_look_is_saved_and_told(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "supplies-added", "grit=1 kg")
    answer = pantry.types("log", "pantry", "supplies-used", "grit=5 kg")
    assert "warning: entry" in answer.out
    assert "trayturn log pantry undo" in answer.out
    pantry.does("log", "pantry", "undo")
    assert pantry.asks("stack", "pantry")["findings"] == []


SLIPS = {
    "no kind": ((), "Say what happened"),
    "an option for a kind": (("--json", "note"), "Say what happened"),
    "a misspelt kind": (("fedd", "A", "tea=1kg"), "Did you mean fed?"),
    "no such kind": (("zzz",), "Use one of note, fed,"),
    "a kind of the screens": (("step_started", "A"), "written by the screens"),
    "no tray": (("fed",), "The following arguments are required: TRAY"),
    "no such tray": (("fed", "Z", "tea=1kg"), "Its trays are A, B and C."),
    "nothing fed": (("fed", "A"), "A feeding needs something"),
    "an item without a mass": (("fed", "A", "tea"), "in quotes"),
    "an item without quotes": (("fed", "A", "tea=500", "g"), "in quotes"),
    "an item without a name": (("fed", "A", "=5 kg"), "in quotes"),
    "an unknown unit": (("fed", "A", "tea=5 stone"), "'stone' is not a unit of mass"),
    "no mass at all": (("fed", "A", "tea=0"), "the scraps tea needs more than 0"),
    "a mass below zero": (("fed", "A", "tea=-1 kg"), "below zero"),
    "too heavy": (("fed", "A", "tea=5000 kg"), "1000 or less"),
    "a long name": (("fed", "A", f"{'x' * 300}=1 kg"), "200 characters"),
    "no reading": (("checked", "B"), "at least one reading"),
    "too moist": (("checked", "--moisture", "170"), "--moisture needs 100 or less"),
    "no such feel": (("checked", "--feel", "dump"), "--feel needs one of 'dry', 'damp', 'moist' or 'wet'"),
    "no number": (("checked", "--ph", "acid"), "--ph: 'acid' is not an amount"),
    "a unit too many": (("checked", "--ph", "7 kg"), "is not a plain number"),
    "too hot": (("checked", "--temperature", "300 C"), "--temperature needs 80 or less"),
    "an unknown scale": (("checked", "--temperature", "300 K"), "--temperature: 'k' is not a unit"),
    "no such stage": (("started", "A", "--stage", "eating"), "--stage needs one of 'bedding' or 'feeding'"),
    "no such level": (("started", "A", "--level", "0"), "--level needs 1 or more"),
    "a level in words": (("started", "A", "--level", "two"), "--level: invalid int value"),
    "a stage without a tray": (("turned", "A", "--stage", "finishing"), "needs a tray and its stage"),
    "a stage without an order": (("turned", "--stage", "A=finishing"), "needs the new order"),
    "no such stage in a turn": (("turned", "A", "--stage", "A=eating"), "--stage A needs one of 'bedding'"),
    "bedding with an order": (("turned", "A", "--bedding", "x=1kg"), "For an order of your own"),
    "an empty note": (("note", ""), "the note needs some text"),
    "a note too long": (("note", "x" * 20_001), "20000 characters"),
    "too long a note beside": (("worms-added", "1kg", "--note", "x" * 20_001), "--note is longer than 20000"),
    "a day to come": (("note", "x", "--at", "2026-03-04"), "has not come yet: it is 2026-03-03 18:30"),
    "no time": (("note", "x", "--at", "soon"), "--at 'soon' is not a time"),
    "an unknown option": (("note", "x", "--moistrue", "7"), "Unrecognized arguments: --moistrue"),
    "no separation": (("pass-done", "--worms", "few"), "No separation was under way"),
    "no separation of that tray": (("settled", "B"), "No separation of tray B was under way"),
    "half a character": (("note", "torn \ud83d"), "the note holds half a character"),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_is_told_in_one_line_and_writes_nothing(pantry: Keeper, slip: str) -> None:
    words, told = SLIPS[slip]
    before = (pantry.home / "pantry.toml").read_bytes()
    answer = pantry.types("log", "pantry", *words)
    assert (answer.status, answer.out) == (2, "")
    assert told in answer.err
    assert answer.err.startswith("trayturn: ")
    assert answer.err.count("\n") == 1
    assert (pantry.home / "pantry.toml").read_bytes() == before


HARSH = (
    "[/",
    "[red]",
    "{'a[0]'}",
    "\"'''\"",
    "x \\ y",
    "\u202eabc",
    "שלום",
    "🪱" * 3,
    "x" * 10_000,
    "a\nb\tc\x1b[31m",
)


@pytest.mark.parametrize("text", HARSH)
def test_any_text_is_kept_and_shown_without_harm(pantry: Keeper, text: str) -> None:
    pantry.does("log", "pantry", "note", text, "--note", text)
    pantry.does("log", "pantry", "fed", "A", f"{text[:90]}=1 kg", "--note", text)
    shown = pantry.does("journal", "pantry")
    assert "\x1b" not in shown
    assert "\u202e" not in shown
    notes = pantry.asks("journal", "pantry", "--kind", "note")["entries"]
    assert (notes[0]["text"], notes[0]["note"]) == (text, text)


def test_a_broken_profile_takes_no_entry(pantry: Keeper) -> None:
    path = pantry.home / "pantry.toml"
    path.write_text(
        path.read_text(encoding="utf-8").replace('kind = "fed"', 'kind = "fedd"'), encoding="utf-8"
    )
    answer = pantry.types("log", "pantry", "note", "x")
    assert answer.status == 1
    assert "did you mean fed?" in answer.err


def test_water_poured_on_with_a_meal_is_logged_by_volume_or_weight(pantry: Keeper) -> None:
    assert "water 200 g" in pantry.does("log", "pantry", "fed", "A", "cabbage=100 g", "--water", "0.2 l")
    assert pantry.asks("stack", "pantry")["trays"][-1]["water_kg"] == pytest.approx(0.2)


def test_castings_from_the_tub_to_the_pot(pantry: Keeper) -> None:
    entry(pantry, "lot-begun", "A1", "--tray", "a", "--weight", "4kg", "--place", "shed")
    entry(pantry, "lure-set", "a1", "melon", "peel")
    assert entry(pantry, "hatchlings-recovered", "a1", "--counted", "40")["lot"] == "A1"
    assert entry(pantry, "lot-moved", "A1", "Drying", "--moisture", "60%")["moisture_pct"] == 60
    assert entry(pantry, "sieved", "A1", "--mesh", "6mm", "--passed", "3kg")["mesh_mm"] == 6
    packed = entry(pantry, "packed", "A1", "tall jar", "500g", "--count", "2", "--use-by", "2026-06-01")
    assert packed["use_by"].startswith("2026-06-01")
    used = entry(pantry, "castings-used", "A1", "--label", "tall jar", "--amount", "200g", "--share", "15")
    assert (used["kg"], used["share_pct"], used["despite"]) == (0.2, 15, None)
    assert entry(pantry, "castings-given", "A1", "--to", "a friend", "--rules-read")["rules_read"] is True
    entry(pantry, "lot-closed", "A1")
    assert pantry.asks("stack", "pantry")["findings"] == []


def test_an_unknown_lot_or_one_begun_twice_is_refused(pantry: Keeper) -> None:
    assert "It has none yet" in pantry.types("log", "pantry", "lot-closed", "A1").err
    entry(pantry, "lot-begun", "A1")
    assert "Its lots are A1." in pantry.types("log", "pantry", "lot-closed", "B1").err
    assert "another code" in pantry.types("log", "pantry", "lot-begun", "A1").err


def test_pieces_and_what_does_not_belong(pantry: Keeper) -> None:
    saved = entry(pantry, "overs-carried", "a", "avocado stone=2x4cm", "cob", "--to", "b")
    assert saved["pieces"] == [
        {"what": "avocado stone", "count": 2, "size_cm": 4.0},
        {"what": "cob", "count": 1, "size_cm": None},
    ]
    assert entry(pantry, "contaminant-found", "Tape", "--count", "3", "--source", "parcels")["count"] == 3
    assert entry(pantry, "source-stopped", "parcels")["source"] == "parcels"
    assert "is not a piece" in pantry.types("log", "pantry", "overs-carried", "a", "=2", "--to", "b").err
    assert pantry.types("log", "pantry", "contaminant-found", "moon").status != 0
