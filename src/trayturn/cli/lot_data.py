"""What scripts get of one lot of castings. SI; null is what is not known."""

from __future__ import annotations

from datetime import timedelta

from trayturn.advice.castings.cocoons import expected, hatching_times, not_told, recovered, share_recovered
from trayturn.advice.castings.drying import moisture_now, share_passed, sieves_at_kg
from trayturn.advice.castings.stages import jar_use_by, next_for, use_by
from trayturn.advice.castings.words import keeping
from trayturn.cli import as_json
from trayturn.domain.entries import Sieved
from trayturn.domain.lots import Jar, Lot
from trayturn.domain.stack import Stack


def lot_data(lot: Lot, stack: Stack) -> as_json.Data:
    """All of it: as it stands, its hatching, drying and sieving, its jars, and what comes next."""
    coming = next_for(lot, stack)
    return {
        **_standing(lot),
        **_young(lot, stack),
        **_dates(lot, stack),
        "moisture_pct": lot.moisture_pct,
        "moisture_now_pct": moisture_now(lot),
        "sieves_at_kg": sieves_at_kg(lot),
        "sieved": [_sieved(one) for one in lot.sieved],
        "use_by": as_json.moment(use_by(lot)),
        "use_by_rests_on": keeping(lot),
        "jars": [_jar(jar) for jar in sorted(lot.jars.values(), key=jar_use_by)],
        "next": coming.code if coming is not None else None,
        "what": coming.what if coming is not None else None,
        "due": as_json.moment(coming.due) if coming is not None else None,
        "why": list(coming.why) if coming is not None else [],
    }


def _standing(lot: Lot) -> as_json.Data:
    return {
        "lot": lot.code,
        "tray": lot.tray,
        "place": lot.place,
        "stage": str(lot.stage),
        "since": as_json.moment(lot.stage_since),
        "begun": as_json.moment(lot.begun_at),
        "begun_kg": lot.begun_kg,
        "kg": lot.kg,
        "left_kg": lot.left_kg,
        "used_kg": sum(one.kg or 0.0 for one in lot.used),
        "given_kg": sum(one.kg or 0.0 for one in lot.given),
    }


def _young(lot: Lot, stack: Stack) -> as_json.Data:
    """Cocoons and young to be expected, and hatchlings so far. `rests_on` says why where there are none."""
    found, share = expected(lot, stack), share_recovered(lot, stack)
    return {
        "cocoons": found.cocoons._asdict() if found is not None else None,
        "young": found.young._asdict() if found is not None and found.young is not None else None,
        "rests_on": found.basis if found is not None else not_told(lot, stack),
        "lures": [{"at": as_json.moment(one.at), "bait": one.bait} for one in lot.lures],
        "hatchlings": recovered(lot),
        "hatchlings_share": None if share is None else {"low": share[0], "high": share[1]},
    }


def _dates(lot: Lot, stack: Stack) -> as_json.Data:
    """From when a bait is worth it, and when half and most (95 %) of the cocoons that hatch have done so."""
    times = hatching_times(stack)
    if times is None:
        return {"lure_from": None, "half_hatched": None, "hatched": None}

    def days(band: tuple[float, float]) -> as_json.Data:
        low, high = (as_json.moment(lot.begun_at + timedelta(days=one)) for one in band)
        return {"low": low, "high": high}

    half = days(times.half)
    return {"lure_from": half["low"], "half_hatched": half, "hatched": days(times.most)}


def _sieved(one: Sieved) -> as_json.Data:
    parts = {"mesh_mm": one.mesh_mm, "passed_kg": one.passed_kg, "oversize_kg": one.oversize_kg}
    share = share_passed(one.passed_kg, one.oversize_kg)
    return {"at": as_json.moment(one.at), **parts, "share_passed": share, "oversize_to": one.oversize_to}


def _jar(jar: Jar) -> as_json.Data:
    by, packed = as_json.moment(jar_use_by(jar)), as_json.moment(jar.packed_at)
    held = {"label": jar.label, "count": jar.count, "kg": jar.kg, "left_kg": jar.left_kg}
    return {**held, "packed": packed, "use_by": by}
