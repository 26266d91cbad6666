"""Journal entries of what a separation leaves: pieces carried on, what does not belong, and the castings."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from trayturn.domain.entry_base import Choice, Contaminant, EntryBase, LotStage, Words
from trayturn.domain.setup import Kilograms, Model, Moment, Percent, TrayId

LotCode = Annotated[str, Field(min_length=1, max_length=12, pattern=r"^[^\W_][\w-]*$")]
Named = Annotated[str, Field(min_length=1, max_length=60)]
Number = Annotated[int, Field(ge=1, le=100_000)]
Solid = Annotated[float, Field(ge=0, le=1000)]


class Piece(Model):
    """Pieces of one kind too large or tough to be done: how many, and the longest side, cm."""

    what: Named
    count: Number = 1
    size_cm: Annotated[float, Field(gt=0, le=100)] | None = None


class OversCarried(EntryBase):
    """Pieces found in a tray and laid into another, to go round again."""

    title = "pieces carried on"
    kind: Literal["overs_carried"] = "overs_carried"
    tray: TrayId
    to: TrayId
    pieces: Annotated[tuple[Piece, ...], Field(min_length=1, max_length=50, strict=False)]


class ContaminantFound(EntryBase):
    """What does not belong in a bin, and what it came in with, where that can be told."""

    title = "contaminant found"
    kind: Literal["contaminant_found"] = "contaminant_found"
    what: Annotated[Contaminant, Choice]
    count: Number = 1
    source: Words = ""
    tray: TrayId | None = None


class SourceStopped(EntryBase):
    """The keeper's word that nothing more comes in from there: it is sorted out, or no longer used."""

    title = "source stopped"
    kind: Literal["source_stopped"] = "source_stopped"
    source: Named


class LotBegun(EntryBase):
    """Castings of one separation put by as a lot, wet mass in kg; usually into the hatch tub."""

    title = "lot begun"
    kind: Literal["lot_begun"] = "lot_begun"
    lot: LotCode
    tray: TrayId | None = None
    kg: Kilograms | None = None
    stage: Annotated[LotStage, Choice] = LotStage.HATCHING
    place: Words = ""


class LotMoved(EntryBase):
    """A lot gone on to its next stage, and what it then weighed and held of water, percent of the whole."""

    title = "lot gone on"
    kind: Literal["lot_moved"] = "lot_moved"
    lot: LotCode
    stage: Annotated[LotStage, Choice]
    kg: Kilograms | None = None
    moisture_pct: Percent | None = None


class LureSet(EntryBase):
    """Bait laid on the castings, for hatchlings to gather in."""

    title = "bait laid"
    kind: Literal["lure_set"] = "lure_set"
    lot: LotCode
    bait: Words = ""


class HatchlingsRecovered(EntryBase):
    """Hatchlings lifted out with the bait, counted or weighed, kg, and the tray they went to."""

    title = "hatchlings lifted"
    kind: Literal["hatchlings_recovered"] = "hatchlings_recovered"
    lot: LotCode
    counted: Annotated[int, Field(ge=0, le=1_000_000)] | None = None
    worms_kg: Kilograms | None = None
    tray: TrayId | None = None


class Sieved(EntryBase):
    """A lot passed through a mesh: what fell through and what stayed on it, kg, and where that went."""

    title = "castings sieved"
    kind: Literal["sieved"] = "sieved"
    lot: LotCode
    mesh_mm: Annotated[float, Field(gt=0, le=100)]
    passed_kg: Solid | None = None
    oversize_kg: Solid | None = None
    oversize_to: Words = ""


class Packed(EntryBase):
    """Castings of a lot filled into jars or bags of one label: so many, of so much each, kg."""

    title = "castings packed"
    kind: Literal["packed"] = "packed"
    lot: LotCode
    label: Named
    kg: Kilograms
    count: Number = 1
    use_by: Moment | None = None


class CastingsUsed(EntryBase):
    """Castings used: where, how much, and their share of a mix by volume. `despite` a warning, where so."""

    title = "castings used"
    kind: Literal["castings_used"] = "castings_used"
    lot: LotCode
    label: Words = ""
    kg: Kilograms | None = None
    where: Words = ""
    share_pct: Percent | None = None
    despite: bool | None = None


class CastingsGiven(EntryBase):
    """Castings given away or sold. `rules_read`: the caution about local rules was read before."""

    title = "castings given away"
    kind: Literal["castings_given"] = "castings_given"
    lot: LotCode
    label: Words = ""
    kg: Kilograms | None = None
    to: Words = ""
    sold: bool | None = None
    rules_read: bool | None = None


class LotClosed(EntryBase):
    """Nothing of the lot is left, whatever the weights say."""

    title = "lot all gone"
    kind: Literal["lot_closed"] = "lot_closed"
    lot: LotCode
