"""Which function folds each kind of entry into the ledger."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from trayturn.domain import (
    fold_care,
    fold_day,
    fold_lots,
    fold_pieces,
    fold_separation,
    fold_stores,
    fold_trays,
)
from trayturn.domain.entries import Undone
from trayturn.domain.ledger import Ledger
from trayturn.domain.problems import Severity

Handler = Callable[[Ledger, Any], None]


def _undone_in_vain(ledger: Ledger, entry: Undone) -> None:
    tray = f" of tray {entry.entry_tray}" if entry.entry_tray else ""
    what = f"{entry.entry_kind}{tray} of {entry.entry_at:%Y-%m-%d %H:%M}"
    ledger.find(
        "undone-nothing",
        f"No entry {what} stands before it to be taken back.",
        f"Correct entry_at{', entry_kind or entry_tray' if tray else ' or entry_kind'}.",
        Severity.WARNING,
    )


HANDLERS: dict[str, Handler] = {
    "tray_started": fold_trays.tray_started,
    "fed": fold_trays.fed,
    "checked": fold_trays.checked,
    "turned": fold_trays.turned,
    "separation_begun": fold_separation.separation_begun,
    "step_started": fold_separation.step_started,
    "step_ended": fold_separation.step_ended,
    "deadline_moved": fold_separation.deadline_moved,
    "pass_done": fold_separation.pass_done,
    "settled": fold_separation.settled,
    "separation_ended": fold_separation.separation_ended,
    "worms_added": fold_stores.worms_added,
    "worms_removed": fold_stores.worms_removed,
    "supplies_added": fold_stores.supplies_added,
    "supplies_used": fold_stores.supplies_used,
    "supplies_counted": fold_stores.supplies_counted,
    "cautions_read": fold_stores.cautions_read,
    "follow_up_set": fold_care.follow_up_set,
    "snoozed": fold_care.snoozed,
    "done": fold_care.done,
    "measure_set": fold_care.measure_set,
    "meal_kept": fold_care.meal_kept,
    "meal_dropped": fold_care.meal_dropped,
    "put_off": fold_care.put_off,
    "turn_day_begun": fold_day.turn_day_begun,
    "day_step_done": fold_day.day_step_done,
    "turn_day_ended": fold_day.turn_day_ended,
    "overs_carried": fold_pieces.overs_carried,
    "contaminant_found": fold_pieces.contaminant_found,
    "source_stopped": fold_pieces.source_stopped,
    "lot_begun": fold_lots.lot_begun,
    "lot_moved": fold_lots.lot_moved,
    "lure_set": fold_lots.lure_set,
    "hatchlings_recovered": fold_lots.hatchlings_recovered,
    "sieved": fold_lots.sieved,
    "packed": fold_lots.packed,
    "castings_used": fold_lots.castings_used,
    "castings_given": fold_lots.castings_given,
    "lot_closed": fold_lots.lot_closed,
    "undone": _undone_in_vain,
}
