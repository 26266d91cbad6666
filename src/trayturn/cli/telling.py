"""One journal entry in a keeper's words: the text twin of a line of the journal."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from trayturn.domain.entries import (
    CautionsRead,
    Checked,
    DeadlineMoved,
    Entry,
    EntryBase,
    Fed,
    Note,
    Outcome,
    PassDone,
    SeparationBegun,
    SeparationEnded,
    Settled,
    Step,
    StepEnded,
    StepStarted,
    SuppliesAdded,
    SuppliesUsed,
    TrayStarted,
    Turned,
    Undone,
    WormsAdded,
    WormsRemoved,
)
from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass, show_temperature, show_volume, three_figures
from trayturn.domain.words import clean, masses

STEP_WORDS = {
    Step.GET_READY: "getting ready",
    Step.LOOSEN: "loosening",
    Step.REST: "rest",
    Step.SKIM: "skimming",
    Step.DECIDE: "again or stop",
    Step.SETTLE: "settling",
    Step.CLEAN_UP: "cleaning up",
}


def tell(entry: EntryBase, units: Units) -> str:
    """What the entry says, on one line, without its time and note: `fed B: cabbage 500 g; grit 10 g`."""
    details = [detail for detail in _TELLERS[type(entry)](entry, units) if detail]
    tray = getattr(entry, "tray", None)
    head = f"{entry.title} {tray}" if tray else entry.title
    return f"{head}: {'; '.join(details)}" if details else head


def _all_of(store: Mapping[str, float], units: Units) -> str:
    return masses(store, units, most=len(store))


def _labelled(label: str, text: str) -> str:
    return f"{label} {text}" if text else ""


def _mass(label: str, kg: float | None, units: Units) -> str:
    return "" if kg is None else f"{label} {show_mass(kg, units)}"


def _tray_started(entry: TrayStarted, units: Units) -> list[str]:
    level = f"level {entry.level}" if entry.level else ""
    stage = f"{entry.stage}" if entry.stage else ""
    return [_all_of(entry.bedding_kg, units), _mass("water", entry.water_kg, units), level, stage]


def _fed(entry: Fed, units: Units) -> list[str]:
    bedding = _labelled("bedding", _all_of(entry.bedding_kg, units))
    return [_all_of(entry.items_kg, units), bedding, _mass("grit", entry.grit_kg, units)]


def _checked(entry: Checked, units: Units) -> list[str]:
    return [
        "" if entry.moisture_pct is None else f"moisture {three_figures(entry.moisture_pct)} %",
        _labelled("feels", entry.feel or ""),
        "" if entry.temperature_c is None else show_temperature(entry.temperature_c, units),
        "" if entry.ph is None else f"pH {three_figures(entry.ph)}",
        _labelled("smells", clean(entry.smell)),
        "" if entry.sump_l is None else f"sump {show_volume(entry.sump_l, units)}",
        f"{entry.strays} strays" if entry.strays else "",
        _mass("weighs", entry.gross_kg, units),
    ]


def _turned(entry: Turned, units: Units) -> list[str]:
    stages = ", ".join(f"{tray} {stage}" for tray, stage in entry.stages.items())
    return [f"{' '.join(entry.order)} from the bottom up", stages]


def _step_started(entry: StepStarted, units: Units) -> list[str]:
    until = f", until {entry.ends_at:%H:%M}" if entry.ends_at else ""
    return [_step(entry) + until]


def _step(entry: StepStarted | StepEnded) -> str:
    number = f", pass {entry.pass_number}" if entry.pass_number else ""
    return f"{STEP_WORDS[entry.step]}{number}"


def _pass_done(entry: PassDone, units: Units) -> list[str]:
    return [
        f"pass {entry.pass_number}",
        f"{'no' if entry.worms_seen == 'none' else entry.worms_seen} worms seen",
        _mass("skimmed", entry.skimmed_kg, units),
        _labelled("pieces to carry on", clean(entry.overs)),
        _labelled("found", clean(entry.contaminants)),
    ]


def _settled(entry: Settled, units: Units) -> list[str]:
    return [
        _mass("castings", entry.castings_kg, units),
        _labelled("worms to", clean(entry.worms_to)),
        _labelled("the rest to", clean(entry.rest_to)),
        _labelled("pieces to", clean(entry.overs_to)),
    ]


def _separation_ended(entry: SeparationEnded, units: Units) -> list[str]:
    return ["put back to finish longer" if entry.outcome is Outcome.PUT_BACK else "the tray is empty"]


def _worms_added(entry: WormsAdded, units: Units) -> list[str]:
    return [show_mass(entry.worms_kg, units), _labelled("from", clean(entry.source))]


def _worms_removed(entry: WormsRemoved, units: Units) -> list[str]:
    return [show_mass(entry.worms_kg, units), _labelled("to", clean(entry.went_to))]


_TELLERS: dict[type[EntryBase], Callable[[Any, Units], list[str]]] = {
    TrayStarted: _tray_started,
    Fed: _fed,
    Checked: _checked,
    Turned: _turned,
    SeparationBegun: lambda entry, units: [],
    StepStarted: _step_started,
    StepEnded: lambda entry, units: [_step(entry)],
    DeadlineMoved: lambda entry, units: [f"now {entry.ends_at:%H:%M}"],
    PassDone: _pass_done,
    Settled: _settled,
    SeparationEnded: _separation_ended,
    WormsAdded: _worms_added,
    WormsRemoved: _worms_removed,
    SuppliesAdded: lambda entry, units: [_all_of(entry.supplies_kg, units)],
    SuppliesUsed: lambda entry, units: [_all_of(entry.supplies_kg, units)],
    CautionsRead: lambda entry, units: [clean(entry.work), f"{len(entry.codes)} ticked"],
    Note: lambda entry, units: [clean(entry.text)],
    Undone: lambda entry, units: [f"{entry.entry_kind.replace('_', ' ')}, {entry.entry_at:%Y-%m-%d %H:%M}"],
}


def entry_text(entry: Entry, units: Units) -> str:
    """The entry with the keeper's note to it."""
    said = tell(entry, units)
    return f"{said}. {clean(entry.note)}" if entry.note else said
