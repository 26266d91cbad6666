"""`new` and `change`: a profile for a bin, and other figures in it."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Mapping
from enum import StrEnum
from string import ascii_uppercase
from typing import Any

from trayturn.cli import amounts, as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_bin, readable
from trayturn.cli.parsing import Refused, read_moment
from trayturn.clock import Clock
from trayturn.domain.profile import FORMAT, read_setup
from trayturn.domain.setup import BinSetup, Tray, Units
from trayturn.domain.units import parse_area, parse_length, parse_volume
from trayturn.domain.words import clean, count, listed
from trayturn.storage import managing
from trayturn.storage.home import home_dir
from trayturn.storage.managing import create

LABELS = {
    "name": "The name",
    "tray_count": "--trays",
    "tray_area_m2": "--area",
    "tray_depth_m": "--depth",
    "tray_empty_kg": "--empty",
    "sump_capacity_l": "--sump",
    "days_between_turns": "--turn-days",
    "days_between_feedings": "--feed-days",
    "days_between_checks": "--check-days",
    "loosen_minutes": "--loosen-minutes",
    "rest_minutes": "--rest-minutes",
    "places_beside": "--places",
    "trays_on_a_place": "--pile",
    "stands_m": "--stands",
    "places_m": "--places-height",
}


def new(options: Namespace, clock: Clock) -> int:
    """Make the profile and say where it is."""
    setup = _setup(options)
    trays = [Tray(id=letter) for letter in ascii_uppercase[: setup.tray_count]]
    made = create(home_dir(options.home), setup, trays, key=options.key)
    if options.json:
        as_json.print_json({"bin": made.key, "name": setup.name, "path": str(made.path)})
        return 0
    page = Page(options.ascii)
    page.line(f"Made {setup.name}, with {count(len(trays), 'tray')} to go on its stack.")
    page.path("In", made.path)
    page.line(f"Next, what it begins with: trayturn begin {made.key}")
    return 0


def change(options: Namespace, clock: Clock) -> int:
    """Change the figures typed, after a backup, and say which those are."""
    loaded = open_bin(options)
    setup = readable(loaded).bin
    typed = _typed(options, setup.units)
    if not typed:
        raise Refused("Nothing to change was typed. trayturn change --help lists the figures.")
    # They have to be sound together before anything is written.
    wanted = _checked(setup.model_dump(exclude_defaults=True) | {"name": setup.name} | typed)
    other = {key: value for key in typed if (value := getattr(wanted, key)) != getattr(setup, key)}
    saved = managing.change(loaded, {key: _as_written(value) for key, value in other.items()}, clock())
    if options.json:
        as_json.print_json({"bin": saved.key, "changed": sorted(other)})
        return 0
    what = listed(key.replace("_", " ") for key in other) or "nothing; it is so already"
    Page(options.ascii).line(f"Changed in {clean(readable(saved).bin.name, 60)}: {what}.")
    return 0


def _as_written(value: object) -> object:
    """A figure as it stands in the file: a choice by its word."""
    return str(value) if isinstance(value, StrEnum) else value


def _setup(options: Namespace) -> BinSetup:
    """The setup typed, with the usual answer for what was not. Raises `Refused` at the first slip."""
    units = Units.US if (options.units or "").lower() == Units.US else Units.METRIC
    return _checked(_typed(options, units))


def _typed(options: Namespace, units: Units) -> dict[str, Any]:
    """The figures that were typed, by their keys. Raises `Refused`."""
    units = Units(options.units.lower()) if (options.units or "").lower() in list(Units) else units
    typed = {
        "name": options.name.strip() if options.name is not None else None,
        "species": options.species and options.species.lower().replace(" ", "_"),
        "place": options.place,
        "units": options.units and options.units.lower(),
        "began": read_moment(options.began, "--began") if options.began else None,
        "pattern": options.pattern and options.pattern.lower().replace("-", "_").replace(" ", "_"),
        "tray_count": options.trays,
        "tray_area_m2": amounts.read(parse_area, options.area, "--area", units),
        "tray_depth_m": amounts.read(parse_length, options.depth, "--depth", units),
        "tray_empty_kg": amounts.mass(options.empty, "--empty", units),
        "sump_capacity_l": amounts.read(parse_volume, options.sump, "--sump", units),
        "days_between_turns": amounts.plain_number(options.turn_days, "--turn-days"),
        "days_between_feedings": amounts.plain_number(options.feed_days, "--feed-days"),
        "days_between_checks": amounts.plain_number(options.check_days, "--check-days"),
        "loosen_minutes": amounts.plain_number(options.loosen_minutes, "--loosen-minutes", "min"),
        "rest_minutes": amounts.plain_number(options.rest_minutes, "--rest-minutes", "min"),
        "places_beside": options.places,
        "trays_on_a_place": options.pile,
        "stands_m": amounts.read(parse_length, options.stands, "--stands", units),
        "places_m": amounts.read(parse_length, options.places_height, "--places-height", units),
    }
    return {key: value for key, value in typed.items() if value is not None}


def _checked(fields: Mapping[str, Any]) -> BinSetup:
    setup, _, problems = read_setup({"format": FORMAT, "bin": fields})
    if setup is None:
        key = problems[0].key.partition(".")[2]
        raise Refused(f"{LABELS.get(key, f'--{key}')} {problems[0].message}.")
    return setup
