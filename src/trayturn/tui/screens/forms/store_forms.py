"""The form that writes down supplies."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from trayturn.domain.entries import Entry, SuppliesAdded, SuppliesCounted, SuppliesUsed
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, masses
from trayturn.tui.screens.forms.entry_forms import NOTE, WHEN
from trayturn.tui.screens.forms.examples import EXAMPLES
from trayturn.tui.screens.forms.fields import Field, Option
from trayturn.tui.screens.forms.form import Form, Values
from trayturn.tui.screens.forms.minded import minded

WAYS = (Option("in", "came in"), Option("counted", "counted"), Option("out", "used elsewhere"))
"""What can be written down of a supply. Feedings and fresh trays draw on the stock by themselves."""


def supplies_form(stack: Stack, way: str = "in") -> Form:
    """Supplies that came in, that were counted, or that went other than into a tray."""
    example = EXAMPLES[stack.setup.units].supplies
    fields = (
        Field("way", "Supplies", "pick", "", WAYS, way, required=True),
        Field("masses", "What", "masses", f"such as {example}", required=True, least=0),
        NOTE,
        WHEN,
    )
    held = {name: kg for name, kg in stack.supplies_kg.items() if kg > 0}
    intro = (
        f"In stock: {masses(held, stack.setup.units, 4)}."
        if held
        else "What is named here is counted from now on."
    )
    name, units = stack.setup.name, stack.setup.units
    return Form(f"Supplies of {name}", intro, fields, _supplies, units, aside=minded(stack, ["masses"]))


def _supplies(values: Values, now: datetime) -> list[Entry]:
    return [supplies_entry(values["way"], values["masses"], values["when"], values["note"])]


def supplies_entry(way: str, kg: Mapping[str, float], at: datetime, note: str = "") -> Entry:
    """What is written down of supplies. Raises `ValueError` for nothing that came in or went."""
    if way == "counted":
        return SuppliesCounted(at=at, note=note, supplies_kg=dict(kg))
    nothing = [name for name, mass in kg.items() if not mass]
    if nothing:
        raise ValueError(
            f"{clean(nothing[0], 40)}: only what was counted can be none. Pick counted, or a mass."
        )
    model = SuppliesAdded if way == "in" else SuppliesUsed
    return model(at=at, note=note, supplies_kg=dict(kg))
