"""What the entries of a turn day, and of what follows it, say."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from trayturn.advice.entry_parts import Parts, mass, own
from trayturn.domain.entries import (
    CastingsGiven,
    CastingsUsed,
    ContaminantFound,
    DayOutcome,
    DayStep,
    DayStepDone,
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
    TurnDayBegun,
    TurnDayEnded,
)
from trayturn.domain.setup import Units
from trayturn.domain.units import show_length, show_mass
from trayturn.domain.words import clean, count, listed, masses

STEPS = {
    DayStep.LOOK: "looked into the bin",
    DayStep.MOVE: "tray moved",
    DayStep.LOOSEN: "loosened",
    DayStep.FEED: "fed",
    DayStep.SET_ON_TOP: "set on top to be separated",
    DayStep.SEPARATE: "separated",
    DayStep.CLOSE: "closed up",
}


def _turn_day_begun(entry: TurnDayBegun, units: Units, limit: int) -> Parts:
    away = f"{listed(entry.separating)} to be separated" if entry.separating else ""
    bedding = f" with {masses(entry.bedding_kg, units, 3)}" if entry.bedding_kg else ""
    fresh = f"{entry.fresh} comes in{bedding}" if entry.fresh else ""
    left_out = "no fresh tray" if entry.no_fresh else ""
    return [f"planned from the bottom up {', '.join(entry.order)}", away, fresh, left_out]


def _day_step_done(entry: DayStepDone, units: Units, limit: int) -> Parts:
    number = f" ({entry.number})" if entry.number else ""
    return [f"{STEPS[entry.step]}{number}", "left undone" if entry.skipped else ""]


def _turn_day_ended(entry: TurnDayEnded, units: Units, limit: int) -> Parts:
    return ["all done" if entry.outcome is DayOutcome.FINISHED else "left as it stood"]


def piece_words(piece: Piece, units: Units) -> str:
    """`2 avocado stone, 4 cm`."""
    size = f", {show_length(piece.size_cm / 100, units)}" if piece.size_cm else ""
    return f"{piece.count} {clean(piece.what)}{size}"


def _overs_carried(entry: OversCarried, units: Units, limit: int) -> Parts:
    return [*(piece_words(piece, units) for piece in entry.pieces), f"on to tray {entry.to}"]


def _contaminant_found(entry: ContaminantFound, units: Units, limit: int) -> Parts:
    return [f"{entry.count} {entry.what}", own("came in with", entry.source, limit)]


def _source_stopped(entry: SourceStopped, units: Units, limit: int) -> Parts:
    return [f"nothing more comes in with {clean(entry.source, limit)}"]


def _lot_begun(entry: LotBegun, units: Units, limit: int) -> Parts:
    return [f"lot {entry.lot}, {entry.stage}", mass("", entry.kg, units), own("in", entry.place, limit)]


def _lot_moved(entry: LotMoved, units: Units, limit: int) -> Parts:
    wet = "" if entry.moisture_pct is None else f"moisture {entry.moisture_pct:g} %"
    return [f"lot {entry.lot}, {entry.stage}", mass("", entry.kg, units), wet]


def _lure_set(entry: LureSet, units: Units, limit: int) -> Parts:
    return [f"lot {entry.lot}, bait laid", clean(entry.bait, limit)]


def _hatchlings_recovered(entry: HatchlingsRecovered, units: Units, limit: int) -> Parts:
    number = "" if entry.counted is None else count(entry.counted, "hatchling")
    weight = mass("", entry.worms_kg, units)
    return [f"lot {entry.lot}, {number or weight or 'hatchlings'} lifted out", weight if number else ""]


def _sieved(entry: Sieved, units: Units, limit: int) -> Parts:
    passed = "" if entry.passed_kg is None else f"{show_mass(entry.passed_kg, units)} fell through"
    stayed = "" if entry.oversize_kg is None else f"{show_mass(entry.oversize_kg, units)} stayed on it"
    mesh = f"lot {entry.lot}, sieved at {entry.mesh_mm:g} mm"
    return [mesh, passed, stayed, own("which went to", entry.oversize_to, limit)]


def _packed(entry: Packed, units: Units, limit: int) -> Parts:
    each = " each" if entry.count > 1 else ""
    filled = f"{entry.count} x {clean(entry.label)}, {show_mass(entry.kg, units)}{each}"
    return [f"lot {entry.lot}, {filled}", f"use by {entry.use_by:%Y-%m-%d}" if entry.use_by else ""]


def _castings_used(entry: CastingsUsed, units: Units, limit: int) -> Parts:
    share = "" if entry.share_pct is None else f"{entry.share_pct:g} % of the mix"
    despite = "more than advised" if entry.despite else ""
    return [_out_of(entry, units, "used"), own("for", entry.where, limit), share, despite]


def _castings_given(entry: CastingsGiven, units: Units, limit: int) -> Parts:
    return [_out_of(entry, units, "sold" if entry.sold else "given away"), own("to", entry.to, limit)]


def _out_of(entry: CastingsUsed | CastingsGiven, units: Units, done: str) -> str:
    label = f" ({clean(entry.label)})" if entry.label else ""
    return f"lot {entry.lot}{label}, {mass('', entry.kg, units) or 'some'} {done}"


def _lot_closed(entry: LotClosed, units: Units, limit: int) -> Parts:
    return [f"lot {entry.lot}, nothing left"]


AFTER_WORDS: dict[str, Callable[[Any, Units, int], Parts]] = {
    "turn_day_begun": _turn_day_begun,
    "day_step_done": _day_step_done,
    "turn_day_ended": _turn_day_ended,
    "overs_carried": _overs_carried,
    "contaminant_found": _contaminant_found,
    "source_stopped": _source_stopped,
    "lot_begun": _lot_begun,
    "lot_moved": _lot_moved,
    "lure_set": _lure_set,
    "hatchlings_recovered": _hatchlings_recovered,
    "sieved": _sieved,
    "packed": _packed,
    "castings_used": _castings_used,
    "castings_given": _castings_given,
    "lot_closed": _lot_closed,
}
