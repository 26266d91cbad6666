"""Journals for property tests: every kind of entry, with every text a keeper could type or paste."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone
from typing import Any

from hypothesis import strategies as st

from trayturn.domain.entries import (
    ENTRY_TYPES,
    Amount,
    Contaminant,
    DayOutcome,
    DayStep,
    Entry,
    Feel,
    LotStage,
    Outcome,
    Pest,
    Piece,
    Stage,
    Step,
)

ODD_TEXTS = [
    "[/",
    "[red]",
    "{'a[0]'}",
    'say "when"',
    "it's",
    '"""',
    "'''",
    'a """ b """" c\n"""',
    "back\\slash \\n \\u0041 \\",
    "\N{WORM} \N{SNOWFLAKE}\ufe0f \N{WOMAN}\u200d\N{EAR OF RICE}",
    "\u202eright to left\u202c",
    "דלי התולעים",
    "堆肥箱",
    "\x00\x07\x1b[31m\x7f\x85\u2028\ufeff",
    "two\nlines",
    "\n\n leading and trailing \n",
    "windows\r\nlines\r\nand a lone \r return",
    "tab\there",
    "[[journal]]",
    '\n[[journal]]\nat = 1\n\n[bin]\nname = "not a table"\n# not a comment',
    "x" * 10_000,
    "é\n" * 5_000,
]
TRAYS = ["A", "B", "C", "D", "Tür-1", "箱2", "12"]

texts = st.sampled_from(ODD_TEXTS) | st.text(max_size=40)
words = texts.map(lambda text: text[:200])
names = words.filter(bool)
trays = st.sampled_from(TRAYS)
kilograms = st.floats(min_value=1e-6, max_value=1000) | st.sampled_from([0.5, 1.0, 1e-5])
masses = st.dictionaries(names, kilograms, max_size=3)
offsets = st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes)))
moments = st.datetimes(datetime(1990, 1, 1), datetime(2090, 1, 1), timezones=offsets)
passes = st.none() | st.integers(1, 99)
codes = st.sampled_from(["too-wet", "overfed", "sour", "starting:day-3"])
items = st.sampled_from(["check", "feed:B", "follow_up:too-wet"]) | names.map(lambda text: text[:120])
meal_names = names.map(lambda text: text[:60])
lots = st.sampled_from(["A1", "B2", "lot-3"])
pieces = st.builds(
    Piece,
    what=meal_names,
    count=st.integers(1, 100),
    size_cm=st.none() | st.floats(0.1, 100),
)


def _maybe(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


FIELDS: dict[str, dict[str, st.SearchStrategy[Any]]] = {
    "tray_started": {
        "tray": trays,
        "bedding_kg": masses,
        "water_kg": _maybe(kilograms),
        "level": _maybe(st.integers(1, 20)),
        "stage": st.sampled_from([None, "bedding", "feeding"]),
        "came_from": words,
    },
    "fed": {
        "tray": trays,
        "items_kg": st.dictionaries(names, kilograms, min_size=1, max_size=3),
        "bedding_kg": masses,
        "grit_kg": _maybe(kilograms),
        "water_kg": _maybe(kilograms),
    },
    "checked": {
        "tray": _maybe(trays),
        "moisture_pct": _maybe(st.floats(0, 100)),
        "feel": _maybe(st.sampled_from(Feel)),
        "temperature_c": _maybe(st.floats(-40, 80)),
        "ph": _maybe(st.floats(0, 14)),
        "smell": words,
        "sump_l": _maybe(st.floats(0, 200)),
        "strays": _maybe(st.sampled_from(Amount)),
        "gross_kg": _maybe(kilograms),
        "worms": _maybe(st.sampled_from(Amount)),
        "worms_kg": _maybe(kilograms),
        "food_left_pct": _maybe(st.floats(0, 100)),
        "pests": st.lists(st.sampled_from(Pest), max_size=3),
    },
    "turned": {
        "order": st.lists(trays, min_size=1, max_size=6),
        "stages": st.dictionaries(trays, st.sampled_from(Stage), max_size=3),
        "no_fresh": st.sampled_from([None, True, False]),
    },
    "separation_begun": {"tray": trays},
    "step_started": {
        "tray": trays,
        "step": st.sampled_from(Step),
        "pass_number": passes,
        "ends_at": _maybe(moments),
        "rest_minutes": _maybe(st.floats(0.5, 24 * 60)),
    },
    "step_ended": {"tray": trays, "step": st.sampled_from(Step), "pass_number": passes},
    "deadline_moved": {"tray": trays, "ends_at": moments},
    "pass_done": {
        "tray": trays,
        "pass_number": st.integers(1, 99),
        "worms_seen": st.sampled_from(Amount),
        "skimmed_kg": _maybe(kilograms),
        "overs": texts,
        "contaminants": texts,
        "pieces": st.lists(pieces, max_size=2),
    },
    "settled": {
        "tray": trays,
        "castings_kg": _maybe(kilograms),
        "worms_to": words,
        "rest_to": words,
        "overs_to": words,
    },
    "separation_ended": {"tray": trays, "outcome": st.sampled_from(Outcome)},
    "worms_added": {
        "worms_kg": kilograms,
        "tray": _maybe(trays),
        "source": words,
        "counted": _maybe(st.integers(1, 1_000_000)),
    },
    "worms_removed": {
        "worms_kg": kilograms,
        "tray": _maybe(trays),
        "went_to": words,
        "counted": _maybe(st.integers(1, 1_000_000)),
    },
    "supplies_added": {"supplies_kg": st.dictionaries(names, kilograms, min_size=1, max_size=3)},
    "supplies_used": {"supplies_kg": st.dictionaries(names, kilograms, min_size=1, max_size=3)},
    "supplies_counted": {
        "supplies_kg": st.dictionaries(names, st.just(0.0) | kilograms, min_size=1, max_size=3)
    },
    "follow_up_set": {
        "code": codes,
        "what": names,
        "due": moments,
        "why": texts,
        "signs": st.lists(codes, max_size=3),
        "tray": _maybe(trays),
    },
    "snoozed": {"item": items, "until": moments},
    "done": {"item": items, "due": _maybe(moments)},
    "measure_set": {"measure": names.map(lambda text: text[:40]), "kg": kilograms, "of": words},
    "meal_kept": {
        "name": meal_names,
        "items_kg": st.dictionaries(names, kilograms, min_size=1, max_size=3),
        "bedding_kg": masses,
        "grit_kg": _maybe(kilograms),
    },
    "meal_dropped": {"name": meal_names},
    "put_off": {"items_kg": masses},
    "turn_day_begun": {
        "order": st.lists(trays, min_size=1, max_size=6),
        "stages": st.dictionaries(trays, st.sampled_from(Stage), max_size=3),
        "separating": st.lists(trays, max_size=2),
        "fresh": _maybe(trays),
        "bedding_kg": masses,
        "no_fresh": st.sampled_from([None, True, False]),
        "comes_back": _maybe(trays),
        "comes_back_as": _maybe(st.sampled_from(Stage)),
        "places_beside": _maybe(st.integers(1, 10)),
        "trays_on_a_place": _maybe(st.integers(1, 10)),
    },
    "day_step_done": {
        "step": st.sampled_from(DayStep),
        "tray": _maybe(trays),
        "number": _maybe(st.integers(1, 999)),
        "skipped": st.sampled_from([None, True, False]),
    },
    "turn_day_ended": {"outcome": st.sampled_from(DayOutcome)},
    "overs_carried": {"tray": trays, "to": trays, "pieces": st.lists(pieces, min_size=1, max_size=3)},
    "contaminant_found": {
        "what": st.sampled_from(Contaminant),
        "count": st.integers(1, 1000),
        "source": words,
        "tray": _maybe(trays),
    },
    "source_stopped": {"source": meal_names},
    "lot_begun": {
        "lot": lots,
        "tray": _maybe(trays),
        "kg": _maybe(kilograms),
        "stage": st.sampled_from(LotStage),
        "place": words,
    },
    "lot_moved": {
        "lot": lots,
        "stage": st.sampled_from(LotStage),
        "kg": _maybe(kilograms),
        "moisture_pct": _maybe(st.floats(0, 100)),
    },
    "lure_set": {"lot": lots, "bait": words},
    "hatchlings_recovered": {
        "lot": lots,
        "counted": _maybe(st.integers(0, 1000)),
        "worms_kg": _maybe(kilograms),
        "tray": _maybe(trays),
    },
    "sieved": {
        "lot": lots,
        "mesh_mm": st.floats(0.5, 100),
        "passed_kg": _maybe(st.floats(0, 1000)),
        "oversize_kg": _maybe(st.floats(0, 1000)),
        "oversize_to": words,
    },
    "packed": {
        "lot": lots,
        "label": meal_names,
        "kg": kilograms,
        "count": st.integers(1, 100),
        "use_by": _maybe(moments),
    },
    "castings_used": {
        "lot": lots,
        "label": words,
        "kg": _maybe(kilograms),
        "where": words,
        "share_pct": _maybe(st.floats(0, 100)),
        "despite": st.sampled_from([None, True]),
    },
    "castings_given": {
        "lot": lots,
        "label": words,
        "kg": _maybe(kilograms),
        "to": words,
        "sold": st.sampled_from([None, True]),
        "rules_read": st.sampled_from([None, True]),
    },
    "lot_closed": {"lot": lots},
    "cautions_read": {
        "work": words.map(lambda text: text[:40]),
        "codes": st.lists(words, max_size=3),
    },
    "note": {"text": texts.filter(bool), "tray": _maybe(trays)},
    "undone": {
        "entry_at": moments,
        "entry_kind": st.sampled_from(sorted(ENTRY_TYPES)),
        "entry_tray": _maybe(trays),
    },
}


def entries_of(kind: str) -> st.SearchStrategy[Entry]:
    """Entries of one kind."""
    model: Any = ENTRY_TYPES[kind]
    made: st.SearchStrategy[Entry] = st.builds(model, at=moments, note=texts, **FIELDS[kind])
    return made


def entries() -> st.SearchStrategy[Entry]:
    """Any valid entry."""
    return st.sampled_from(sorted(ENTRY_TYPES)).flatmap(entries_of)


def journals(max_size: int = 8) -> st.SearchStrategy[list[Entry]]:
    """Any sequence of valid entries, whether it could happen or not."""
    return st.lists(entries(), max_size=max_size)
