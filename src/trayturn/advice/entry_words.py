"""What a journal entry says, in the keeper's words and units: on one line, or told in full."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from trayturn.advice.entry_parts import SHORT, WHOLE, Parts, mass, most, own, seen
from trayturn.advice.entry_words_after import AFTER_WORDS, piece_words
from trayturn.advice.entry_words_care import CARE_WORDS
from trayturn.advice.story import DOING
from trayturn.domain.entries import (
    CautionsRead,
    Checked,
    DeadlineMoved,
    Entry,
    Fed,
    Note,
    Outcome,
    PassDone,
    SeparationBegun,
    SeparationEnded,
    Settled,
    StepEnded,
    StepStarted,
    SuppliesAdded,
    SuppliesCounted,
    SuppliesUsed,
    TrayStarted,
    Turned,
    Undone,
    WormsAdded,
    WormsRemoved,
)
from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass, show_temperature, show_volume, three_figures
from trayturn.domain.words import clean, count, listed, masses

GROUPS = {
    "tray_started": "started",
    "separation_begun": "separation",
    "step_started": "separation",
    "step_ended": "separation",
    "deadline_moved": "separation",
    "pass_done": "separation",
    "settled": "separation",
    "separation_ended": "separation",
    "worms_added": "worms",
    "worms_removed": "worms",
    "supplies_added": "supplies",
    "supplies_used": "supplies",
    "supplies_counted": "supplies",
    "cautions_read": "cautions",
    "follow_up_set": "follow-up",
    "measure_set": "measure",
    "meal_kept": "meals",
    "meal_dropped": "meals",
    "put_off": "caddy",
    "turn_day_begun": "turn day",
    "day_step_done": "turn day",
    "turn_day_ended": "turn day",
    "overs_carried": "pieces",
    "contaminant_found": "found",
    "source_stopped": "found",
    "lot_begun": "castings",
    "lot_moved": "castings",
    "lure_set": "castings",
    "hatchlings_recovered": "castings",
    "sieved": "castings",
    "packed": "castings",
    "castings_used": "castings",
    "castings_given": "castings",
    "lot_closed": "castings",
}
"""Kinds that a keeper thinks of as one, by one word of at most ten letters. The others are their own."""


def group_of(entry: Entry) -> str:
    """The one word that an entry is listed under: `fed`, `checked`, `separation`."""
    return GROUPS.get(entry.kind, entry.kind)


def entry_words(entry: Entry, units: Units = Units.METRIC, limit: int = SHORT) -> str:
    """What the entry says on one line, without its time, kind and tray: `cabbage 500 g; grit 10 g`.

    Masses, volumes and temperatures are in the keeper's units, the keeper's own words made safe to draw and
    shortened to `limit` characters.
    """
    parts = WORDS[entry.kind](entry, units, limit)
    return "; ".join(part for part in (*parts, clean(entry.note, limit)) if part)


def entry_line(entry: Entry, units: Units = Units.METRIC) -> str:
    """The entry with its group and tray in front, nothing shortened: `fed B: cabbage 500 g; grit 10 g`."""
    tray = getattr(entry, "tray", None)
    return f"{group_of(entry)}{f' {tray}' if tray else ''}: {entry_words(entry, units, WHOLE)}"


def entry_story(entry: Entry, units: Units) -> list[str]:
    """The whole entry, a line for each thing it says, nothing shortened.

    Its time is the one that the keeper's clock read then: summer time and travels shift nothing.
    """
    tray = getattr(entry, "tray", None)
    lines = [
        f"{group_of(entry).capitalize()}{f', tray {tray}' if tray else ''}",
        f"{entry.at:%A %Y-%m-%d %H:%M}",
    ]
    if isinstance(entry, Note):
        said = entry.text.splitlines()
    else:
        said = [part[:1].upper() + part[1:] for part in WORDS[entry.kind](entry, units, WHOLE) if part]
    lines += ["", *(clean(line) for line in said)]
    if entry.note:
        lines += ["", *(clean(line) for line in entry.note.splitlines())]
    return lines


def _tray_started(entry: TrayStarted, units: Units, limit: int) -> Parts:
    level = f"level {entry.level}" if entry.level else ""
    stage = "fed at once" if entry.stage == "feeding" else ""
    return [
        masses(entry.bedding_kg, units, most(limit)),
        mass("water", entry.water_kg, units),
        level,
        stage,
        own("from", entry.came_from, limit),
    ]


def _fed(entry: Fed, units: Units, limit: int) -> Parts:
    bedding = f"bedding {masses(entry.bedding_kg, units, most(limit))}" if entry.bedding_kg else ""
    return [
        masses(entry.items_kg, units, most(limit)),
        bedding,
        mass("grit", entry.grit_kg, units),
        mass("water", entry.water_kg, units),
    ]


def _checked(entry: Checked, units: Units, limit: int) -> Parts:
    return [
        entry.feel or "",
        "" if entry.moisture_pct is None else f"moisture {three_figures(entry.moisture_pct)} %",
        "" if entry.temperature_c is None else show_temperature(entry.temperature_c, units),
        "" if entry.ph is None else f"pH {entry.ph:g}",
        own("smell", entry.smell, limit),
        "" if entry.sump_l is None else f"sump {show_volume(entry.sump_l, units)}",
        f"{seen(entry.strays)} astray" if entry.strays else "",
        mass("weighs", entry.gross_kg, units),
        f"{seen(entry.worms)} seen" if entry.worms else "",
        mass("worms in all", entry.worms_kg, units),
        "" if entry.food_left_pct is None else f"{three_figures(entry.food_left_pct)} % of the food left",
        f"{listed(map(str, entry.pests))} seen" if entry.pests else "",
    ]


def _turned(entry: Turned, units: Units, limit: int) -> Parts:
    stages = ", ".join(f"{tray} {stage}" for tray, stage in entry.stages.items())
    short = "no fresh tray, for want of bedding" if entry.no_fresh else ""
    return [f"from the bottom up {', '.join(entry.order)}", stages, short]


def _separation_begun(entry: SeparationBegun, units: Units, limit: int) -> Parts:
    return ["set on top of the stack"]


def _step(entry: StepStarted | StepEnded) -> str:
    return DOING[entry.step] + (f", pass {entry.pass_number}" if entry.pass_number else "")


def _step_started(entry: StepStarted, units: Units, limit: int) -> Parts:
    until = f", until {entry.ends_at.astimezone(entry.at.tzinfo):%H:%M}" if entry.ends_at else ""
    rest = f"a rest of {three_figures(entry.rest_minutes)} min to follow" if entry.rest_minutes else ""
    return [f"{_step(entry)}{until}", rest]


def _step_ended(entry: StepEnded, units: Units, limit: int) -> Parts:
    return [f"done with {_step(entry)}"]


def _deadline_moved(entry: DeadlineMoved, units: Units, limit: int) -> Parts:
    return [f"timer moved, now until {entry.ends_at.astimezone(entry.at.tzinfo):%H:%M}"]


def _pass_done(entry: PassDone, units: Units, limit: int) -> Parts:
    return [
        f"pass {entry.pass_number} done: {seen(entry.worms_seen)} seen",
        mass("skimmed", entry.skimmed_kg, units),
        f"picked out {listed(piece_words(piece, units) for piece in entry.pieces)}" if entry.pieces else "",
        own("pieces", entry.overs, limit),
        own("found", entry.contaminants, limit),
    ]


def _settled(entry: Settled, units: Units, limit: int) -> Parts:
    return [
        mass("castings", entry.castings_kg, units),
        own("worms to", entry.worms_to, limit),
        own("the rest to", entry.rest_to, limit),
        own("pieces to", entry.overs_to, limit),
    ]


def _separation_ended(entry: SeparationEnded, units: Units, limit: int) -> Parts:
    return ["put back to finish longer" if entry.outcome is Outcome.PUT_BACK else "over, the tray is empty"]


def _worms_added(entry: WormsAdded, units: Units, limit: int) -> Parts:
    return [f"{show_mass(entry.worms_kg, units)} put in", _counted(entry), own("from", entry.source, limit)]


def _worms_removed(entry: WormsRemoved, units: Units, limit: int) -> Parts:
    return [f"{show_mass(entry.worms_kg, units)} taken out", _counted(entry), own("to", entry.went_to, limit)]


def _counted(entry: WormsAdded | WormsRemoved) -> str:
    return f"{entry.counted:,} counted" if entry.counted else ""


def _supplies(entry: SuppliesAdded | SuppliesUsed, units: Units, limit: int) -> Parts:
    way = "came in" if isinstance(entry, SuppliesAdded) else "went"
    return [f"{masses(entry.supplies_kg, units, most(limit))} {way}"]


def _supplies_counted(entry: SuppliesCounted, units: Units, limit: int) -> Parts:
    held = [f"{clean(name, 40)} {show_mass(kg, units)}" for name, kg in entry.supplies_kg.items()]
    return [f"{listed(held[: most(limit)])} in stock"]


def _cautions_read(entry: CautionsRead, units: Units, limit: int) -> Parts:
    return [f"{count(len(entry.codes), 'caution')} read before {clean(entry.work)}"]


def _note(entry: Note, units: Units, limit: int) -> Parts:
    return [clean(entry.text, limit)]


def _undone(entry: Undone, units: Units, limit: int) -> Parts:
    tray = f" tray {entry.entry_tray}" if entry.entry_tray else ""
    what = f"{clean(entry.entry_kind).replace('_', ' ')}{tray}"
    return [f"{what} of {entry.entry_at:%Y-%m-%d %H:%M} taken back"]


WORDS: dict[str, Callable[[Any, Units, int], Parts]] = {
    "tray_started": _tray_started,
    "fed": _fed,
    "checked": _checked,
    "turned": _turned,
    "separation_begun": _separation_begun,
    "step_started": _step_started,
    "step_ended": _step_ended,
    "deadline_moved": _deadline_moved,
    "pass_done": _pass_done,
    "settled": _settled,
    "separation_ended": _separation_ended,
    "worms_added": _worms_added,
    "worms_removed": _worms_removed,
    "supplies_added": _supplies,
    "supplies_used": _supplies,
    "cautions_read": _cautions_read,
    "supplies_counted": _supplies_counted,
    "note": _note,
    "undone": _undone,
    **CARE_WORDS,
    **AFTER_WORDS,
}
