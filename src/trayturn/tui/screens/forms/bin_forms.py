"""The forms about a bin itself: a new one, another name, a copy."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from string import ascii_uppercase

from trayturn.domain.setup import SPECIES, BinSetup, Pattern, Tray, Units
from trayturn.domain.units import show_area, show_length, show_mass, show_volume
from trayturn.tui.screens.forms.fields import Field, Option
from trayturn.tui.screens.forms.form import UNITS, Form, Values

NAME = Field("name", "Name", hint="such as Pantry, or the room it stands in", required=True, most=80)
UNIT_CHOICES = (Option(Units.METRIC, "metric (g, cm)"), Option(Units.US, "US (oz, in)"))
WAYS = (
    Option(Pattern.BEDDING_BELOW, "bedding below, the top tray is fed"),
    Option(Pattern.STRAIGHT_UP, "straight up, fresh trays go on top"),
)
TURNS = Field(
    "days_between_turns",
    "Turn days",
    "number",
    "days between turns",
    default="60",
    required=True,
    least=1,
    most=730,
)
MORE = (
    Field(
        "days_between_feedings", "Feeding days", "number", "12 unless you say", least=0.1, most=365, more=True
    ),
    Field("days_between_checks", "Check days", "number", "7 unless you say", least=0.1, most=365, more=True),
    Field(
        "tray_area_m2",
        "Tray area",
        "area",
        "0.16 m2 (1.7 ft2) unless you say",
        least=0.006,
        most=4,
        more=True,
    ),
    Field(
        "tray_depth_m", "Tray depth", "length", "15 cm (6 in) unless you say", least=0.021, most=1, more=True
    ),
    Field("tray_empty_kg", "Empty tray", "mass", "900 g (2 lb) unless you say", least=0, most=50, more=True),
    Field(
        "sump_capacity_l",
        "Sump holds",
        "volume",
        "5 l (5.3 qt) unless you say",
        least=0.01,
        most=200,
        more=True,
    ),
    Field(
        "loosen_minutes", "Loosening", "minutes", "3.5 min unless you say", least=0.1, most=1440, more=True
    ),
    Field("rest_minutes", "Each rest", "minutes", "15 min unless you say", least=0.1, most=1440, more=True),
    Field(
        "places_beside",
        "Places beside",
        "whole",
        "2 unless you say: where trays can be put down",
        least=1,
        most=10,
        more=True,
    ),
    Field("trays_on_a_place", "Trays on one", "whole", "2 unless you say", least=1, most=10, more=True),
    Field("stands_m", "Bin stands", "length", "0 over the floor unless you say", least=0, most=2, more=True),
    Field("places_m", "Places' height", "length", "75 cm (30 in) unless you say", least=0, most=2, more=True),
)


@dataclass(frozen=True, slots=True)
class NewBin:
    """What a new profile begins with."""

    setup: BinSetup
    trays: tuple[Tray, ...]


def new_bin_form(units: Units = Units.METRIC) -> Form:
    """A few questions, each with a sensible answer; more of them on request. Builds a `NewBin`."""
    fields = (
        NAME,
        Field(UNITS, "Units", "pick", "", UNIT_CHOICES, units, required=True),
        Field(
            "tray_count",
            "Trays",
            "whole",
            "how many the set has",
            default="4",
            required=True,
            least=1,
            most=20,
        ),
        Field(
            "species",
            "Worms",
            "pick",
            "",
            tuple(Option(k, v) for k, v in SPECIES.items()),
            "eisenia_fetida",
            required=True,
        ),
        Field("place", "Place", hint="where it stands, if you like"),
        Field("pattern", "Pattern", "pick", "", WAYS, Pattern.BEDDING_BELOW, required=True),
        TURNS,
        *MORE,
    )
    intro = "One profile for one stack of trays; its file can be changed later."
    return Form("New bin", intro, fields, _new_bin, units, "Make it")


def _new_bin(values: Values, now: datetime) -> NewBin:
    given = {name: value for name, value in values.items() if value not in (None, "")}
    setup = BinSetup(**given)
    return NewBin(setup, tuple(Tray(id=letter) for letter in ascii_uppercase[: setup.tray_count]))


def change_form(setup: BinSetup) -> Form:
    """Another shown name, or other figures; what is left empty stays. Builds them by their keys in [bin]."""
    fields = (_named(setup.name), *(_as_it_is(field, setup) for field in (TURNS, *MORE)))
    intro = "Another name, or other figures; what is left empty stays as it is."
    return Form(f"Change {setup.name}", intro, fields, _figures, setup.units, "Change")


SHOWN: dict[str, Callable[[float, Units], str]] = {
    "mass": show_mass,
    "volume": show_volume,
    "length": show_length,
    "area": show_area,
}


def _as_it_is(field: Field, setup: BinSetup) -> Field:
    """The same question, left empty, with what stands now beside it."""
    value = getattr(setup, field.name)
    shown = SHOWN[field.kind](value, setup.units) if field.kind in SHOWN else f"{value:g}"
    unit = " min" if field.kind == "minutes" else ""
    return replace(field, hint=f"{shown}{unit} now", default="", required=False, more=True)


def _figures(values: Values, now: datetime) -> dict[str, object]:
    return {name: value for name, value in values.items() if value not in (None, "")}


def copy_form(name: str) -> Form:
    """A copy to try things out on. Builds the copy's name."""
    intro = "The whole profile with its journal, under another name. The first is not touched."
    return Form(f"Copy {name}", intro, (_named(f"{name} (copy)"[:80]),), _name, save_word="Copy")


def _named(default: str) -> Field:
    return Field(NAME.name, NAME.label, default=default, required=True, most=80)


def _name(values: Values, now: datetime) -> str:
    return str(values["name"])
