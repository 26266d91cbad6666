"""What scripts get of due things, and of which bin is next."""

from __future__ import annotations

from collections.abc import Iterable

from trayturn.advice.bands import Band
from trayturn.advice.due import Due
from trayturn.advice.next import Next
from trayturn.cli import as_json


def due_data(item: Due) -> as_json.Data:
    """One due thing. `item` is what it is put off or marked done by."""
    return {
        "bin": item.bin,
        "name": item.name,
        "kind": item.kind,
        "item": item.item,
        "due": as_json.moment(item.due),
        "late": item.late,
        "what": item.what,
        "why": list(item.why),
        "tray": item.tray,
        "page": str(item.page) if item.page else None,
        "snoozed_until": as_json.moment(item.snoozed_until),
    }


def next_data(ranked: Iterable[Next]) -> list[as_json.Data]:
    """The bins in their order, the one to feed first on top."""
    return [_next_data(rank, one) for rank, one in enumerate(ranked, 1)]


def _next_data(rank: int, one: Next) -> as_json.Data:
    return {
        "rank": rank,
        "bin": one.bin,
        "name": one.name,
        "tray": one.tray,
        "what": one.what,
        "why": list(one.why),
        **resting_data(one),
        "days_since_fed": None if one.days_since_fed is None else as_json.days(one.days_since_fed),
        "days_between_feedings": one.days_between_feedings,
        "uneaten_kg": _band(one.uneaten_kg),
        "caddy_kg": as_json.amounts(one.caddy_kg),
        "first": due_data(one.first),
    }


def resting_data(one: Next) -> as_json.Data:
    """Whether the bin should rest, until when where a day is known, and why."""
    return {
        "resting": one.resting,
        "rests_until": as_json.moment(one.until),
        "rests": [
            {"code": rest.code, "until": as_json.moment(rest.until), "end": rest.end, "why": rest.why}
            for rest in one.rests
        ],
    }


def _band(band: Band | None) -> as_json.Data | None:
    return None if band is None else {end: as_json.amount(kg) for end, kg in band._asdict().items()}
