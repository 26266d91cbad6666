"""The form that writes down supplies."""

from __future__ import annotations

from datetime import datetime

from trayturn.domain.entries import Entry, SuppliesAdded, SuppliesUsed
from trayturn.domain.stack import Stack
from trayturn.domain.words import masses
from trayturn.tui.screens.forms.entry_forms import NOTE, WHEN
from trayturn.tui.screens.forms.examples import EXAMPLES
from trayturn.tui.screens.forms.fields import Field, Option
from trayturn.tui.screens.forms.form import Form, Values


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
