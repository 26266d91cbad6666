"""Journal entries about trays: started, fed, checked, turned."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from trayturn.domain.entry_base import Amount, Choice, EntryBase, Feel, Masses, Pest, Stage, Words
from trayturn.domain.setup import Kilograms, Percent, TrayId


class TrayStarted(EntryBase):
    """A tray put on the stack with fresh bedding. Without a level it enters where the pattern says.

    `came_from` is the bin that it came from as it stood: its bedding is then not from this bin's stock.
    """

    title = "tray started"
    kind: Literal["tray_started"] = "tray_started"
    tray: TrayId
    bedding_kg: Masses = Field(default_factory=dict)
    water_kg: Kilograms | None = None
    level: Annotated[int, Field(ge=1, le=20)] | None = None
    stage: Literal["bedding", "feeding"] | None = None
    came_from: Words = ""


class Fed(EntryBase):
    """A feeding: scraps by name and mass, dry bedding, grit, and water poured on with it."""

    title = "fed"
    kind: Literal["fed"] = "fed"
    tray: TrayId
    items_kg: Masses = Field(default_factory=dict)
    bedding_kg: Masses = Field(default_factory=dict)
    grit_kg: Kilograms | None = None
    water_kg: Kilograms | None = None

    @model_validator(mode="after")
    def _holds_something(self) -> Fed:
        if not (self.items_kg or self.bedding_kg or self.grit_kg or self.water_kg):
            raise ValueError("a feeding needs at least one of items_kg, bedding_kg, grit_kg or water_kg")
        return self


class Checked(EntryBase):
    """Readings: of one tray, or of the bin as a whole when no tray is named.

    `worms_kg` is all the worms of the bin, weighed or reckoned from a count; `food_left_pct` how much of the
    last meals is still to be seen.
    """

    title = "checked"
    kind: Literal["checked"] = "checked"
    tray: TrayId | None = None
    moisture_pct: Annotated[float, Field(ge=0, le=100)] | None = None
    feel: Annotated[Feel, Choice] | None = None
    temperature_c: Annotated[float, Field(ge=-40, le=80)] | None = None
    ph: Annotated[float, Field(ge=0, le=14)] | None = None
    smell: Words = ""
    sump_l: Annotated[float, Field(ge=0, le=200)] | None = None
    strays: Annotated[Amount, Choice] | None = None
    gross_kg: Kilograms | None = None
    worms: Annotated[Amount, Choice] | None = None
    worms_kg: Kilograms | None = None
    food_left_pct: Percent | None = None
    pests: Annotated[tuple[Annotated[Pest, Choice], ...], Field(max_length=20, strict=False)] = ()


class Turned(EntryBase):
    """A turn: the stack's new order, bottom first, and the stages that changed where they are not the usual.

    Without `stages` the top tray becomes the feeding tray and the tray fed until now finishes. `no_fresh`
    says that no fresh tray came in because there was no bedding for it.
    """

    title = "turned"
    kind: Literal["turned"] = "turned"
    order: Annotated[tuple[TrayId, ...], Field(min_length=1, max_length=20, strict=False)]
    stages: dict[TrayId, Annotated[Stage, Choice]] = Field(default_factory=dict)
    no_fresh: bool | None = None
