"""What scripts get: plain data with snake_case keys in a steady order, SI amounts and RFC 3339 times."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Mapping
from dataclasses import asdict
from datetime import datetime
from typing import Any

from trayturn.domain.entries import Checked, Entry
from trayturn.domain.problems import Finding, Problem
from trayturn.domain.stack import Separation, Stack, StepTimes, TrayState

Data = dict[str, Any]


def print_json(data: Data) -> None:
    """Print one object. Where stdout cannot hold every letter, those it cannot are written as escapes."""
    unicode_out = (sys.stdout.encoding or "").lower().replace("-", "").startswith("utf")
    print(json.dumps(data, indent=2, ensure_ascii=not unicode_out, allow_nan=False))


def moment(when: datetime | None) -> str | None:
    """A time as RFC 3339."""
    return when.isoformat() if when else None


def amount(value: float | None) -> float | None:
    """An amount to the milligram or millilitre: sums carry no more."""
    return None if value is None else round(value, 6)


def amounts(store: Mapping[str, float]) -> Data:
    return {name: amount(value) for name, value in store.items()}


def days(value: float) -> float:
    """An age in days, to about ten seconds."""
    return round(value, 4)


def tray(state: TrayState) -> Data:
    """One tray, on the stack or off it."""
    return {
        "id": state.id,
        "level": state.level,
        "stage": str(state.stage),
        "started_at": moment(state.started_at),
        "stage_since": moment(state.stage_since),
        "days_on_stack": days(state.days_on_stack),
        "days_in_stage": days(state.days_in_stage),
        "feedings": state.feedings,
        "fed_kg": amount(state.fed_kg),
        "scraps_kg": amounts(state.scraps_kg),
        "bedding_kg": amounts(state.bedding_kg),
        "grit_kg": amount(state.grit_kg),
        "water_kg": amount(state.water_kg),
        "last_fed_at": moment(state.last_fed_at),
        "moisture": _moisture(state.last_moisture),
        "empty_kg": amount(state.empty_kg),
        "gross_kg": amount(state.gross_kg),
        "weighed_at": moment(state.weighed_at),
    }


def _moisture(check: Checked | None) -> Data | None:
    if check is None:
        return None
    feel = str(check.feel) if check.feel else None
    return {"moisture_pct": check.moisture_pct, "feel": feel, "at": moment(check.at)}


def separation(one: Separation, now: datetime) -> Data:
    """One separation: its step under way, its passes, and what became of it."""
    return {
        "tray": one.tray,
        "begun_at": moment(one.begun_at),
        "came_from_level": one.came_from_level,
        "step": _step(one.step, now),
        "pass_number": one.pass_number,
        "passes": [entry(done) for done in one.passes],
        "gross_kg": amount(one.gross_kg),
        "skimmed_kg": amount(one.skimmed_kg),
        "settled": entry(one.settled) if one.settled else None,
        "ended_at": moment(one.ended_at),
        "outcome": str(one.outcome) if one.outcome else None,
    }


def _step(step: StepTimes | None, now: datetime) -> Data | None:
    if step is None:
        return None
    return {
        "step": str(step.step),
        "pass_number": step.pass_number,
        "started_at": moment(step.started_at),
        "ends_at": moment(step.ends_at),
        "seconds_left": round((step.ends_at - now).total_seconds()) if step.ends_at else None,
    }


def entry(one: Entry, place: int | None = None) -> Data:
    """One journal entry with all its fields; `entry` is its place in the file, counted from 1."""
    fields = one.model_dump(mode="json")
    head = {"entry": place} if place is not None else {}
    return (
        head
        | {"kind": one.kind, "at": moment(one.at)}
        | {k: v for k, v in fields.items() if k not in ("kind", "at")}
    )


def findings(found: Iterable[Finding]) -> list[Data]:
    return [finding.as_json() for finding in found]


def problems(found: Iterable[Problem]) -> list[Data]:
    return [asdict(problem) for problem in found]


def sump(stack: Stack) -> Data:
    """The sump as last looked at."""
    return {
        "volume_l": amount(stack.sump.volume_l),
        "capacity_l": stack.setup.sump_capacity_l,
        "checked_at": moment(stack.sump.checked_at),
    }
