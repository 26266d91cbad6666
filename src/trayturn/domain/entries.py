"""The journal: dated, immutable entries, told apart by `kind`.

Everything else the program knows about a bin is a fold over these. Masses are kilograms, volumes litres,
temperatures degrees Celsius; every time carries its offset from UTC.
"""

from __future__ import annotations

from typing import Annotated

from pydantic import Discriminator, TypeAdapter

from trayturn.domain.entries_after import (
    CastingsGiven,
    CastingsUsed,
    ContaminantFound,
    HatchlingsRecovered,
    LotBegun,
    LotClosed,
    LotMoved,
    LureSet,
    OversCarried,
    Packed,
    Piece,
    Sieved,
    SourceStopped,
)
from trayturn.domain.entries_care import Done, FollowUpSet, MealDropped, MealKept, MeasureSet, PutOff, Snoozed
from trayturn.domain.entries_day import DayStepDone, TurnDayBegun, TurnDayEnded
from trayturn.domain.entries_separation import (
    DeadlineMoved,
    PassDone,
    SeparationBegun,
    SeparationEnded,
    Settled,
    StepEnded,
    StepStarted,
)
from trayturn.domain.entries_stores import (
    CautionsRead,
    Note,
    SuppliesAdded,
    SuppliesCounted,
    SuppliesUsed,
    Undone,
    WormsAdded,
    WormsRemoved,
)
from trayturn.domain.entries_trays import Checked, Fed, TrayStarted, Turned
from trayturn.domain.entry_base import (
    Amount,
    Contaminant,
    DayOutcome,
    DayStep,
    EntryBase,
    Feel,
    LotStage,
    Masses,
    Outcome,
    Pest,
    Stage,
    Step,
)

__all__ = [
    "ENTRY_TYPES",
    "JOURNAL",
    "Amount",
    "CastingsGiven",
    "CastingsUsed",
    "CautionsRead",
    "Checked",
    "Contaminant",
    "ContaminantFound",
    "DayOutcome",
    "DayStep",
    "DayStepDone",
    "DeadlineMoved",
    "Done",
    "Entry",
    "EntryBase",
    "Fed",
    "Feel",
    "FollowUpSet",
    "HatchlingsRecovered",
    "LotBegun",
    "LotClosed",
    "LotMoved",
    "LotStage",
    "LureSet",
    "Masses",
    "MealDropped",
    "MealKept",
    "MeasureSet",
    "Note",
    "Outcome",
    "OversCarried",
    "Packed",
    "PassDone",
    "Pest",
    "Piece",
    "PutOff",
    "SeparationBegun",
    "SeparationEnded",
    "Settled",
    "Sieved",
    "Snoozed",
    "SourceStopped",
    "Stage",
    "Step",
    "StepEnded",
    "StepStarted",
    "SuppliesAdded",
    "SuppliesCounted",
    "SuppliesUsed",
    "TrayStarted",
    "TurnDayBegun",
    "TurnDayEnded",
    "Turned",
    "Undone",
    "WormsAdded",
    "WormsRemoved",
    "name_entry",
]

Entry = (
    TrayStarted
    | Fed
    | Checked
    | Turned
    | SeparationBegun
    | StepStarted
    | StepEnded
    | DeadlineMoved
    | PassDone
    | Settled
    | SeparationEnded
    | WormsAdded
    | WormsRemoved
    | SuppliesAdded
    | SuppliesUsed
    | SuppliesCounted
    | CautionsRead
    | Note
    | FollowUpSet
    | Snoozed
    | Done
    | MeasureSet
    | MealKept
    | MealDropped
    | PutOff
    | TurnDayBegun
    | DayStepDone
    | TurnDayEnded
    | OversCarried
    | ContaminantFound
    | SourceStopped
    | LotBegun
    | LotMoved
    | LureSet
    | HatchlingsRecovered
    | Sieved
    | Packed
    | CastingsUsed
    | CastingsGiven
    | LotClosed
    | Undone
)
ENTRY_TYPES: dict[str, type[EntryBase]] = {
    model.model_fields["kind"].default: model for model in Entry.__args__
}
JOURNAL: TypeAdapter[list[Entry]] = TypeAdapter(list[Annotated[Entry, Discriminator("kind")]])


def name_entry(entry: EntryBase) -> str:
    """The entry as a person would point at it: its kind, tray and moment."""
    tray = getattr(entry, "tray", None)
    return f"{entry.title}{f' {tray}' if tray else ''}, {entry.at:%Y-%m-%d %H:%M}"
