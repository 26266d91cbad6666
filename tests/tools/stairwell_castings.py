"""What became of the castings of the stairwell, lot by lot, and of what was picked out of its trays."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from tests.tools.toml_text import Row
from tests.tools.zone import at

TUB = "the tub on the kitchen shelf"
LOTS = {
    date(2026, 1, 24): "A1",
    date(2026, 3, 22): "B1",
    date(2026, 5, 23): "C1",
    date(2026, 7, 24): "D1",
    date(2026, 9, 20): "A2",
}
"""The lot that each turn's castings became, all of them into the hatch tub."""

SHELLS, STONE, COBS = "avocado shell", "mango stone", "corn cob"
PIECES: dict[date, tuple[Row, ...]] = {
    date(2026, 3, 22): ({"what": SHELLS, "count": 4, "size_cm": 7.0},),
    date(2026, 5, 23): (
        {"what": SHELLS, "count": 2, "size_cm": 6.0},
        {"what": STONE, "count": 1, "size_cm": 9.0},
    ),
    date(2026, 7, 24): ({"what": STONE, "count": 1, "size_cm": 9.0},),
    date(2026, 9, 20): (
        {"what": COBS, "count": 3, "size_cm": 11.0},
        {"what": STONE, "count": 1, "size_cm": 8.0},
    ),
}
"""Pieces picked out at the last skim of a turn and carried on; in January they were not yet counted."""

Thing = tuple[str, int, str, str]
"""What it is, how many, what it came in with, and a word about it."""

STRANGE: dict[date, tuple[Thing, ...]] = {
    date(2026, 3, 22): (
        ("sticker", 6, "bananas", ""),
        ("other", 1, "herbs", "A rubber band, round a bunch."),
    ),
    date(2026, 5, 23): (("sticker", 3, "bananas", ""),),
    date(2026, 7, 24): (
        ("sticker", 4, "bananas", ""),
        ("textile", 1, "tea bags", "The net, all that is left of one."),
    ),
    date(2026, 9, 20): (("sticker", 2, "cucumbers", ""),),
}
"""What did not belong, as it was found at that skim, with what it had come in with."""


def _of(lot: str, when: datetime, kind: str, **fields: Any) -> Row:
    return {"at": when, "kind": kind, "lot": lot, **fields}


def _bait(lot: str, when: datetime, bait: str) -> Row:
    return _of(lot, when, "lure_set", bait=bait)


def _young(lot: str, when: datetime, counted: int, tray: str) -> Row:
    """Hatchlings counted into a tray; none found go nowhere."""
    return _of(lot, when, "hatchlings_recovered", counted=counted, **({"tray": tray} if counted else {}))


def _moved(lot: str, when: datetime, stage: str, **fields: Any) -> Row:
    return _of(lot, when, "lot_moved", stage=stage, **fields)


def _sieved(lot: str, when: datetime, passed: float, over: float, to: str) -> Row:
    kept = {"passed_kg": passed, "oversize_kg": over, "oversize_to": to}
    return _of(lot, when, "sieved", mesh_mm=6.0, **kept)


def _used(lot: str, when: datetime, **fields: Any) -> Row:
    return _of(lot, when, "castings_used", **fields)


def _closed(lot: str, when: datetime) -> Row:
    return _of(lot, when, "lot_closed")


NEIGHBOUR = {"to": "downstairs", "sold": False, "rules_read": True}

JANUARY = (
    _bait("A1", at(date(2026, 2, 22), 10, 5), "banana peel in a net"),
    _young("A1", at(date(2026, 3, 1), 10, 20), 40, "C"),
    _young("A1", at(date(2026, 3, 8), 10, 10), 55, "C"),
    _young("A1", at(date(2026, 3, 15), 10, 15), 0, "C"),
    _moved("A1", at(date(2026, 3, 21), 17, 30), "drying", kg=3.85, moisture_pct=74.0)
    | {"note": "On boards in the attic: the tub is wanted tomorrow."},
    _moved("A1", at(date(2026, 4, 11), 10, 40), "drying", kg=2.5, moisture_pct=60.0),
    _sieved("A1", at(date(2026, 4, 11), 11, 10), 2.2, 0.25, "tray D"),
    _moved("A1", at(date(2026, 4, 11), 11, 15), "curing"),
    _moved("A1", at(date(2026, 4, 25), 10, 30), "ready"),
    _used("A1", at(date(2026, 4, 26), 18, 15), kg=0.5, where="tomatoes, potted on", share_pct=20.0),
    _of("A1", at(date(2026, 5, 24), 10, 2), "castings_given", kg=1.2, **NEIGHBOUR),
    _used("A1", at(date(2026, 6, 14), 17, 20), kg=0.5, where="herbs on the sill", share_pct=15.0),
    _closed("A1", at(date(2026, 6, 14), 17, 22)),
)
MARCH = (
    _bait("B1", at(date(2026, 4, 19), 10, 5), "banana peel in a net"),
    _young("B1", at(date(2026, 4, 26), 10, 25), 110, "D"),
    _young("B1", at(date(2026, 5, 3), 10, 15), 80, "D"),
    _young("B1", at(date(2026, 5, 10), 10, 10), 20, "D"),
    _moved("B1", at(date(2026, 5, 17), 10, 30), "drying", kg=4.1, moisture_pct=74.0),
    _used("B1", at(date(2026, 5, 24), 10, 3), kg=2.0, where="courtyard beds")
    | {"note": "As they were, raked in under the mulch."},
    _moved("B1", at(date(2026, 6, 7), 10, 30), "drying", kg=1.3, moisture_pct=58.0),
    _sieved("B1", at(date(2026, 6, 7), 10, 50), 1.15, 0.15, "tray A"),
    _moved("B1", at(date(2026, 6, 7), 10, 55), "curing"),
    _moved("B1", at(date(2026, 6, 21), 10, 15), "ready"),
    _used("B1", at(date(2026, 6, 28), 11, 5), kg=0.6, where="chillies, second pot", share_pct=15.0),
    _used("B1", at(date(2026, 7, 19), 19, 30), kg=0.55, where="balcony boxes", share_pct=10.0),
    _closed("B1", at(date(2026, 7, 19), 19, 32)),
)
MAY = (
    _bait("C1", at(date(2026, 6, 14), 10, 5), "a slice of melon"),
    _young("C1", at(date(2026, 6, 21), 10, 20), 160, "A"),
    _young("C1", at(date(2026, 6, 28), 10, 10), 110, "A"),
    _young("C1", at(date(2026, 7, 5), 10, 10), 15, "A"),
    _moved("C1", at(date(2026, 7, 5), 10, 20), "drying", kg=4.15, moisture_pct=74.0),
    _moved("C1", at(date(2026, 7, 25), 10, 10), "drying", kg=2.6, moisture_pct=58.0),
    _sieved("C1", at(date(2026, 7, 25), 10, 35), 2.35, 0.25, "tray B"),
    _moved("C1", at(date(2026, 7, 25), 10, 40), "curing"),
    _moved("C1", at(date(2026, 8, 16), 11, 0), "ready"),
    _of("C1", at(date(2026, 8, 16), 11, 20), "packed", label="jars", kg=0.5, count=4),
    _used("C1", at(date(2026, 8, 23), 10, 45), kg=0.35, where="rubber plant", share_pct=10.0),
    _used("C1", at(date(2026, 9, 13), 10, 30), label="jars", kg=1.0, where="strawberries", share_pct=15.0),
    _used("C1", at(date(2026, 10, 11), 10, 40), label="jars", kg=1.0, where="bulbs in pots", share_pct=10.0),
    _closed("C1", at(date(2026, 10, 11), 10, 42)),
)
JULY = (
    _bait("D1", at(date(2026, 8, 16), 11, 30), "a slice of melon"),
    _young("D1", at(date(2026, 8, 22), 10, 15), 190, "B"),
    _young("D1", at(date(2026, 8, 29), 10, 20), 60, "B"),
    _moved("D1", at(date(2026, 8, 30), 10, 30), "drying", kg=4.7, moisture_pct=73.0),
    _moved("D1", at(date(2026, 9, 12), 10, 20), "drying", kg=3.3),
    _moved("D1", at(date(2026, 9, 19), 10, 15), "drying", kg=3.0, moisture_pct=58.0),
    _sieved("D1", at(date(2026, 9, 19), 10, 40), 2.65, 0.3, "tray B"),
    _moved("D1", at(date(2026, 9, 19), 10, 45), "curing"),
    _moved("D1", at(date(2026, 10, 10), 10, 15), "ready"),
    _of("D1", at(date(2026, 10, 17), 10, 20), "packed", label="jars", kg=0.4, count=4),
    _used("D1", at(date(2026, 10, 25), 10, 50), kg=0.5, where="parsley, potted up", share_pct=15.0),
    {
        "at": at(date(2026, 11, 7), 11, 10),
        "kind": "cautions_read",
        "work": "giving_away",
        "codes": ["local_rules", "not_sterile", "claims", "no_waste", "weedkiller", "dust", "hands"],
    },
    _of("D1", at(date(2026, 11, 7), 11, 14), "castings_given", label="jars", kg=0.4, **NEIGHBOUR),
)
SEPTEMBER = (
    _bait("A2", at(date(2026, 10, 17), 10, 5), "pumpkin in a net"),
    _young("A2", at(date(2026, 10, 24), 10, 15), 140, "C"),
    _young("A2", at(date(2026, 10, 31), 9, 40), 90, "C"),
    _young("A2", at(date(2026, 11, 8), 10, 10), 12, "C"),
    _moved("A2", at(date(2026, 11, 8), 10, 25), "drying", kg=4.7, moisture_pct=74.0),
    _moved("A2", at(date(2026, 11, 15), 10, 20), "drying", kg=4.0),
)
NO_MORE_NETS: Row = {
    "at": at(date(2026, 7, 25), 9, 30),
    "kind": "source_stopped",
    "source": "tea bags",
    "note": "Loose tea from now on.",
}
AFTERWARDS: tuple[Row, ...] = (*JANUARY, *MARCH, *MAY, *JULY, *SEPTEMBER, NO_MORE_NETS)
