"""A meal as `feed` prints it: for people, and as data for scripts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from trayturn.advice.bands import Band
from trayturn.advice.composing.composed import Composed
from trayturn.advice.composing.draft import EATEN, Part
from trayturn.advice.composing.minding import Mind, Press
from trayturn.advice.composing.order import feeding_order
from trayturn.advice.composing.rationing import Later, Now, Rationed
from trayturn.advice.entry_words import entry_line
from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.domain.entries import Entry
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean, day
from trayturn.storage.reading import Loaded

MARKS = {Press.ACT: "!", Press.MIND: "-", Press.KNOW: " "}


def show(made: Composed, shared: Rationed, page: Page, *, applied: bool) -> None:
    """Print the meal, what comes of it, what to mind, the order of the work, and what is proposed."""
    draft, stack = made.draft, made.ground.stack
    page.title(f"{stack.setup.name}, tray {draft.tray}", f"{stack.as_of:%Y-%m-%d %H:%M}")
    for one in made.figures:
        page.row(one.label, "; ".join(word for word in one.words if word), 8)
    for mind in made.minds:
        page.line(f"{MARKS[mind.press]} {mind.what} {mind.why} ({mind.source})", 2, 2)
    if order := feeding_order(draft, made.ground):
        page.line()
        page.lines(order, 2, 3)
    _show_proposal(made, page)
    if applied or made.report.load.level:
        _show_shared(made, shared, page, applied)
    page.line()


def _show_proposal(made: Composed, page: Page) -> None:
    proposal = made.proposal
    if made.as_proposed or not proposal.lines:
        return
    page.line()
    page.line(f"Proposed: {proposal.why} --propose takes it.", hanging=2)
    page.lines((f"{mind.what} {mind.why}" for mind in proposal.missed), 2, 2)
    page.lines((f"{short}." for short in proposal.short), 2, 2)


def _show_shared(made: Composed, shared: Rationed, page: Page, applied: bool) -> None:
    """What goes in first, and what waits until when."""
    units, now = made.ground.units, made.ground.stack.as_of
    page.line()
    page.line("Shared out:" if applied else "Too much at once. --share feeds first what spoils first:")
    for going in shared.now:
        page.line(f"Now {clean(going.name, 60)} {show_mass(going.kg, units)}: {going.why}.", 2, 2)
    if not shared.now:
        page.line("Now nothing.", 2)
    for one in shared.later:
        until = f"until {day(one.day, now)}" if one.day is not None else "not to be fed"
        page.line(f"Later {clean(one.name, 60)} {show_mass(one.kg, units)}, {until}. {one.why}", 2, 2)


def show_written(made: Composed, written: Sequence[Entry], page: Page) -> None:
    """What was written down, and what to mind with grit."""
    for entry in written:
        page.line(f"Saved: {entry_line(entry, made.ground.units)}.", hanging=2)
    if made.draft.kg(Part.GRIT):
        page.line(f"Damp the grit: its dust harms. See trayturn cautions {made.ground.stack.key} --work grit")


def data(made: Composed, shared: Rationed, loaded: Loaded, written: Sequence[Entry] | None) -> as_json.Data:
    """The meal with all its figures, in SI. `recorded` is null where nothing was written."""
    found, stack = made.report, made.ground.stack
    wet, load = found.wetness, found.load
    return {
        "bin": loaded.key,
        "name": stack.setup.name,
        "tray": made.draft.tray,
        "as_of": as_json.moment(stack.as_of),
        "meal": _meal(made),
        "total_kg": as_json.amount(found.total_kg),
        "moisture_pct": _percent(found.moisture),
        "c_to_n": found.c_to_n,
        "after": {"moisture_pct": _band(found.moisture_after, 100), "c_to_n": _band(found.c_to_n_after)},
        "load": {
            "meal_kg": as_json.amount(load.meal_kg),
            "uneaten_kg": _band(load.uneaten_kg),
            "takes_kg": _band(load.takes_kg),
            "days": made.ground.days,
            "share": _band(load.share),
            "words": load.words,
        },
        "gone": [{"name": one.name, "days": _band(one.days)} for one in found.gone],
        "water": {
            "surplus_kg": as_json.amount(wet.surplus_kg),
            "taken_up_kg": _band(wet.taken_kg),
            "tray_takes_kg": as_json.amount(wet.tray_kg),
            "left_kg": as_json.amount(wet.left_kg),
        },
        "layer_m": found.layer_m,
        "cover_m": found.cover_m,
        "reckoned_as_scraps": list(found.stand_ins),
        "warnings": [_mind(one) for one in made.minds],
        "order": feeding_order(made.draft, made.ground),
        "proposal": _proposal(made),
        "shared": {"now": _now(shared.now), "later": _later(shared.later)},
        "recorded": None if written is None else [as_json.entry(one) for one in written],
    }


def _meal(made: Composed) -> as_json.Data:
    draft = made.draft
    return {
        "items_kg": as_json.amounts(draft.masses(*EATEN)),
        **_laid(draft.masses(Part.BEDDING), draft.masses(Part.COVER)),
        "grit_kg": as_json.amount(draft.kg(Part.GRIT)),
        "water_kg": as_json.amount(draft.kg(Part.WATER)),
        "waits_kg": as_json.amounts(draft.waits),
    }


def _laid(bedding: Mapping[str, float], cover: Mapping[str, float]) -> as_json.Data:
    return {"bedding_kg": as_json.amounts(bedding), "cover_kg": as_json.amounts(cover)}


def _proposal(made: Composed) -> as_json.Data:
    proposal = made.proposal
    draft = proposal.draft
    return {
        **_laid(draft.masses(Part.BEDDING), draft.masses(Part.COVER)),
        "grit_kg": as_json.amount(draft.kg(Part.GRIT)),
        "water_kg": as_json.amount(draft.kg(Part.WATER)),
        "why": proposal.why,
        "missed": [_mind(one) for one in proposal.missed],
        "short": list(proposal.short),
    }


def _now(now: Sequence[Now]) -> list[as_json.Data]:
    return [{"name": one.name, "kg": as_json.amount(one.kg), "why": one.why} for one in now]


def _later(later: Sequence[Later]) -> list[as_json.Data]:
    return [
        {
            "name": one.name,
            "kg": as_json.amount(one.kg),
            "day": one.day.date().isoformat() if one.day is not None else None,
            "why": one.why,
        }
        for one in later
    ]


def _mind(one: Mind) -> as_json.Data:
    return {
        "press": one.press.name.lower(),
        "code": one.code,
        "what": one.what,
        "why": one.why,
        "source": one.source,
        "page": str(one.page),
    }


def _band(band: Band | None, times: float = 1.0) -> as_json.Data | None:
    if band is None or band.high == float("inf"):
        return None
    return {"low": times * band.low, "mid": times * band.mid, "high": times * band.high}


def _percent(share: float | None) -> float | None:
    return None if share is None else 100 * share
