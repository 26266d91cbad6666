"""How entries about pieces carried on and about what does not belong change what is kept of them."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from trayturn.domain.entries import ContaminantFound, OversCarried, Piece, SourceStopped
from trayturn.domain.ledger import WRONG_TRAY, Ledger
from trayturn.domain.lots import Found, Over
from trayturn.domain.problems import Severity
from trayturn.domain.stack import days_between
from trayturn.domain.supplies import fold

WRITTEN_LATER_DAYS = 1.0
"""Pieces written down as carried so soon after their tray was emptied are those that lay in it. Ours."""


def let_go(ledger: Ledger, tray: str, at: datetime) -> None:
    """Pieces that lie in a tray when it leaves the stack, and were not carried on, are gone with it."""
    for key in [key for key, over in ledger.overs.items() if over.tray == tray]:
        ledger.overs_gone.append(replace(ledger.overs.pop(key), gone_at=at))


def overs_carried(ledger: Ledger, entry: OversCarried) -> None:
    """Pieces go on to another tray; those known from the tray they lay in have survived one turn more.

    Where fewer are carried on than were known, the rest stays behind.
    """
    if entry.to == entry.tray:
        ledger.find("carried-nowhere", f"Pieces of tray {entry.tray} were carried to itself.", WRONG_TRAY)
        return
    for piece in entry.pieces:
        name = fold(piece.what)
        known = _lying(ledger, entry, piece, name) or _let_go(ledger, entry, piece, name)
        carried = _carried(entry, piece, known)
        there = ledger.overs.get((entry.to, name))
        ledger.overs[entry.to, name] = carried if there is None else _together(there, carried)


def _carried(entry: OversCarried, piece: Piece, known: Over | None) -> Over:
    if known is None:
        return Over(piece.what, piece.count, piece.size_cm, entry.to, entry.at, entry.at)
    return replace(
        known,
        count=piece.count,
        size_cm=piece.size_cm or known.size_cm,
        tray=entry.to,
        last_at=entry.at,
        turns=known.turns + 1,
    )


def _lying(ledger: Ledger, entry: OversCarried, piece: Piece, name: str) -> Over | None:
    """Pieces known to lie in that tray; those not carried on stay there."""
    known = ledger.overs.pop((entry.tray, name), None)
    if known is not None and known.count > piece.count:
        ledger.overs[entry.tray, name] = replace(known, count=known.count - piece.count)
    return known


def _let_go(ledger: Ledger, entry: OversCarried, piece: Piece, name: str) -> Over | None:
    """Pieces that counted as gone since their tray was emptied, written down as carried just after."""
    for place in reversed(range(len(ledger.overs_gone))):
        over = ledger.overs_gone[place]
        if over.gone_at is None or days_between(over.gone_at, entry.at) > WRITTEN_LATER_DAYS:
            return None
        if over.tray == entry.tray and fold(over.what) == name:
            left = over.count - piece.count
            ledger.overs_gone[place : place + 1] = [replace(over, count=left)] if left > 0 else []
            return replace(over, gone_at=None)
    return None


def _together(there: Over, more: Over) -> Over:
    """Pieces of one kind that come to lie in one tray: all of them, known since the first."""
    sizes = [size for size in (there.size_cm, more.size_cm) if size]
    return replace(
        more,
        count=there.count + more.count,
        size_cm=max(sizes, default=None),
        first_at=min(there.first_at, more.first_at),
        turns=max(there.turns, more.turns),
    )


def contaminant_found(ledger: Ledger, entry: ContaminantFound) -> None:
    """Found again after its source was said to have stopped, the source counts as open again."""
    stopped = ledger.sources_stopped.pop(fold(entry.source), None)
    ledger.found.append(Found(entry.at, entry.what, entry.count, entry.source, entry.tray, stopped))


def source_stopped(ledger: Ledger, entry: SourceStopped) -> None:
    """A source that nothing is known to have come from is a slip in its name."""
    if fold(entry.source) not in {fold(one.source) for one in ledger.found}:
        ledger.find(
            "stopped-unknown",
            f"Nothing found came from {entry.source}.",
            "Correct its name.",
            Severity.WARNING,
        )
    ledger.sources_stopped[fold(entry.source)] = entry.at
