"""The form that writes down worms: put in, taken out, or moved to another bin, by weight or by number."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import partial

from trayturn.advice.splitting import (
    half_of,
    number_words,
    side_words,
    split_advice,
    weight_of,
    why_no_weight,
    worms_remark,
)
from trayturn.domain.entries import Entry, WormsAdded, WormsRemoved
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean
from trayturn.procedure.splitting import Split, may_go_along
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
from trayturn.tui.screens.forms.fields import Field, Option, read
from trayturn.tui.screens.forms.form import Form, Slip, Values

Texts = Mapping[str, str]
WAYS = (Option("in", "put in"), Option("out", "taken out"), Option("move", "moved to another bin"))
NEW = "+"
"""Stands for a bin still to be made, among the short names of bins. None of those can be this."""
COUNTED = Field("counted", "Or number", "whole", "where you counted them", least=1, most=1_000_000)
NAME = Field(
    "name",
    "Its name",
    hint="such as Shed, or whose it is",
    required=True,
    most=80,
    asked=lambda texts: _moving(texts) and texts["to"] == NEW,
)


@dataclass(frozen=True, slots=True)
class Moving:
    """Worms to be moved: `to` is the other bin's short name, None for a new one of that `name`."""

    split: Split
    to: str | None
    name: str


def worms_form(
    stack: Stack, others: Mapping[str, Stack] | None = None, way: str = "in", planned_kg: float | None = None
) -> Form:
    """Worms put in, taken out or moved. Builds entries, or a `Moving`.

    `others` are the bins they can go to, `planned_kg` is the weight that stands in the form.
    """
    there = dict(others or {})
    bins = tuple(Option(key, clean(other.setup.name, 30)) for key, other in there.items())
    along = tuple(Option(tray, f"tray {tray}") for tray in may_go_along(stack))
    mass = _mass(stack.setup.units, planned_kg)
    fields = (
        Field("way", "Worms", "pick", "", WAYS, way, required=True),
        mass,
        COUNTED,
        _to((*bins, Option(NEW, "a new bin"))),
        NAME,
        Field("along", "Goes along", "pick", "", (Option("", "worms alone"), *along), asked=_moving),
        Field("tray", "Tray", "pick", "", (WHOLE_BIN, *on_stack(stack)), fed_now(stack), asked=_of_a_tray),
        Field("place", "From or to", hint="where they came from or went to", asked=_not_moving),
        NOTE,
        WHEN,
    )
    return Form(
        f"Worms of {stack.setup.name}",
        "By weight without bedding, or by number where you counted.",
        fields,
        partial(_built, stack),
        stack.setup.units,
        aside=_aside(stack, there, mass),
    )


def _mass(units: Units, planned_kg: float | None) -> Field:
    return Field(
        "kg",
        "Mass",
        "mass",
        f"such as {EXAMPLES[units].worms}",
        default=show_mass(planned_kg, units) if planned_kg else "",
        least=LEAST_KG,
        most=HEAVIEST_KG,
        here=True,
    )


def _to(options: tuple[Option, ...]) -> Field:
    return Field("to", "To", "pick", "", options, options[0].value, required=True, asked=_moving)


def _moving(texts: Texts) -> bool:
    return texts["way"] == "move"


def _not_moving(texts: Texts) -> bool:
    return not _moving(texts)


def _of_a_tray(texts: Texts) -> bool:
    """A tray that goes along is the one they are in."""
    return not (_moving(texts) and texts["along"])


def _built(stack: Stack, values: Values, now: datetime) -> list[Entry] | Moving:
    at, note, tray = (values[name] for name in ("when", "note", "tray"))
    kg, counted = _amount(values, stack.setup.species)
    if values["way"] == "move":
        split = Split(at, kg, counted, values["along"] or None, tray or None, note)
        return Moving(split, None if values["to"] == NEW else values["to"], values["name"] or "")
    if values["way"] == "in":
        return [WormsAdded(at=at, note=note, tray=tray, worms_kg=kg, source=values["place"], counted=counted)]
    return [WormsRemoved(at=at, note=note, tray=tray, worms_kg=kg, went_to=values["place"], counted=counted)]


def _amount(values: Values, species: str) -> tuple[float, int | None]:
    """The weight typed, or that of the number typed. Raises `Slip`."""
    kg, counted = values["kg"], values["counted"]
    if kg is not None:
        return kg, counted
    if counted is None:
        raise Slip("kg", "Mass is still to be filled in, or the number below it.")
    band = weight_of(counted, species)
    if band is None:
        raise Slip("counted", why_no_weight(species))
    return band.mid, counted


def _aside(stack: Stack, others: Mapping[str, Stack], mass: Field) -> Callable[[Texts, datetime], str]:
    """What the form says so far: what is odd, what a number weighs, how both bins stand after a move."""

    def said(texts: Texts, now: datetime) -> str:
        return "\n".join(line for line in (odd(texts, now), told(texts, now)) if line)

    def odd(texts: Texts, now: datetime) -> str:
        try:
            kg = read(mass, texts[mass.name], stack.setup.units, now)
        except ValueError:
            return ""
        return worms_remark(stack, kg, into=texts["way"] == "in") if kg else ""

    def told(texts: Texts, now: datetime) -> str:
        """What is remarked on the worms as they are typed so far."""
        units = stack.setup.units
        try:
            amounts = {one.name: read(one, texts[one.name], units, now) for one in (mass, COUNTED)}
            kg, counted = _amount(amounts, stack.setup.species)
            if not _moving(texts):
                return " ".join(number_words(stack.setup, kg, counted)) if not texts["kg"] else ""
            other = others.get(texts["to"])
            name = other.setup.name if other is not None else texts["name"].strip() or "The new bin"
            advice = split_advice(stack, other, name, kg, counted)
        except ValueError:
            return _half(stack) if _moving(texts) else ""
        sides = [side for side in (advice.one, advice.other) if side is not None]
        return "\n".join(side_words(side, units) for side in sides)

    return said


def _half(stack: Stack) -> str:
    half = half_of(stack)
    if half is None:
        return "Half of them by weight, or so. How many there are is not written down."
    return f"Half by weight is about {show_mass(half, stack.setup.units)}: common practice, no source."
