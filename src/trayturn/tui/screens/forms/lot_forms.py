"""The forms that write down what is done with a lot of castings."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from functools import partial

from trayturn.advice.castings.stages import KEEPS_FOR, USUAL_MESH_MM
from trayturn.advice.castings.use import Verdict, judge
from trayturn.advice.due.hatching import tubs
from trayturn.domain.entries import (
    CastingsGiven,
    CastingsUsed,
    Entry,
    HatchlingsRecovered,
    LotBegun,
    LotClosed,
    LotMoved,
    LotStage,
    LureSet,
    Packed,
    Sieved,
)
from trayturn.domain.lots import Lot, next_code
from trayturn.domain.stack import Stack
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean
from trayturn.tui.screens.forms.entry_forms import HEAVIEST_KG, LEAST_KG, NOTE, WHEN, on_stack
from trayturn.tui.screens.forms.fields import Field, Option
from trayturn.tui.screens.forms.form import Form, Slip, Values

NO_TRAY = Option("", "none of them")
YES_NO = (Option("", "no"), Option("yes", "yes"))
LONGEST = 60
LATELY = timedelta(days=120)
"""How long ago castings may have been taken to be offered as a lot. Our choice."""
ACTS = {
    "lure": "Lay a bait on it",
    "look": "Hatchlings lifted out",
    "dry": "Let it dry",
    "sieve": "Sieved",
    "cure": "Let it stand",
    "ready": "It is ready",
    "pack": "Filled into jars or bags",
    "use": "Used",
    "give": "Given away or sold",
    "close": "Nothing of it is left",
}
"""What can be done with a lot, in the usual order."""


def _mass(name: str, label: str, hint: str = "such as 2.5 kg; empty if not weighed") -> Field:
    return Field(name, label, "mass", hint, least=LEAST_KG, most=HEAVIEST_KG)


def lot_form(stack: Stack, lot: Lot, act: str) -> Form:
    """The form of one act. Raises `KeyError` for an act that is none."""
    fields, build = _PARTS[act](stack, lot)
    title = f"Lot {lot.code}: {ACTS[act].lower()}"
    return Form(title, "", (*fields, NOTE, WHEN), build, stack.setup.units)


Parts = tuple[tuple[Field, ...], Callable[[Values, datetime], list[Entry]]]


def _lure(stack: Stack, lot: Lot) -> Parts:
    fields = (Field("bait", "Bait", hint="such as melon, or soaked oats", most=200, here=True),)
    return fields, lambda v, now: [LureSet(at=v["when"], note=v["note"], lot=lot.code, bait=v["bait"])]


def _look(stack: Stack, lot: Lot) -> Parts:
    trays = (NO_TRAY, *on_stack(stack))
    fields = (
        Field("counted", "How many", "whole", "such as 40; none is 0", least=0, most=1_000_000, here=True),
        _mass("worms_kg", "They weigh", "such as 8 g; empty if not weighed"),
        Field("tray", "Went to tray", "pick", "", trays, trays[-1].value),
    )
    return fields, lambda v, now: [
        HatchlingsRecovered(
            at=v["when"],
            note=v["note"],
            lot=lot.code,
            counted=v["counted"],
            worms_kg=v["worms_kg"],
            tray=v["tray"] or None,
        )
    ]


def _moved(stage: LotStage, stack: Stack, lot: Lot) -> Parts:
    fields = (
        _mass("kg", "It weighs"),
        Field("moisture", "Moisture", "percent", "such as 60 %; empty if not read", least=0, most=100),
    )
    return fields, lambda v, now: [
        LotMoved(
            at=v["when"], note=v["note"], lot=lot.code, stage=stage, kg=v["kg"], moisture_pct=v["moisture"]
        )
    ]


def _sieve(stack: Stack, lot: Lot) -> Parts:
    fields = (
        Field(
            "mesh", "Mesh, mm", "number", "such as 6.4", default=f"{USUAL_MESH_MM:g}", required=True, most=100
        ),
        _mass("passed", "Fell through"),
        _mass("oversize", "Stayed on it"),
        Field("to", "Which went to", hint="such as tray B", most=200),
    )

    def build(v: Values, now: datetime) -> list[Entry]:
        at, note = v["when"], v["note"]
        parts = v["passed"], v["oversize"]
        if lot.kg is not None and None not in parts and sum(parts) > 1.05 * lot.kg:
            raise Slip("passed", f"Both together weigh more than the lot, which holds {lot.kg:.3g} kg.")
        sieved = Sieved(
            at=at,
            note=note,
            lot=lot.code,
            mesh_mm=v["mesh"],
            passed_kg=v["passed"],
            oversize_kg=v["oversize"],
            oversize_to=v["to"],
        )
        return [sieved, LotMoved(at=at, lot=lot.code, stage=LotStage.CURING)]

    return fields, build


def _pack(stack: Stack, lot: Lot) -> Parts:
    example = f"label {len(lot.jars) + 1}"
    fields = (
        Field("label", "Label", hint=f"such as {example}", required=True, most=LONGEST, here=True),
        Field("kg", "Each holds", "mass", "such as 1 kg", required=True, least=LEAST_KG, most=HEAVIEST_KG),
        Field("count", "How many", "whole", "such as 4", default="1", required=True, least=1, most=100_000),
    )
    return fields, lambda v, now: [
        Packed(
            at=v["when"],
            note=v["note"],
            lot=lot.code,
            label=v["label"],
            kg=v["kg"],
            count=v["count"],
            use_by=v["when"] + KEEPS_FOR,
        )
    ]


def _label(lot: Lot) -> tuple[Field, ...]:
    jars = [jar for jar in lot.jars.values() if jar.left_kg > 0]
    if not jars:
        return ()
    options = (*(Option(jar.label, clean(jar.label, 30)) for jar in jars), Option("", "loose"))
    return (Field("label", "Out of", "pick", "", options, jars[0].label),)


def _above_half(texts: Mapping[str, str]) -> bool:
    """Whether the share that is typed is one to be refused."""
    typed = texts.get("share", "").strip().removesuffix("%").replace(",", ".")
    try:
        return judge(float(typed)).verdict is Verdict.REFUSED
    except ValueError:
        return False


def _use(stack: Stack, lot: Lot) -> Parts:
    fields = (
        *_label(lot),
        _mass("kg", "How much", "such as 500 g"),
        Field("where", "For what", hint="such as tomatoes", most=200),
        Field("share", "Share of mix", "percent", "such as 15 %; by volume", least=0, most=100),
        Field("despite", "More than half, all the same", "pick", "", YES_NO, "", asked=_above_half),
    )

    def build(v: Values, now: datetime) -> list[Entry]:
        share = v["share"]
        told = judge(share) if share is not None else None
        refused = told is not None and told.verdict is Verdict.REFUSED
        if told is not None and refused and v["despite"] != "yes":
            raise Slip("share", f"{told.words} Say yes below to write it down all the same.")
        used = CastingsUsed(
            at=v["when"],
            note=v["note"],
            lot=lot.code,
            label=v.get("label") or "",
            kg=v["kg"],
            where=v["where"],
            share_pct=share,
            despite=True if refused else None,
        )
        return [used]

    return fields, build


def _give(stack: Stack, lot: Lot) -> Parts:
    fields = (
        *_label(lot),
        _mass("kg", "How much", "such as 500 g"),
        Field("to", "To whom", hint="such as a neighbour", most=200),
        Field("sold", "Sold", "pick", "", YES_NO, ""),
    )
    return fields, lambda v, now: [
        CastingsGiven(
            at=v["when"],
            note=v["note"],
            lot=lot.code,
            label=v.get("label") or "",
            kg=v["kg"],
            to=v["to"],
            sold=True if v["sold"] == "yes" else None,
            rules_read=True,
        )
    ]


def _close(stack: Stack, lot: Lot) -> Parts:
    return (), lambda v, now: [LotClosed(at=v["when"], note=v["note"], lot=lot.code)]


_PARTS: dict[str, Callable[[Stack, Lot], Parts]] = {
    "lure": _lure,
    "look": _look,
    "dry": partial(_moved, LotStage.DRYING),
    "sieve": _sieve,
    "cure": partial(_moved, LotStage.CURING),
    "ready": partial(_moved, LotStage.READY),
    "pack": _pack,
    "use": _use,
    "give": _give,
    "close": _close,
}


def new_lot_form(stack: Stack) -> Form:
    """A lot begun by hand: castings from elsewhere, or taken before lots were kept, as they were then."""
    trays = (NO_TRAY, *(Option(tray.id, tray.id) for tray in (*stack.off_stack, *stack.trays)))
    tub = next(tubs(stack, stack.as_of - LATELY), None)
    first = tub.tray if tub is not None else next((tray.id for tray in stack.off_stack), "")
    held = show_mass(tub.castings_kg, stack.setup.units) if tub is not None and tub.castings_kg else ""
    since = f"{tub.since:%Y-%m-%d %H:%M}" if tub is not None else ""
    stages = tuple(Option(stage, str(stage)) for stage in LotStage)
    fields = (
        Field("tray", "From tray", "pick", "", trays, first),
        replace(_mass("kg", "They weigh"), default=held),
        Field("stage", "What they do", "pick", "", stages, LotStage.HATCHING),
        Field("place", "Where they stand", hint="such as the hatch tub", most=200),
        NOTE,
        replace(WHEN, default=since),
    )

    def build(v: Values, now: datetime) -> list[Entry]:
        tray = v["tray"] or None
        return [
            LotBegun(
                at=v["when"],
                note=v["note"],
                lot=next_code(stack, tray or "L"),
                tray=tray,
                kg=v["kg"],
                stage=LotStage(v["stage"]),
                place=v["place"],
            )
        ]

    intro = f"Taken from tray {tub.tray}, and not kept as a lot yet." if tub is not None else ""
    return Form(f"Castings of {stack.setup.name}", intro, fields, build, stack.setup.units)
