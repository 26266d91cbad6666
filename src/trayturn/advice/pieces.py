"""What is picked out of a tray while it is separated: pieces to go round again, and what does not belong."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from trayturn.domain.entries import Piece
from trayturn.domain.lots import Over
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.supplies import fold
from trayturn.domain.units import show_length
from trayturn.domain.words import clean, count

USUAL = (
    "avocado stone",
    "mango stone",
    "corn cob",
    "nut shell",
    "egg shell pieces",
    "bioplastic bag",
    "wood or stalk",
)
"""Pieces that outlast a turn, to pick from. Common practice, no source; bones are not advised at all."""
MOST_NAMED = 6
"""How many sources are offered before those of the tray itself, at the most."""


def known_overs(stack: Stack, tray: str) -> list[Over]:
    """Pieces carried into that tray before, those that have gone round longest first."""
    mine = [over for over in stack.overs if over.tray == tray]
    return sorted(mine, key=lambda over: (-over.turns, over.what))


def kinds_of_pieces(stack: Stack) -> list[str]:
    """Names of pieces to pick from: those this bin has had, then the usual ones."""
    had = [over.what for over in (*stack.overs, *reversed(stack.overs_gone))]
    return _each_once([*had, *USUAL])


def gathered(passes: Iterable[Sequence[Piece]]) -> list[Piece]:
    """The pieces of several passes by what they are: their numbers added up, the largest size kept."""
    found: dict[str, Piece] = {}
    for piece in (piece for pieces in passes for piece in pieces):
        known = found.get(fold(piece.what))
        found[fold(piece.what)] = piece if known is None else _both(known, piece)
    return list(found.values())


def _both(one: Piece, other: Piece) -> Piece:
    sizes = [piece.size_cm for piece in (one, other) if piece.size_cm is not None]
    return Piece(what=one.what, count=one.count + other.count, size_cm=max(sizes, default=None))


def sources_named(stack: Stack, tray: str, now: Sequence[str] = ()) -> list[str]:
    """What something that does not belong may have come in with: as named before, then the tray's own."""
    last = (found.source for found in reversed(stack.found) if found.source)
    before = _each_once([*now, *last])[:MOST_NAMED]
    state = stack.tray(tray)
    held = [] if state is None else [*_heaviest(state.scraps_kg), *_heaviest(state.bedding_kg)]
    return _each_once([*before, *held])


def _heaviest(masses: Mapping[str, float]) -> list[str]:
    return sorted(masses, key=lambda name: -masses[name])


def _each_once(names: Iterable[str]) -> list[str]:
    """The names in their order, each once however it is written."""
    found: dict[str, str] = {}
    for name in names:
        found.setdefault(fold(name), name)
    return list(found.values())


def piece_told(piece: Piece | Over, units: Units) -> str:
    """`2 x avocado stone, 4 cm`."""
    size = f", {show_length(piece.size_cm / 100, units)}" if piece.size_cm else ""
    return f"{piece.count} x {clean(piece.what, 40)}{size}"


def survived(over: Over) -> str:
    """`survived 2 turns`."""
    return f"survived {count(over.turns, 'turn')}"
