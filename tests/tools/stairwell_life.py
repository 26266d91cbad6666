"""What the life in the stairwell is made of: the seasons in the kitchen, the warmth, the keeper's words."""

from __future__ import annotations

from datetime import date, datetime

from tests.tools.toml_text import Row
from tests.tools.zone import at

BEGAN = date(2025, 9, 20)
LAST_DAY = date(2026, 11, 21)
TURNS = {
    date(2025, 11, 22): 0,
    date(2026, 1, 24): 3,
    date(2026, 3, 22): 3,
    date(2026, 5, 23): 3,
    date(2026, 7, 24): 2,
    date(2026, 9, 20): 3,
}
"""Each turn with the passes its separation took; the first had nothing to separate."""

AWAY = (
    (date(2025, 12, 21), date(2026, 1, 2)),
    (date(2026, 4, 2), date(2026, 4, 7)),
    (date(2026, 8, 3), date(2026, 8, 15)),
)

MONTHS_FROM_JANUARY = (12.5, 12.5, 13.5, 15.5, 18.0, 21.0, 24.5, 24.5, 21.0, 18.0, 15.5, 13.5)
HEAT = dict(enumerate(MONTHS_FROM_JANUARY, 1))
"""Degrees C in the top tray at the start of each month: a stairwell follows the weather, some way behind."""

WINTER = ("carrot peel", "potato peel", "cabbage", "apple cores", "banana peel", "swede peel", "kale stems")
SPRING = ("spinach stems", "radish tops", "lettuce", "banana peel", "carrot peel", "asparagus ends", "chard")
EARLY_SUMMER = ("strawberry tops", "pea pods", "lettuce", "cucumber peel", "courgette", "potato peel")
LATE_SUMMER = ("melon rind", "cucumber peel", "tomato ends", "courgette", "lettuce", "plums", "carrot tops")
AUTUMN = ("pumpkin", "apple peel", "pear cores", "beetroot peel", "cabbage", "potato peel", "banana peel")
SCRAPS = {
    **dict.fromkeys((12, 1, 2), WINTER),
    **dict.fromkeys((3, 4, 5), SPRING),
    **dict.fromkeys((6, 7), EARLY_SUMMER),
    8: LATE_SUMMER,
    **dict.fromkeys((9, 10, 11), AUTUMN),
}

REMARKS = {
    1: "Slow in the cold. Half of the last feeding is still there, so I spread it thin.",
    2: "Slow in the cold, as in January.",
    3: "The first greens of the year.",
    4: "Everything cut to thumb length.",
    5: "Gone in nine days, faster than I can peel.",
    6: "Frozen first and thawed, against the flies.",
    7: "In the evening, when the landing had cooled.",
    8: "Everything from the fridge before it walked off by itself.",
    9: "Preserving weekend: more peel than pail.",
    10: "Buried under the sheet, well to the back.",
    11: "Thin layer, it is getting cool.",
    12: "A thick layer, to last over the holidays.",
}

CAUTIONS = {
    "grit": ["grit_dust", "egg_allergy", "shell_germs", "grinder", "children", "hands"],
    "separation": ["dust", "mould", "gloves", "cuts", "tetanus", "lifting", "children", "hands"],
    "giving_away": ["local_rules", "not_sterile", "claims", "no_waste", "weedkiller", "dust", "hands"],
}

FINDS: dict[date, tuple[int, Row]] = {
    date(2026, 1, 24): (0, {"overs": "two avocado shells", "contaminants": "fruit stickers"}),
    date(2026, 3, 22): (3, {}),
    date(2026, 5, 23): (0, {}),
    date(2026, 7, 24): (0, {"note": "The mango stone, again."}),
    date(2026, 9, 20): (0, {}),
}
"""Each separation: minutes added to its second rest, and words at its last skim; the rest was counted."""

EMPTY = {"D": 1.05}
"""What an empty tray weighs, kg, where it is not as the others."""

HEADER = """\
# The stack on the third-floor landing.
#
# Four trays, two households, one cover sheet cut from an old linen towel. The window above faces
# north-east: cool from November on, really warm only in July. Nobody has ever smelled it, which was
# the deal.
#
# House rules, agreed on the stairs:
#   - scraps go into the lidded pail on the sill, not straight into the stack
#   - no onions, no citrus by the handful, nothing cooked in oil
#   - whoever finds the mango stone puts it back in; we want to know how long it takes

format = 1

[bin]
name = "Stairwell"
species = "eisenia_fetida"
place = "third-floor landing, under the window"
units = "metric"
began = 2025-09-20 15:00:00+02:00
pattern = "bedding_below"
tray_count = 4
tray_area_m2 = 0.16
tray_depth_m = 0.15
tray_empty_kg = 0.9
sump_capacity_l = 5.0
days_between_turns = 60.0
days_between_feedings = 12.0
days_between_checks = 7.0
loosen_minutes = 3.5
rest_minutes = 15.0
places_beside = 2
trays_on_a_place = 2
stands_m = 0.0
places_m = 0.75

[[trays]]
id = "A"

[[trays]]
id = "B"

[[trays]]
id = "C"
note = "cracked corner, taped"

[[trays]]
id = "D"
empty_kg = 1.05  # from another set, heavier, fits all the same
"""

COMMENTS = {
    "2025-09-20 15:00": "# The day it all began, with the neighbour holding the lamp.\n",
    "2025-11-22 10:20": "# First turn. Nothing to separate yet, the fourth tray just joins.\n",
    "2026-01-17 17:05": "# Coldest week so far, 11 below outside.\n",
    "2026-07-12 15:30": "# Heat. Keep an eye on the thermometer until August.\n",
}
"""Comments by hand, above the first entry of that minute."""


def _note(when: datetime, text: str, **fields: str) -> Row:
    return {"at": when, "kind": "note", "text": text, **fields}


def _undone(when: datetime, wrong: Row) -> Row:
    return {"at": when, "kind": "undone", "entry_at": wrong["at"], "entry_kind": wrong["kind"]}


def _worms_out(when: datetime, kg: float, went_to: str) -> Row:
    return {"at": when, "kind": "worms_removed", "worms_kg": kg, "tray": "C", "went_to": went_to}


WRONG_TRAY: Row = {
    "at": at(date(2025, 12, 7), 17, 2),
    "kind": "fed",
    "tray": "C",
    "items_kg": {"coffee grounds": 0.3},
    "bedding_kg": {"shredded cardboard": 0.05},
}
RIGHT_TRAY: Row = {**WRONG_TRAY, "at": at(date(2025, 12, 7), 17, 6), "tray": "B"}
SLIPPED_POINT: Row = {"at": at(date(2026, 6, 11), 8, 1), "kind": "checked", "tray": "A", "moisture_pct": 7.6}
SET_RIGHT: Row = {**SLIPPED_POINT, "at": at(date(2026, 6, 11), 8, 3), "moisture_pct": 76.0}
DRY_HANDFUL: Row = {
    "at": at(date(2026, 7, 18), 19),
    "kind": "supplies_used",
    "note": "A dry handful into the sump after all that cucumber.",
    "supplies_kg": {"shredded cardboard": 0.15},
}
GIVING: Row = {
    "at": at(date(2026, 5, 24), 10),
    "kind": "cautions_read",
    "work": "giving_away",
    "codes": CAUTIONS["giving_away"],
}
WAITING: Row = {
    "at": at(date(2026, 11, 14), 9, 48),
    "kind": "checked",
    "tray": "D",
    "feel": "damp",
    "note": "Still waiting its turn at the bottom but one.",
}

WRITTEN: tuple[Row, ...] = (
    _note(at(date(2025, 10, 5), 9, 12), "First cocoons under the sheet, pale, no bigger than a match head."),
    _note(at(date(2025, 11, 16), 11, 40), "Downstairs asked when we would start. In September, I said."),
    WRONG_TRAY,
    _undone(at(date(2025, 12, 7), 17, 5), WRONG_TRAY),
    RIGHT_TRAY,
    _note(at(date(2026, 1, 17), 17, 5), "Ice inside the window. A blanket round it, holes left free."),
    _note(at(date(2026, 2, 22), 9, 30), "Tiny white springtails under the sheet. Left them to it.", tray="C"),
    _worms_out(at(date(2026, 3, 22), 16, 10), 0.3, "the workshop bin"),
    _note(at(date(2026, 4, 26), 18, 20), "Tomatoes potted on: one part castings, four of the old soil."),
    GIVING,
    _note(at(date(2026, 5, 24), 10, 4), "2 kg of castings to the courtyard beds, half a bucket downstairs."),
    SLIPPED_POINT,
    _undone(at(date(2026, 6, 11), 8, 2), SLIPPED_POINT),
    SET_RIGHT,
    _note(at(date(2026, 7, 12), 15, 30), "25 on the landing by three. A frozen bottle on the cover sheet."),
    DRY_HANDFUL,
    _note(at(date(2026, 8, 16), 10, 15), "Back. Dry at the edges, fine inside. Someone looked in once."),
    _note(at(date(2026, 9, 6), 9, 45), "Fruit flies since the plums. Damp newspaper over the scraps."),
    _worms_out(at(date(2026, 10, 31), 9, 20), 0.3, "the new bin in the pantry, ground floor"),
    WAITING,
    _note(at(date(2026, 11, 14), 9, 50), "Dark and crumbly down to the mesh. Lamp and tubs ready.", tray="B"),
)
