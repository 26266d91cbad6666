"""How entries of ordinary weeks change what is due, kept and measured."""

from __future__ import annotations

from trayturn.domain.entries import (
    Done,
    Entry,
    FollowUpSet,
    MealDropped,
    MealKept,
    MeasureSet,
    PutOff,
    Snoozed,
)
from trayturn.domain.ledger import Ledger
from trayturn.domain.problems import Severity
from trayturn.domain.stack import follow_up_item

DOES = {
    "tray_started": "start",
    "fed": "feed",
    "checked": "check",
    "turned": "turn",
    "separation_begun": "separation",
    "worms_added": "worms",
}
"""The kind of due thing that an entry does. Once done, it is no longer put off."""
STOCKS = ("supplies_added", "supplies_counted")


def acted(ledger: Ledger, entry: Entry) -> None:
    """What the entry does was put off for this time, and not for the next one."""
    if not ledger.snoozed and not ledger.done:
        return
    if entry.kind in STOCKS:
        for words in (ledger.snoozed, ledger.done):
            for item in [item for item in words if item.partition(":")[0] == "supplies"]:
                del words[item]
    elif (kind := DOES.get(entry.kind)) is not None:
        ledger.snoozed.pop(kind, None)
        ledger.snoozed.pop(f"{kind}:{getattr(entry, 'tray', None)}", None)


def follow_up_set(ledger: Ledger, entry: FollowUpSet) -> None:
    """To be looked at again; a later one of the same code and tray takes its place."""
    item = follow_up_item(entry)
    ledger.follow_ups[item] = entry
    ledger.snoozed.pop(item, None)
    ledger.done.pop(item, None)


def snoozed(ledger: Ledger, entry: Snoozed) -> None:
    """The latest word on a due thing counts."""
    ledger.snoozed[entry.item] = entry.until


def done(ledger: Ledger, entry: Done) -> None:
    """Done, and so no longer put off; a follow-up is closed by it. Done ahead, it is so until it was due."""
    ledger.done[entry.item] = max(entry.at, entry.due or entry.at)
    ledger.snoozed.pop(entry.item, None)
    ledger.follow_ups.pop(entry.item, None)


def measure_set(ledger: Ledger, entry: MeasureSet) -> None:
    """What the measure weighs from now on."""
    ledger.measures[entry.measure.casefold(), entry.of.casefold()] = entry


def meal_kept(ledger: Ledger, entry: MealKept) -> None:
    """The latest of a name counts, and stands last."""
    ledger.meals.pop(entry.name.casefold(), None)
    ledger.meals[entry.name.casefold()] = entry


def meal_dropped(ledger: Ledger, entry: MealDropped) -> None:
    """A meal that was never kept cannot be dropped."""
    if ledger.meals.pop(entry.name.casefold(), None) is None:
        ledger.find(
            "dropped-unkept", f"No meal {entry.name} was kept.", "Correct its name.", Severity.WARNING
        )


def put_off(ledger: Ledger, entry: PutOff) -> None:
    """What waits in the caddy is what was said last."""
    ledger.caddy_kg = dict(entry.items_kg)
    ledger.caddy_at = entry.at if entry.items_kg else None
