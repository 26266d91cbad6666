"""The form that puts a tray on the stack."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from string import ascii_uppercase

from trayturn.advice.roles import free_tray
from trayturn.domain.entries import Entry, TrayStarted
from trayturn.domain.setup import Pattern, Tray
from trayturn.domain.stack import Stack
from trayturn.domain.units import show_mass
from trayturn.tui.screens.forms.entry_forms import HEAVIEST_KG, LEAST_KG, NOTE, WHEN
from trayturn.tui.screens.forms.examples import EXAMPLES
from trayturn.tui.screens.forms.fields import Field, Option
from trayturn.tui.screens.forms.form import Form, Values
from trayturn.tui.screens.forms.lists import write_masses
from trayturn.tui.screens.forms.minded import minded


def start_form(
    stack: Stack,
    trays: Sequence[Tray] = (),
    bedding: Mapping[str, float] | None = None,
    water_kg: float | None = None,
) -> Form:
    """A tray put on the stack. `trays` are the set's, of which those off the stack are offered.

    `bedding` and `water_kg` are what is planned for it, and stand in the form.
    """
    spare = _spare(stack, trays)
    first = not stack.trays
    example = EXAMPLES[stack.setup.units]
    fields = (
        Field(
            "tray", "Tray", "pick", "", tuple(Option(name, name) for name in spare), spare[0], required=True
        ),
        Field(
            "bedding",
            "Bedding",
            "masses",
            f"such as {example.fresh_bedding}",
            default=write_masses(bedding or {}, stack.setup.units),
        ),
        Field(
            "water",
            "Water",
            "mass",
            f"such as {example.water}; {example.a_litre}",
            default=show_mass(water_kg, stack.setup.units) if water_kg else "",
            least=LEAST_KG,
            most=HEAVIEST_KG,
        ),
        Field(
            "stage",
            "To begin with",
            "pick",
            "",
            (Option("", "bedding that waits"), Option("feeding", "fed at once")),
            "feeding" if first else "",
        ),
        Field(
            "level",
            "Level",
            "whole",
            f"{_usual_level(stack)}; or a number, 1 is the lowest",
            least=1,
            most=len(stack.trays) + 1,
        ),
        NOTE,
        WHEN,
    )
    return Form(
        "Put a tray on",
        "Fresh bedding, damp as a wrung-out sponge.",
        fields,
        _started,
        stack.setup.units,
        aside=minded(stack, ["bedding"]),
    )


def _started(values: Values, now: datetime) -> list[Entry]:
    return [
        TrayStarted(
            at=values["when"],
            note=values["note"],
            tray=values["tray"],
            bedding_kg=values["bedding"],
            water_kg=values["water"],
            stage=values["stage"],
            level=values["level"],
        )
    ]


def _spare(stack: Stack, trays: Iterable[Tray]) -> list[str]:
    """Trays off the stack, the one whose turn it is first, and a new letter when the set has none left."""
    standing = {tray.id for tray in stack.trays}
    first = free_tray(stack)
    known = [first] if first else []
    known += [*(tray.id for tray in trays), *(tray.id for tray in stack.off_stack)]
    spare = list(dict.fromkeys(name for name in known if name not in standing))
    return spare or [next(letter for letter in ascii_uppercase if letter not in standing)]


def _usual_level(stack: Stack) -> str:
    return "at the bottom" if stack.setup.pattern is Pattern.BEDDING_BELOW else "on top"
