"""The forms that write down worms and supplies."""

from __future__ import annotations

from datetime import datetime

from trayturn.domain.entries import Entry, SuppliesAdded, SuppliesUsed, WormsAdded, WormsRemoved
from trayturn.domain.stack import Stack
from trayturn.domain.words import masses
from trayturn.tui.screens.forms.entry_forms import (
    HEAVIEST_KG,
    LEAST_KG,
    NOTE,
    WHEN,
    WHOLE_BIN,
    fed_now,
    on_stack,
)
from trayturn.tui.screens.forms.examples import EXAMPLES
from trayturn.tui.screens.forms.fields import Field, Option
from trayturn.tui.screens.forms.form import Form, Values


def worms_form(stack: Stack) -> Form:
    """Worms put in or taken out."""
    ways = (Option("in", "put in"), Option("out", "taken out"))
    fields = (
        Field("way", "Worms", "pick", "", ways, "in", required=True),
        Field(
            "kg",
            "Mass",
            "mass",
            f"such as {EXAMPLES[stack.setup.units].worms}, without bedding",
            required=True,
            least=LEAST_KG,
            most=HEAVIEST_KG,
        ),
        Field("tray", "Tray", "pick", "", (WHOLE_BIN, *on_stack(stack)), fed_now(stack)),
        Field("place", "From or to", hint="where they came from or went to"),
        NOTE,
        WHEN,
    )
    return Form(
        f"Worms of {stack.setup.name}",
        "By weight, as they went in or came out.",
        fields,
        _worms,
        stack.setup.units,
    )


def _worms(values: Values, now: datetime) -> list[Entry]:
    at, note, tray, kg = (values[name] for name in ("when", "note", "tray", "kg"))
    if values["way"] == "in":
        return [WormsAdded(at=at, note=note, tray=tray, worms_kg=kg, source=values["place"])]
    return [WormsRemoved(at=at, note=note, tray=tray, worms_kg=kg, went_to=values["place"])]


def supplies_form(stack: Stack) -> Form:
    """Supplies that came in, or went other than into a tray."""
    ways = (Option("in", "came in"), Option("out", "used up elsewhere"))
    fields = (
        Field("way", "Supplies", "pick", "", ways, "in", required=True),
        Field("masses", "What", "masses", f"such as {EXAMPLES[stack.setup.units].supplies}", required=True),
        NOTE,
        WHEN,
    )
    held = {name: kg for name, kg in stack.supplies_kg.items() if kg > 0}
    intro = (
        f"In stock: {masses(held, stack.setup.units, 4)}."
        if held
        else "What is named here is counted from now on."
    )
    return Form(f"Supplies of {stack.setup.name}", intro, fields, _supplies, stack.setup.units)


def _supplies(values: Values, now: datetime) -> list[Entry]:
    model = SuppliesAdded if values["way"] == "in" else SuppliesUsed
    return [model(at=values["when"], note=values["note"], supplies_kg=values["masses"])]
