"""The forms that write down what is done with a lot of castings."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from trayturn.advice.castings.early import TAKEN_BY, minded_taking
from trayturn.advice.castings.taking_up import old_tubs
from trayturn.domain.entries import Entry, LotBegun, LotStage
from trayturn.domain.lots import Lot, next_code
from trayturn.domain.stack import Stack
from trayturn.domain.units import show_mass
from trayturn.tui.screens.forms.entry_forms import NOTE, WHEN
from trayturn.tui.screens.forms.fields import Field, Option
from trayturn.tui.screens.forms.form import Form, Values
from trayturn.tui.screens.forms.lot_fields import NO_TRAY, mass_field
from trayturn.tui.screens.forms.lot_parts import PARTS
from trayturn.tui.screens.forms.lot_taking import minded_share

ACTS = {
    "lure": "Lay a bait on it",
    "look": "Hatchlings lifted out",
    "dry": "Let it dry, or weigh it as it dries",
    "sieve": "Sieved",
    "cure": "Let it stand",
    "ready": "It is ready",
    "pack": "Filled into jars or bags",
    "use": "Used",
    "give": "Given away or sold",
    "close": "Nothing of it is left",
}
"""What can be done with a lot, in the usual order."""


def lot_form(stack: Stack, lot: Lot, act: str) -> Form:
    """The form of one act. Raises `KeyError` for an act that is none."""
    fields, build = PARTS[act](stack, lot)
    title = f"Lot {lot.code}: {ACTS[act].lower()}"
    aside = minded_share if act == "use" else None
    intro = minded_taking(lot, stack) if act in TAKEN_BY else ""
    return Form(title, intro, (*fields, NOTE, WHEN), build, stack.setup.units, aside=aside)


def entries_of(stack: Stack, lot: Lot, act: str, now: datetime, **values: object) -> list[Entry]:
    """What that act writes now, by the names of its form's fields; those not named are left empty.

    Raises `Slip` for what cannot be.
    """
    form = lot_form(stack, lot, act)
    empty = {field.name: "" if field.kind in ("text", "pick") else None for field in form.fields}
    built: list[Entry] = form.build({**empty, **values, "when": now}, now)
    return built


def new_lot_form(stack: Stack) -> Form:
    """A lot begun by hand: castings from elsewhere, or taken before lots were kept, as they were then."""
    trays = (NO_TRAY, *(Option(tray.id, tray.id) for tray in (*stack.off_stack, *stack.trays)))
    tub = next(iter(old_tubs(stack)), None)
    first = tub.tray if tub is not None else next((tray.id for tray in stack.off_stack), "")
    held = show_mass(tub.castings_kg, stack.setup.units) if tub is not None and tub.castings_kg else ""
    since = f"{tub.since:%Y-%m-%d %H:%M}" if tub is not None else ""
    stages = tuple(Option(stage, str(stage)) for stage in LotStage)
    fields = (
        Field("tray", "From tray", "pick", "", trays, first),
        replace(mass_field("kg", "They weigh"), default=held),
        Field("stage", "What they do", "pick", "", stages, LotStage.HATCHING),
        Field("place", "Where they stand", hint="such as the hatch tub", most=200),
        NOTE,
        replace(WHEN, default=since),
    )

    def build(v: Values, now: datetime) -> list[Entry]:
        """The entry that begins it, by what was answered."""
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
