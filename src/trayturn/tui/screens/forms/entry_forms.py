"""The forms that write journal entries."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from functools import partial

from trayturn.advice.checking.plausible import cannot_be
from trayturn.advice.feeding import feed_next
from trayturn.domain.entries import (
    Amount,
    Checked,
    Entry,
    Fed,
    Feel,
    Note,
    Pest,
)
from trayturn.domain.replay import standing
from trayturn.domain.stack import Stack
from trayturn.tui.screens.forms.examples import EXAMPLES
from trayturn.tui.screens.forms.fields import Field, Option
from trayturn.tui.screens.forms.form import Form, Values
from trayturn.tui.screens.forms.lists import write_masses
from trayturn.tui.screens.forms.minded import minded

LONG = 20_000
HEAVIEST_KG = 1000
LEAST_KG = 1e-6
WHOLE_BIN = Option("", "whole bin")
NOTE = Field("note", "Note", hint="your own words, if any", most=LONG)
WHEN = Field("when", "When", "when", "now; or 10:30, yesterday 18:00, 2026-03-01 10:00")
FEELS = (
    Option("", "not felt"),
    Option(Feel.DRY, "dry, crumbles"),
    Option(Feel.DAMP, "damp, holds together"),
    Option(Feel.MOIST, "moist, a drop or two"),
    Option(Feel.WET, "wet, runs"),
)
STRAYS = (
    Option("", "not looked"),
    Option(Amount.NONE, "none"),
    Option(Amount.FEW, "few"),
    Option(Amount.MANY, "many"),
)
PESTS = tuple(Option(pest, str(pest)) for pest in Pest)


def feed_form(stack: Stack, last: Fed | None = None, tray: str | None = None) -> Form:
    """A feeding. `last` lends its bedding; `tray` is offered first, or the feeding tray."""
    units, example = stack.setup.units, EXAMPLES[stack.setup.units]
    fields = (
        Field("tray", "Tray", "pick", "", on_stack(stack), tray or fed_now(stack), required=True),
        Field("items", "Scraps", "masses", f"such as {example.scraps}"),
        Field(
            "bedding",
            "Bedding",
            "masses",
            f"such as {example.bedding}",
            default=write_masses(last.bedding_kg, units) if last else "",
        ),
        Field(
            "grit",
            "Grit",
            "mass",
            f"such as {example.grit}; damp it, its dust harms",
            least=LEAST_KG,
            most=HEAVIEST_KG,
        ),
        NOTE,
        WHEN,
    )
    intro = "What went in. An estimate is better than nothing."
    return Form(
        f"Feed {stack.setup.name}",
        intro if stack.trays else _NO_TRAY,
        fields,
        _fed,
        stack.setup.units,
        aside=minded(stack, ["items", "bedding"]),
    )


def _fed(values: Values, now: datetime) -> list[Entry]:
    if not (values["items"] or values["bedding"] or values["grit"]):
        raise ValueError("Nothing to write down yet: fill in scraps, bedding or grit.")
    return [
        Fed(
            at=values["when"],
            note=values["note"],
            tray=values["tray"],
            items_kg=values["items"],
            bedding_kg=values["bedding"],
            grit_kg=values["grit"],
        )
    ]


def last_feeding(journal: Sequence[Entry]) -> Fed | None:
    """The feeding that stands last in the file."""
    return next((entry for _, entry in reversed(standing(journal)) if isinstance(entry, Fed)), None)


def check_form(stack: Stack, tray: str | None = None) -> Form:
    """Readings of a tray or of the whole bin; one reading is enough."""
    fields = (
        Field("tray", "Tray", "pick", "", (WHOLE_BIN, *on_stack(stack)), tray or fed_now(stack)),
        Field("feel", "Squeeze", "pick", "", FEELS),
        Field("moisture_pct", "Moisture", "percent", "such as 70 %", least=0, most=100),
        Field("temperature_c", "Temperature", "temperature", "such as 18 C or 65 F", least=-40, most=80),
        Field("ph", "pH", "number", "such as 7", least=0, most=14),
        Field("smell", "Smell", hint="such as earthy, sour or like ammonia"),
        Field(
            "sump_l",
            "In the sump",
            "volume",
            "such as 250 ml or 1 qt",
            least=0,
            most=stack.setup.sump_capacity_l,
        ),
        Field("strays", "Worms astray", "pick", "", STRAYS),
        Field(
            "gross_kg",
            "Tray weighs",
            "mass",
            f"the tray with what is in it, such as {EXAMPLES[stack.setup.units].full_tray}",
            least=LEAST_KG,
            most=HEAVIEST_KG,
        ),
        Field("worms", "Worms seen", "pick", "", STRAYS),
        Field("pests", "Pests", "several", "such as ants, springtails", PESTS),
        NOTE,
        WHEN,
    )
    return Form(
        f"Check {stack.setup.name}",
        "Fill in what you looked at; leave the rest empty.",
        fields,
        partial(_checked, stack),
        stack.setup.units,
    )


READINGS = (
    "feel",
    "moisture_pct",
    "temperature_c",
    "ph",
    "smell",
    "sump_l",
    "strays",
    "gross_kg",
    "worms",
    "pests",
)


def _checked(stack: Stack, values: Values, now: datetime) -> list[Entry]:
    readings = {name: values[name] for name in READINGS if values[name] not in (None, "", ())}
    if not readings:
        raise ValueError("Nothing to write down yet: fill in at least one reading.")
    if values["tray"] is None and "gross_kg" in readings:
        raise ValueError("A weight is of one tray: pick the tray it belongs to.")
    check = Checked(at=values["when"], note=values["note"], tray=values["tray"], **readings)
    if (trouble := cannot_be(check, stack)) is not None:
        raise ValueError(trouble)
    return [check]


def note_form(stack: Stack, tray: str | None = None) -> Form:
    """The keeper's own words."""
    fields = (
        Field("text", "Note", hint="your own words", required=True, most=LONG),
        Field("tray", "About", "pick", "", (WHOLE_BIN, *on_stack(stack)), tray or ""),
        WHEN,
    )
    return Form(
        f"Note on {stack.setup.name}", "Whatever you want to find again.", fields, _noted, stack.setup.units
    )


def _noted(values: Values, now: datetime) -> list[Entry]:
    return [Note(at=values["when"], text=values["text"], tray=values["tray"])]


_NO_TRAY = "There is no tray on the stack yet: put one on first."


def on_stack(stack: Stack) -> tuple[Option, ...]:
    """The trays on the stack, the top one first, as the keeper meets them."""
    return tuple(Option(tray.id, f"{tray.id} {tray.stage}") for tray in reversed(stack.trays))


def fed_now(stack: Stack) -> str:
    """The tray to feed next, or the bedding tray that can be it; none on an empty stack."""
    feed = feed_next(stack)
    return feed.tray or feed.instead or ""
