"""How entries about lots of castings, pieces carried on and contaminants change what is kept of them."""

from __future__ import annotations

from dataclasses import replace

from trayturn.domain.entries import (
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
from trayturn.domain.ledger import Ledger
from trayturn.domain.lots import Found, Jar, Lot, Over
from trayturn.domain.problems import Severity
from trayturn.domain.stack import days_between
from trayturn.domain.supplies import fold

TINY_KG = 1e-9
WRITTEN_LATER_DAYS = 1.0
"""Pieces written down as carried so soon after their tray was emptied are those that lay in it. Ours."""


def overs_carried(ledger: Ledger, entry: OversCarried) -> None:
    """Pieces go on to another tray; those known from the tray they lay in have survived one turn more."""
    for piece in entry.pieces:
        name = fold(piece.what)
        known = ledger.overs.pop((entry.tray, name), None) or _let_go(ledger, entry, name)
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


def _let_go(ledger: Ledger, entry: OversCarried, name: str) -> Over | None:
    """Pieces that counted as gone since their tray was emptied, written down as carried just after."""
    for place in reversed(range(len(ledger.overs_gone))):
        over = ledger.overs_gone[place]
        if over.gone_at is None or days_between(over.gone_at, entry.at) > WRITTEN_LATER_DAYS:
            return None
        if over.tray == entry.tray and fold(over.what) == name:
            return replace(ledger.overs_gone.pop(place), gone_at=None)
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


def lot_begun(ledger: Ledger, entry: LotBegun) -> None:
    """Castings put by, and how the bin stood then. A second lot of one code would hide the first."""
    if entry.lot in ledger.lots:
        ledger.find("lot-twice", f"Lot {entry.lot} was begun already.", "Give it another code.")
        return
    ledger.lots[entry.lot] = Lot(
        entry.lot,
        entry.tray,
        entry.at,
        entry.stage,
        entry.at,
        entry.kg,
        entry.kg,
        entry.place,
        worms_kg=ledger.worms_kg,
        temperature_c=ledger.temperature_c,
    )


def _lot(ledger: Ledger, code: str) -> Lot | None:
    if code not in ledger.lots:
        ledger.find("no-lot", f"No lot {code} was begun by then.", "Correct the lot or its date.")
    return ledger.lots.get(code)


def lot_moved(ledger: Ledger, entry: LotMoved) -> None:
    """The next stage, and what was weighed and read then."""
    if (lot := _lot(ledger, entry.lot)) is None:
        return
    if entry.stage is not lot.stage:
        lot = replace(lot, stage=entry.stage, stage_since=entry.at)
    if entry.kg is not None:
        lot = replace(lot, kg=entry.kg, weighed_at=entry.at)
    if entry.moisture_pct is not None:
        lot = replace(lot, moisture_pct=entry.moisture_pct, moisture_at=entry.at, moisture_kg=entry.kg)
    ledger.lots[lot.code] = lot


def lure_set(ledger: Ledger, entry: LureSet) -> None:
    """Bait laid."""
    if (lot := _lot(ledger, entry.lot)) is not None:
        ledger.lots[lot.code] = replace(lot, lures=(*lot.lures, entry))


def hatchlings_recovered(ledger: Ledger, entry: HatchlingsRecovered) -> None:
    """Hatchlings out of the castings; weighed ones that went back to a tray are worms put in."""
    if (lot := _lot(ledger, entry.lot)) is None:
        return
    ledger.lots[lot.code] = replace(lot, hatchlings=(*lot.hatchlings, entry))
    if entry.tray is not None and entry.worms_kg is not None:
        ledger.worms_kg = (ledger.worms_kg or 0.0) + entry.worms_kg


def sieved(ledger: Ledger, entry: Sieved) -> None:
    """What fell through is the lot from now on, where it was weighed."""
    if (lot := _lot(ledger, entry.lot)) is None:
        return
    lot = replace(lot, sieved=(*lot.sieved, entry), moisture_kg=None)
    ledger.lots[lot.code] = lot if entry.passed_kg is None else replace(lot, kg=entry.passed_kg)


def packed(ledger: Ledger, entry: Packed) -> None:
    """Castings into jars; jars of one label add up."""
    if (lot := _lot(ledger, entry.lot)) is None:
        return
    kg = entry.kg * entry.count
    before = lot.jars.get(entry.label)
    jar = Jar(entry.label, entry.at, kg, entry.count, kg, entry.use_by)
    if before is not None:
        jar = replace(
            before, kg=before.kg + kg, count=before.count + entry.count, left_kg=before.left_kg + kg
        )
    left = None if lot.kg is None else _less(ledger, lot.kg, kg, f"lot {lot.code}")
    ledger.lots[lot.code] = replace(lot, kg=left, moisture_kg=None, jars={**lot.jars, entry.label: jar})


def castings_used(ledger: Ledger, entry: CastingsUsed) -> None:
    """Castings used, out of a jar or of the lot itself."""
    if (lot := _take(ledger, entry)) is not None:
        ledger.lots[lot.code] = replace(lot, used=(*lot.used, entry))


def castings_given(ledger: Ledger, entry: CastingsGiven) -> None:
    """Castings given away or sold."""
    if (lot := _take(ledger, entry)) is not None:
        ledger.lots[lot.code] = replace(lot, given=(*lot.given, entry))


def _take(ledger: Ledger, entry: CastingsUsed | CastingsGiven) -> Lot | None:
    """The lot with the mass taken out of its jar, or of what is loose."""
    if (lot := _lot(ledger, entry.lot)) is None:
        return None
    kg = entry.kg or 0.0
    if entry.label and entry.label not in lot.jars:
        ledger.find("no-jar", f"Lot {lot.code} has no jar {entry.label}.", "Correct the label.")
        return None
    if entry.label:
        jar = lot.jars[entry.label]
        left = _less(ledger, jar.left_kg, kg, f"jar {jar.label}")
        return replace(lot, jars={**lot.jars, jar.label: replace(jar, left_kg=left)})
    loose = None if lot.kg is None else _less(ledger, lot.kg, kg, f"lot {lot.code}")
    return replace(lot, kg=loose, moisture_kg=None)


def _less(ledger: Ledger, held: float, kg: float, where: str) -> float:
    """What is left of a mass, kg, never below nothing."""
    if kg > held + TINY_KG:
        ledger.find(
            "more-than-there-was",
            f"{kg:g} kg came out of {where}, which held {held:g} kg.",
            "Correct a mass.",
            Severity.WARNING,
        )
    return max(0.0, held - kg)


def lot_closed(ledger: Ledger, entry: LotClosed) -> None:
    """Nothing is left of it."""
    if (lot := _lot(ledger, entry.lot)) is not None:
        ledger.lots[lot.code] = replace(lot, closed_at=entry.at)
