"""The form that writes down what does not belong in a bin."""

from __future__ import annotations

from datetime import datetime

from trayturn.domain.entries import Contaminant, ContaminantFound, Entry
from trayturn.domain.stack import Stack
from trayturn.tui.screens.forms.entry_forms import NOTE, WHEN, WHOLE_BIN, on_stack
from trayturn.tui.screens.forms.fields import Field, Option
from trayturn.tui.screens.forms.form import Form, Values

KINDS = tuple(Option(kind, str(kind)) for kind in Contaminant)
MOST = 100_000


def found_form(stack: Stack, source: str = "") -> Form:
    """What was found, how many, and what it came in with: `source` stands in the form."""
    fields = (
        Field("what", "What", "pick", "", KINDS, Contaminant.STICKER, required=True, here=True),
        Field("count", "How many", "whole", "such as 3", default="1", required=True, least=1, most=MOST),
        Field("source", "Came in with", hint="such as banana, or parcels; if it is known", default=source),
        Field("tray", "Found in", "pick", "", (WHOLE_BIN, *on_stack(stack))),
        NOTE,
        WHEN,
    )
    intro = "Named by what it came in with, it can be stopped there: feeding and shredding say so."
    return Form(f"Found in {stack.setup.name}", intro, fields, _found, stack.setup.units)


def _found(values: Values, now: datetime) -> list[Entry]:
    return [
        ContaminantFound(
            at=values["when"],
            note=values["note"],
            what=Contaminant(values["what"]),
            count=values["count"],
            source=values["source"],
            tray=values["tray"],
        )
    ]
