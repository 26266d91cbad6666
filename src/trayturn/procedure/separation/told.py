"""What the keeper tells at the steps of a separation. Masses in kg."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.domain.entries import Amount, Contaminant, LotStage, Piece


@dataclass(frozen=True, slots=True)
class Thing:
    """What does not belong, of one kind and one source."""

    what: Contaminant
    count: int = 1
    source: str = ""


@dataclass(frozen=True, slots=True)
class NewLot:
    """The lot that the castings become, where they were weighed: its code, first stage and place."""

    code: str
    stage: LotStage = LotStage.HATCHING
    place: str = ""


@dataclass(frozen=True, slots=True)
class Skim:
    """What the keeper saw and took off in one pass."""

    worms_seen: Amount
    skimmed_kg: float | None = None
    overs: str = ""
    contaminants: str = ""
    pieces: tuple[Piece, ...] = ()
    found: tuple[Thing, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Settling:
    """Where everything went. `pieces` are laid into the tray `pieces_to`; without one they are gone."""

    castings_kg: float | None = None
    worms_to: str = ""
    rest_to: str = ""
    overs_to: str = ""
    pieces: tuple[Piece, ...] = ()
    pieces_to: str | None = None
    found: tuple[Thing, ...] = ()
    lot: NewLot | None = None
