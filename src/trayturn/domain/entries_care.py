"""Journal entries of ordinary weeks: what is put off or done, and how the keeper measures and feeds."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from trayturn.domain.entry_base import Code, EntryBase, Masses, Words
from trayturn.domain.setup import Kilograms, LongText, Moment, TrayId

ShortName = Annotated[str, Field(min_length=1, max_length=60)]
ItemCode = Annotated[str, Field(min_length=1, max_length=120)]
"""A due thing by its kind, and its tray or code behind a colon: `check`, `feed:B`, `follow_up:wet:B`."""


class FollowUpSet(EntryBase):
    """Something to look at again by a day. One of the same code and tray stands in for an earlier one.

    `signs` are what the keeper had seen.
    """

    title = "follow-up set"
    kind: Literal["follow_up_set"] = "follow_up_set"
    code: Code
    what: Annotated[str, Field(min_length=1, max_length=200)]
    due: Moment
    why: LongText = ""
    signs: Annotated[tuple[Code, ...], Field(max_length=50, strict=False)] = ()
    tray: TrayId | None = None


class Snoozed(EntryBase):
    """A due thing put off: until then it is not pressing. A moment that has come puts off nothing."""

    title = "due thing put off"
    kind: Literal["snoozed"] = "snoozed"
    item: ItemCode
    until: Moment


class Done(EntryBase):
    """A due thing done that writes no entry of its own. `due` is when it was due, where it is done ahead."""

    title = "due thing marked done"
    kind: Literal["done"] = "done"
    item: ItemCode
    due: Moment | None = None


class MeasureSet(EntryBase):
    """What this keeper's handful, cup or bowl weighs, of one thing or (without a name) of anything."""

    title = "measure weighed"
    kind: Literal["measure_set"] = "measure_set"
    measure: Annotated[str, Field(min_length=1, max_length=40)]
    kg: Kilograms
    of: Words = ""


class MealKept(EntryBase):
    """A meal kept under a name, to be fed again. The latest of a name counts."""

    title = "meal kept"
    kind: Literal["meal_kept"] = "meal_kept"
    name: ShortName
    items_kg: Masses = Field(default_factory=dict)
    bedding_kg: Masses = Field(default_factory=dict)
    grit_kg: Kilograms | None = None

    @model_validator(mode="after")
    def _holds_something(self) -> MealKept:
        if not (self.items_kg or self.bedding_kg or self.grit_kg):
            raise ValueError("a meal needs at least one of items_kg, bedding_kg or grit_kg")
        return self


class MealDropped(EntryBase):
    """A kept meal no longer wanted."""

    title = "meal dropped"
    kind: Literal["meal_dropped"] = "meal_dropped"
    name: ShortName


class PutOff(EntryBase):
    """The scraps that wait in the caddy from then on: what was too much for this meal. Empty when none do."""

    title = "scraps kept in the caddy"
    kind: Literal["put_off"] = "put_off"
    items_kg: Masses = Field(default_factory=dict)
