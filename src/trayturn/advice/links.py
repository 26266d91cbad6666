"""The page of the handbook behind each warning, tray and entry."""

from __future__ import annotations

from collections.abc import Mapping

from trayturn.advice.pages import Page
from trayturn.advice.reading import moisture_of
from trayturn.domain.entries import Stage
from trayturn.domain.stack import TrayState

WARNINGS: Mapping[str, Page] = {
    "dry": Page.MOISTURE,
    "wet": Page.MOISTURE,
    "ammonia": Page.MEALS,
    "salt": Page.SALT,
    "heating": Page.LAYERS,
}
"""By the code of a warning about a mix, of `science.limits`."""
CAUTIONS: Mapping[str, Page] = {
    "ammonia": Page.SMELLS,
    "grit_dust": Page.GRIT,
    "egg_allergy": Page.GRIT,
    "shell_germs": Page.GRIT,
    "grinder": Page.GRIT,
    "children": Page.CAUTIONS,
    "dust": Page.CAUTIONS,
    "mould": Page.CAUTIONS,
    "gloves": Page.CAUTIONS,
    "cuts": Page.CAUTIONS,
    "tetanus": Page.CAUTIONS,
    "hands": Page.CAUTIONS,
    "lifting": Page.LIFTING,
    "no_waste": Page.MEALS,
    "pests": Page.MEALS,
    "rodents": Page.PESTS,
    "flatworms": Page.PESTS,
    "clean_bedding": Page.BEDDING,
    "weedkiller": Page.BEDDING,
    "not_sterile": Page.CASTINGS,
    "local_rules": Page.CASTINGS,
    "claims": Page.CASTINGS,
}
"""By the code of a caution before the work."""
STAGES: Mapping[Stage, Page] = {
    Stage.BEDDING: Page.BEDDING,
    Stage.FEEDING: Page.FEEDING,
    Stage.FINISHING: Page.TURNING,
    Stage.SEPARATING: Page.SEPARATING,
    Stage.SPARE: Page.STARTING,
}
ENTRIES: Mapping[str, Page | None] = {
    "tray_started": Page.BEDDING,
    "fed": Page.FEEDING,
    "checked": Page.MOISTURE,
    "turned": Page.TURNING,
    "separation_begun": Page.SEPARATING,
    "step_started": Page.SEPARATING,
    "step_ended": Page.SEPARATING,
    "deadline_moved": Page.SEPARATING,
    "pass_done": Page.SEPARATING,
    "settled": Page.CASTINGS,
    "separation_ended": Page.HATCHING,
    "worms_added": Page.STOCKING,
    "worms_removed": Page.SPLITTING,
    "supplies_added": Page.SUPPLIES,
    "supplies_used": Page.SUPPLIES,
    "supplies_counted": Page.SUPPLIES,
    "cautions_read": Page.CAUTIONS,
    "note": None,
    "follow_up_set": Page.TROUBLES,
    "snoozed": None,
    "done": None,
    "measure_set": Page.FEEDING,
    "meal_kept": Page.MEALS,
    "meal_dropped": Page.MEALS,
    "put_off": Page.FEEDING,
    "turn_day_begun": Page.TURNING,
    "day_step_done": Page.TURNING,
    "turn_day_ended": Page.TURNING,
    "overs_carried": Page.FOUND,
    "contaminant_found": Page.FOUND,
    "source_stopped": Page.FOUND,
    "lot_begun": Page.HATCHING,
    "lot_moved": Page.CASTINGS,
    "lure_set": Page.HATCHING,
    "hatchlings_recovered": Page.HATCHING,
    "sieved": Page.CASTINGS,
    "packed": Page.CASTINGS,
    "castings_used": Page.CASTINGS,
    "castings_given": Page.CASTINGS,
    "lot_closed": Page.CASTINGS,
    "undone": None,
}
"""By the kind of the entry; None where there is nothing to look up."""


def page_for(code: str) -> Page | None:
    """The page behind a caution or, where it is none, a warning; None for a code that is neither's."""
    return CAUTIONS.get(code) or WARNINGS.get(code)


def page_of_tray(tray: TrayState) -> Page:
    """The page that fits a tray: of its moisture where that is outside the limits, else of its stage."""
    return Page.MOISTURE if moisture_of(tray).comfortable is False else STAGES[tray.stage]


def page_of_entry(kind: str) -> Page | None:
    """The page behind a kind of journal entry."""
    return ENTRIES.get(kind)
