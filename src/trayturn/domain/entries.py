"""The journal: dated, immutable entries, told apart by `kind`.

Everything else the program knows about a bin is a fold over these. Masses are kilograms, volumes litres,
temperatures degrees Celsius; every time carries its offset from UTC.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, ClassVar, Literal

from pydantic import Discriminator, Field, TypeAdapter, model_validator

from trayturn.domain.setup import Kilograms, LongText, Model, Moment, TrayId

ItemName = Annotated[str, Field(min_length=1, max_length=200)]
Masses = dict[ItemName, Kilograms]
PassNumber = Annotated[int, Field(ge=1, le=999)]


class Stage(StrEnum):
    """What a tray is doing. A tray that is off the stack is spare."""

    BEDDING = "bedding"
    FEEDING = "feeding"
    FINISHING = "finishing"
    SEPARATING = "separating"
    SPARE = "spare"


class Amount(StrEnum):
    """A count made at a glance, with wet gloves on."""

    NONE = "none"
    FEW = "few"
    MANY = "many"


class Feel(StrEnum):
    """The squeeze test: crumbles, holds together, gives a drop or two, runs. Common practice, no source."""

    DRY = "dry"
    DAMP = "damp"
    MOIST = "moist"
    WET = "wet"


class Step(StrEnum):
    """The steps of a separation, in the order they are done. Loosen, rest and skim make one pass."""

    GET_READY = "get_ready"
    LOOSEN = "loosen"
    REST = "rest"
    SKIM = "skim"
    DECIDE = "decide"
    SETTLE = "settle"
    CLEAN_UP = "clean_up"


class Outcome(StrEnum):
    """How a separation ended: carried through, or the tray put back where it was."""

    FINISHED = "finished"
    PUT_BACK = "put_back"


Choice = Field(strict=False)


class EntryBase(Model):
    """What every entry has: the moment it tells of, and room for the keeper's own words."""

    title: ClassVar[str] = ""

    at: Moment
    note: LongText = ""


class TrayStarted(EntryBase):
    """A tray put on the stack with fresh bedding. Without a level it enters where the pattern says."""

    title = "tray started"
    kind: Literal["tray_started"] = "tray_started"
    tray: TrayId
    bedding_kg: Masses = Field(default_factory=dict)
    water_kg: Kilograms | None = None
    level: Annotated[int, Field(ge=1, le=20)] | None = None
    stage: Literal["bedding", "feeding"] | None = None


class Fed(EntryBase):
    """A feeding: scraps by name and mass, dry bedding, and grit."""

    title = "fed"
    kind: Literal["fed"] = "fed"
    tray: TrayId
    items_kg: Masses = Field(default_factory=dict)
    bedding_kg: Masses = Field(default_factory=dict)
    grit_kg: Kilograms | None = None

    @model_validator(mode="after")
    def _holds_something(self) -> Fed:
        if not (self.items_kg or self.bedding_kg or self.grit_kg):
            raise ValueError("a feeding needs at least one of items_kg, bedding_kg or grit_kg")
        return self


class Checked(EntryBase):
    """Readings: of one tray, or of the bin as a whole when no tray is named."""

    title = "checked"
    kind: Literal["checked"] = "checked"
    tray: TrayId | None = None
    moisture_pct: Annotated[float, Field(ge=0, le=100)] | None = None
    feel: Annotated[Feel, Choice] | None = None
    temperature_c: Annotated[float, Field(ge=-40, le=80)] | None = None
    ph: Annotated[float, Field(ge=0, le=14)] | None = None
    smell: Annotated[str, Field(max_length=200)] = ""
    sump_l: Annotated[float, Field(ge=0, le=200)] | None = None
    strays: Annotated[Amount, Choice] | None = None
    gross_kg: Kilograms | None = None


class Turned(EntryBase):
    """A turn: the stack's new order, bottom first, and the stages that changed where they are not the usual.

    Without `stages` the top tray becomes the feeding tray and the tray fed until now finishes.
    """

    title = "turned"
    kind: Literal["turned"] = "turned"
    order: Annotated[tuple[TrayId, ...], Field(min_length=1, max_length=20, strict=False)]
    stages: dict[TrayId, Annotated[Stage, Choice]] = Field(default_factory=dict)


class SeparationBegun(EntryBase):
    """The finished tray set on top of the stack, so that its worms can move down out of it."""

    title = "separation begun"
    kind: Literal["separation_begun"] = "separation_begun"
    tray: TrayId


class StepStarted(EntryBase):
    """A step of a separation begun. A timed step carries its deadline, so that no sleep or crash loses it."""

    title = "step started"
    kind: Literal["step_started"] = "step_started"
    tray: TrayId
    step: Annotated[Step, Choice]
    pass_number: PassNumber | None = None
    ends_at: Moment | None = None


class StepEnded(EntryBase):
    """A step of a separation done."""

    title = "step ended"
    kind: Literal["step_ended"] = "step_ended"
    tray: TrayId
    step: Annotated[Step, Choice]
    pass_number: PassNumber | None = None


class DeadlineMoved(EntryBase):
    """The timed step under way made longer or shorter."""

    title = "deadline moved"
    kind: Literal["deadline_moved"] = "deadline_moved"
    tray: TrayId
    ends_at: Moment


class PassDone(EntryBase):
    """One loosen, rest and skim round: what came off and what was seen."""

    title = "pass done"
    kind: Literal["pass_done"] = "pass_done"
    tray: TrayId
    pass_number: PassNumber
    worms_seen: Annotated[Amount, Choice]
    skimmed_kg: Kilograms | None = None
    overs: LongText = ""
    contaminants: LongText = ""


class Settled(EntryBase):
    """Where everything went after the last pass, and what the castings weigh."""

    title = "settled"
    kind: Literal["settled"] = "settled"
    tray: TrayId
    castings_kg: Kilograms | None = None
    worms_to: Annotated[str, Field(max_length=200)] = ""
    rest_to: Annotated[str, Field(max_length=200)] = ""
    overs_to: Annotated[str, Field(max_length=200)] = ""


class SeparationEnded(EntryBase):
    """The separation over: the tray is empty and spare, or back on the stack."""

    title = "separation ended"
    kind: Literal["separation_ended"] = "separation_ended"
    tray: TrayId
    outcome: Annotated[Outcome, Choice] = Outcome.FINISHED


class WormsAdded(EntryBase):
    """Worms put in, by weight."""

    title = "worms added"
    kind: Literal["worms_added"] = "worms_added"
    worms_kg: Kilograms
    tray: TrayId | None = None
    source: Annotated[str, Field(max_length=200)] = ""


class WormsRemoved(EntryBase):
    """Worms taken out, by weight."""

    title = "worms removed"
    kind: Literal["worms_removed"] = "worms_removed"
    worms_kg: Kilograms
    tray: TrayId | None = None
    went_to: Annotated[str, Field(max_length=200)] = ""


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
    """An earlier entry taken back. The latest entry of that time and kind counts as never written."""

    title = "undone"
    kind: Literal["undone"] = "undone"
    entry_at: Moment
    entry_kind: Annotated[str, Field(max_length=40)]


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
    | CautionsRead
    | Note
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
