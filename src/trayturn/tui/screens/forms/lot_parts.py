"""What is asked and written for each thing done with a lot of castings."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from functools import partial

from trayturn.advice.bands import rough_mass
from trayturn.advice.castings.stages import USUAL_MESH_MM, filled_use_by
from trayturn.advice.castings.use import Verdict, judge, minded
from trayturn.domain.entries import (
    CastingsGiven,
    CastingsUsed,
    Entry,
    HatchlingsRecovered,
    LotClosed,
    LotMoved,
    LotStage,
    LureSet,
    Packed,
    Sieved,
)
from trayturn.domain.lots import Lot, heavier
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean
from trayturn.tui.screens.forms.entry_forms import HEAVIEST_KG, LEAST_KG, on_stack
from trayturn.tui.screens.forms.fields import Field, Option
from trayturn.tui.screens.forms.form import Slip, Values

NO_TRAY = Option("", "none of them")
YES_NO = (Option("", "no"), Option("yes", "yes"))
LONGEST = 60


def mass_field(name: str, label: str, hint: str = "such as 2.5 kg; empty if not weighed") -> Field:
    return Field(name, label, "mass", hint, least=LEAST_KG, most=HEAVIEST_KG)


Parts = tuple[tuple[Field, ...], Callable[[Values, datetime], list[Entry]]]


def _lure(stack: Stack, lot: Lot) -> Parts:
    fields = (Field("bait", "Bait", hint="such as melon, or soaked oats", most=200, here=True),)
    return fields, lambda v, now: [LureSet(at=v["when"], note=v["note"], lot=lot.code, bait=v["bait"])]


def _look(stack: Stack, lot: Lot) -> Parts:
    trays = (NO_TRAY, *on_stack(stack))
    fields = (
        Field("counted", "How many", "whole", "such as 40; none is 0", least=0, most=1_000_000, here=True),
        mass_field("worms_kg", "They weigh", "such as 8 g; empty if not weighed"),
        Field("tray", "Went to tray", "pick", "", trays, trays[-1].value),
        Field("again", "New bait laid", "pick", "", YES_NO, "yes"),
    )

    def build(v: Values, now: datetime) -> list[Entry]:
        lifted = HatchlingsRecovered(
            at=v["when"],
            note=v["note"],
            lot=lot.code,
            counted=v["counted"],
            worms_kg=v["worms_kg"],
            tray=v["tray"] or None,
        )
        again = v["again"] == "yes"
        return [lifted, *([LureSet(at=v["when"], lot=lot.code, bait=last_bait(lot))] if again else [])]

    return fields, build


def last_bait(lot: Lot) -> str:
    """What was laid on it last; empty where nothing was said."""
    return lot.lures[-1].bait if lot.lures else ""


def _moved(stage: LotStage, stack: Stack, lot: Lot) -> Parts:
    fields = (
        mass_field("kg", "It weighs"),
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
        mass_field("passed", "Fell through"),
        mass_field("oversize", "Stayed on it"),
        Field("to", "Which went to", hint="such as tray B", most=200),
    )

    def build(v: Values, now: datetime) -> list[Entry]:
        at, note = v["when"], v["note"]
        together = (v["passed"] or 0.0) + (v["oversize"] or 0.0)
        if lot.kg is not None and heavier(together, lot.kg):
            held = rough_mass(lot.kg, stack.setup.units)
            raise Slip("passed", f"Fallen through and left on it is more than the lot, which holds {held}.")
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
            use_by=filled_use_by(lot, v["when"]),
        )
    ]


def _label(lot: Lot) -> tuple[Field, ...]:
    jars = [jar for jar in lot.jars.values() if jar.left_kg > 0]
    if not jars:
        return ()
    options = (*(Option(jar.label, clean(jar.label, 30)) for jar in jars), Option("", "loose"))
    return (Field("label", "Out of", "pick", "", options, jars[0].label),)


def _share(texts: Mapping[str, str]) -> float | None:
    """The share that is typed, percent; None as long as it is none."""
    try:
        return float(texts.get("share", "").strip().removesuffix("%").replace(",", "."))
    except ValueError:
        return None


def _above_half(texts: Mapping[str, str]) -> bool:
    """Whether the share that is typed is one to be refused."""
    share = _share(texts)
    return share is not None and judge(share).verdict is Verdict.REFUSED


def minded_share(texts: Mapping[str, str], now: datetime) -> str:
    """What to mind about the share that is typed."""
    return minded(_share(texts))


def _use(stack: Stack, lot: Lot) -> Parts:
    fields = (
        *_label(lot),
        mass_field("kg", "How much", "such as 500 g"),
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
        mass_field("kg", "How much", "such as 500 g"),
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


PARTS: dict[str, Callable[[Stack, Lot], Parts]] = {
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
