"""Rows of a separation's steps beyond the usual ones: pieces, what does not belong, places and rests."""

from __future__ import annotations

from dataclasses import dataclass, replace

from trayturn.advice.pieces import survived
from trayturn.domain.entries import Contaminant, LotStage, Piece
from trayturn.domain.lots import Over
from trayturn.domain.setup import Units
from trayturn.domain.supplies import fold
from trayturn.domain.units import show_length
from trayturn.domain.words import clean
from trayturn.procedure.separation import Thing
from trayturn.tui.widgets.answer_rows import Answer, Count, Cycle
from trayturn.tui.widgets.line_list import Span

NAME_LONGEST = 20
"""Characters of a name that a row shows."""


@dataclass(frozen=True, slots=True)
class Add(Answer):
    """A row that adds another: Enter picks what."""

    def spans(self, width: int, ascii_only: bool) -> tuple[Span, ...]:
        return ((f"{self.label:<{width}}", "muted"), ("Enter picks", "plain"))


@dataclass(frozen=True, slots=True)
class PieceRow(Count):
    """Pieces of one kind. `left` are those known to lie in the tray and not yet found: the first + is all."""

    what: str = ""
    size_cm: float | None = None
    left: int = 0

    def stepped(self, by: int) -> Answer:
        if self.number is None and self.left:
            return replace(self, number=self.left if by > 0 else 0)
        return Count.stepped(self, by)

    @property
    def piece(self) -> Piece | None:
        """The pieces as they are written down; None where there are none."""
        return Piece(what=self.what, count=self.number, size_cm=self.size_cm) if self.number else None

    def sized(self, size_cm: float | None, units: Units) -> PieceRow:
        """The row with that size."""
        return replace(self, size_cm=size_cm, after=_size(size_cm, units))


@dataclass(frozen=True, slots=True)
class ThingRow(Count):
    """What does not belong, of one kind and source."""

    what: Contaminant = Contaminant.OTHER
    source: str = ""

    @property
    def thing(self) -> Thing | None:
        """As it is written down; None where there is none."""
        return Thing(self.what, self.number, self.source) if self.number else None


@dataclass(frozen=True, slots=True)
class Places(Cycle):
    """Where something goes. `keys` are what the options stand for, empty for those that are only words.

    `aside` are rows that only some of the places ask for, as answered while one of those was chosen.
    """

    keys: tuple[str, ...] = ()
    aside: tuple[Answer, ...] = ()

    @property
    def place(self) -> str:
        """The tray, or the other bin's short name, that is chosen; empty for any other place."""
        return self.keys[self.chosen] if self.keys and self.chosen is not None else ""


@dataclass(frozen=True, slots=True)
class LotRow(Cycle):
    """Where the castings wait: the stage and the place of the lot they become."""

    code: str = ""
    waits: tuple[tuple[LotStage, str], ...] = ()

    @property
    def waiting(self) -> tuple[LotStage, str]:
        return self.waits[self.chosen or 0]

    def at(self, place: str) -> LotRow:
        """The row with a place of the keeper's own, at the stage that is chosen."""
        wait = self.waiting[0], place
        known = self.waits if wait in self.waits else (*self.waits, wait)
        return replace(self, options=tuple(map(waits_words, known)), waits=known, chosen=known.index(wait))


@dataclass(frozen=True, slots=True)
class RestRow(Cycle):
    """The next rest: as the bin has it, or as advised. `minutes` are those of the options."""

    minutes: tuple[float, ...] = ()

    @property
    def rest(self) -> float:
        return self.minutes[self.chosen or 0]


def waits_words(wait: tuple[LotStage, str]) -> str:
    """`hatch tub, to hatch`."""
    stage, place = wait
    return f"{clean(place, NAME_LONGEST)}, to {'dry' if stage is LotStage.DRYING else 'hatch'}"


def _size(size_cm: float | None, units: Units) -> str:
    return f", {show_length(size_cm / 100, units)}" if size_cm else ""


def piece_row(piece: Piece, units: Units, known: Over | None = None, left: int = 0) -> PieceRow:
    """A row of pieces found. `known` are such pieces that went in before, `left` of them not yet found."""
    return _piece(piece.what, piece.count, piece.size_cm, units, known, left)


def known_row(over: Over, units: Units, found: int) -> PieceRow:
    """A row of pieces known to lie in the tray, of which so many were found."""
    return _piece(over.what, None, over.size_cm, units, over, max(0, over.count - found))


def _piece(
    what: str, number: int | None, size_cm: float | None, units: Units, known: Over | None, left: int
) -> PieceRow:
    told = ""
    if known is not None:
        told = f"{known.count} went in, {survived(known)}. Still there? "
    return PieceRow(
        f"piece:{fold(what)}",
        clean(what, NAME_LONGEST),
        f"{told}Digits or + and - say how many; Enter takes a size.",
        number,
        after=_size(size_cm, units),
        uncounted="not seen yet",
        what=what,
        size_cm=size_cm,
        left=left,
    )


def thing_row(thing: Thing) -> ThingRow:
    """A row of what does not belong."""
    source = f", with {clean(thing.source, NAME_LONGEST)}" if thing.source else ", source not known"
    return ThingRow(
        f"thing:{thing.what}:{fold(thing.source)}",
        str(thing.what),
        "Digits or + and - say how many; Enter takes another source.",
        thing.count,
        after=source,
        what=thing.what,
        source=thing.source,
    )
