"""How entries about lots of castings change what is kept of them."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from trayturn.domain.entries import (
    CastingsGiven,
    CastingsUsed,
    HatchlingsRecovered,
    LotBegun,
    LotClosed,
    LotMoved,
    LureSet,
    Packed,
    Sieved,
)
from trayturn.domain.ledger import Ledger
from trayturn.domain.lots import LEAST_KG, Jar, Lot, heavier
from trayturn.domain.problems import Severity

TINY_KG = 1e-9


def lot_begun(ledger: Ledger, entry: LotBegun) -> None:
    """Castings put by, and how the bin stood then. A second lot of one code would hide the first."""
    if (twin := _of(ledger, entry.lot)) is not None:
        ledger.find("lot-twice", f"Lot {twin.code} was begun already.", "Give it another code.")
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


def _of(ledger: Ledger, code: str) -> Lot | None:
    """The lot of that code, in whatever case it was typed."""
    return next((lot for lot in ledger.lots.values() if lot.code.casefold() == code.casefold()), None)


def _lot(ledger: Ledger, code: str) -> Lot | None:
    """The lot that something is done with. So something of it is left: closed, it is open again."""
    lot = _of(ledger, code)
    if lot is None:
        ledger.find("no-lot", f"No lot {code} was begun by then.", "Correct the lot or its date.")
    return None if lot is None else replace(lot, closed_at=None)


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
    # Where the worms of a bin were never weighed, a few grams of young are not all of them.
    if entry.tray is not None and entry.worms_kg is not None and ledger.worms_kg is not None:
        ledger.worms_kg += entry.worms_kg


def sieved(ledger: Ledger, entry: Sieved) -> None:
    """What fell through is the lot from now on: as it was weighed, or what is left without the oversize."""
    if (lot := _lot(ledger, entry.lot)) is None:
        return
    together = (entry.passed_kg or 0.0) + (entry.oversize_kg or 0.0)
    if lot.kg is not None and heavier(together, lot.kg):
        _more(ledger, together, lot.kg, f"lot {lot.code}")
    passed = entry.passed_kg
    if passed is None and lot.kg is not None:
        passed = max(0.0, lot.kg - (entry.oversize_kg or 0.0))
    ledger.lots[lot.code] = replace(lot, kg=passed, sieved=(*lot.sieved, entry), moisture_kg=None)


def packed(ledger: Ledger, entry: Packed) -> None:
    """Castings into jars; jars of one label add up, and those that are empty are filled anew."""
    if (lot := _lot(ledger, entry.lot)) is None:
        return
    kg = entry.kg * entry.count
    jar = Jar(entry.label, entry.at, kg, entry.count, kg, entry.use_by)
    before = lot.jars.get(entry.label)
    if before is not None and before.left_kg >= LEAST_KG:
        jar = _added(before, jar)
    left = None if lot.kg is None else _less(ledger, lot.kg, kg, f"lot {lot.code}")
    ledger.lots[lot.code] = replace(lot, kg=left, moisture_kg=None, jars={**lot.jars, entry.label: jar})


def _added(before: Jar, more: Jar) -> Jar:
    """Jars of one label with what they held: as old as the oldest, and to be used by the earliest date."""
    dates: list[datetime] = [at for at in (before.use_by, more.use_by) if at is not None]
    return replace(
        before,
        kg=before.kg + more.kg,
        count=before.count + more.count,
        left_kg=before.left_kg + more.kg,
        use_by=min(dates, default=None),
    )


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
        _more(ledger, kg, held, where)
    return max(0.0, held - kg)


def _more(ledger: Ledger, kg: float, held: float, where: str) -> None:
    what = f"{kg:g} kg came out of {where}, which held {held:g} kg."
    ledger.find("more-than-there-was", what, "Correct a mass.", Severity.WARNING)


def lot_closed(ledger: Ledger, entry: LotClosed) -> None:
    """Nothing is left of it."""
    if (lot := _lot(ledger, entry.lot)) is not None:
        ledger.lots[lot.code] = replace(lot, closed_at=entry.at)
