"""What is asked and written for each thing done with a lot of castings."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial

from trayturn.advice.bands import rough_mass
from trayturn.advice.castings.drying import USUAL_MESH_MM
from trayturn.advice.castings.stages import filled_use_by
from trayturn.domain.entries import (
    Entry,
    HatchlingsRecovered,
    LotClosed,
    LotMoved,
    LotStage,
    LureSet,
    Packed,
    Sieved,
)
from trayturn.domain.lots import Lot, heavier, next_label
from trayturn.domain.stack import Stack
from trayturn.tui.screens.forms.entry_forms import HEAVIEST_KG, LEAST_KG, on_stack
from trayturn.tui.screens.forms.fields import Field
from trayturn.tui.screens.forms.form import Slip, Values
from trayturn.tui.screens.forms.lot_fields import NO_TRAY, YES_NO, Parts, mass_field
from trayturn.tui.screens.forms.lot_taking import giving, using

LONGEST = 60


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
    usual = f"{USUAL_MESH_MM:g}"
    fields = (
        Field("mesh", "Mesh, mm", "number", "such as 6.4", default=usual, required=True, most=100),
        mass_field("passed", "Fell through"),
        mass_field("oversize", "Stayed on it"),
        Field("to", "Which went to", hint="such as tray B", most=200),
    )
    return fields, lambda v, now: _sieved(stack, lot, v)


def _sieved(stack: Stack, lot: Lot, v: Values) -> list[Entry]:
    """The sieving, and that it cures from then on. Raises `Slip` where the parts outweigh the lot."""
    together = (v["passed"] or 0.0) + (v["oversize"] or 0.0)
    if lot.kg is not None and heavier(together, lot.kg):
        held = rough_mass(lot.kg, stack.setup.units)
        raise Slip("passed", f"Fallen through and left on it is more than the lot, which holds {held}.")
    sieved = Sieved(
        at=v["when"],
        note=v["note"],
        lot=lot.code,
        mesh_mm=v["mesh"],
        passed_kg=v["passed"],
        oversize_kg=v["oversize"],
        oversize_to=v["to"],
    )
    return [sieved, LotMoved(at=v["when"], lot=lot.code, stage=LotStage.CURING)]


def _pack(stack: Stack, lot: Lot) -> Parts:
    fields = (
        Field("label", "Label", hint=f"such as {next_label(stack)}", required=True, most=LONGEST, here=True),
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
    "use": using,
    "give": giving,
    "close": _close,
}
