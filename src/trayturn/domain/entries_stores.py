"""Journal entries about worms, supplies, cautions, and the keeper's own words; and what takes one back."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from trayturn.domain.entry_base import EntryBase, ItemName, Masses, Words
from trayturn.domain.setup import Kilograms, Moment, TrayId

Counted = Annotated[int, Field(ge=1, le=1_000_000)]
Stock = Annotated[float, Field(ge=0, le=1000)]


class WormsAdded(EntryBase):
    """Worms put in, by weight; `counted` where the weight was reckoned from a number."""

    title = "worms added"
    kind: Literal["worms_added"] = "worms_added"
    worms_kg: Kilograms
    tray: TrayId | None = None
    source: Words = ""
    counted: Counted | None = None


class WormsRemoved(EntryBase):
    """Worms taken out, by weight; `counted` where the weight was reckoned from a number."""

    title = "worms removed"
    kind: Literal["worms_removed"] = "worms_removed"
    worms_kg: Kilograms
    tray: TrayId | None = None
    went_to: Words = ""
    counted: Counted | None = None


class SuppliesAdded(EntryBase):
    """Bedding, grit and the like taken into stock."""

    title = "supplies added"
    kind: Literal["supplies_added"] = "supplies_added"
    supplies_kg: Annotated[Masses, Field(min_length=1)]


class SuppliesUsed(EntryBase):
    """Supplies that left the stock other than through a feeding or a started tray."""

    title = "supplies used"
    kind: Literal["supplies_used"] = "supplies_used"
    supplies_kg: Annotated[Masses, Field(min_length=1)]


class SuppliesCounted(EntryBase):
    """Supplies as they were counted or weighed: from then on that is the stock, nothing included."""

    title = "supplies counted"
    kind: Literal["supplies_counted"] = "supplies_counted"
    supplies_kg: Annotated[dict[ItemName, Stock], Field(min_length=1)]


class CautionsRead(EntryBase):
    """Cautions the keeper ticked before a piece of work."""

    title = "cautions read"
    kind: Literal["cautions_read"] = "cautions_read"
    work: Annotated[str, Field(max_length=40)]
    codes: Annotated[tuple[str, ...], Field(max_length=50, strict=False)]


class Note(EntryBase):
    """The keeper's own words, about the bin or one tray."""

    title = "note"
    kind: Literal["note"] = "note"
    text: Annotated[str, Field(min_length=1, max_length=20_000)]
    tray: TrayId | None = None


class Undone(EntryBase):
    """An earlier entry taken back: the latest of that time and kind, and of that tray where one is named,
    counts as never written."""

    title = "undone"
    kind: Literal["undone"] = "undone"
    entry_at: Moment
    entry_kind: Annotated[str, Field(max_length=40)]
    entry_tray: TrayId | None = None
