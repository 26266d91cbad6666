"""Meals in the making: a tray to lay them on, and drafts of any ingredients."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from hypothesis import strategies as st

from tests.builders import a_profile, entry, fed, moment, started
from trayturn.advice.composing.draft import Draft, Line, Part
from trayturn.advice.composing.ground import Goals, Ground, ground_of
from trayturn.advice.composing.larder import part_of
from trayturn.advice.pantry import Pantry, pantry_of
from trayturn.domain.entries import Entry
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.setup import Ingredient
from trayturn.science.materials import load_materials

DAY = 30.0
WORMS = entry("worms_added", 0, worms_kg=0.5)
NAMES = sorted(row.name for row in load_materials().rows if row.group != "water")
"""Everything in the table that can lie in a tray."""


def a_tray(*entries: Entry, own: tuple[Ingredient, ...] = (), **setup: Any) -> Profile:
    """A bin of one tray, A, fed from its first day on half a kilogram of shredded cardboard."""
    begun = () if any(one.kind == "tray_started" for one in entries) else (started("A", 0, stage="feeding"),)
    return replace(a_profile(*begun, *entries, **setup), ingredients=own)


def ground(*entries: Entry, own: tuple[Ingredient, ...] = (), day: float = DAY, **how: Any) -> Ground:
    """What a meal for tray A is laid on, a month in."""
    goals = how.pop("goals", None)
    profile = a_tray(*entries, own=own, **how)
    found = ground_of(replay(profile, moment(day)), "A", pantry_of(profile), goals or Goals())
    assert found is not None
    return found


def line(name: str, kg: float, pantry: Pantry, **how: Any) -> Line:
    """A line in the part that its name belongs to."""
    return Line(part_of(pantry.meant(name)), name, kg, **how)


def meal(on: Ground, items: Mapping[str, float], **others: float) -> Draft:
    """A draft of those items; bedding, cover, grit and water by keyword, all bedding shredded cardboard."""
    lines = [line(name, kg, on.pantry) for name, kg in items.items()]
    for part, kg in others.items():
        name = "shredded cardboard" if part in ("bedding", "cover") else part
        lines.append(Line(Part(part), name, kg))
    return Draft("A", tuple(lines))


def items() -> st.SearchStrategy[dict[str, float]]:
    """Any few things of the table, or that nobody knows, in any amounts."""
    names = st.sampled_from([*NAMES, "zzyzx", "[red]", "peel of nothing"])
    return st.dictionaries(names, st.floats(0, 20), max_size=6)


def grounds() -> st.SearchStrategy[Ground]:
    """Trays wet and dry, cold and hot, empty and full, with worms counted and not."""
    return st.builds(
        _any_ground,
        st.none() | st.floats(-10, 45),
        st.none() | st.floats(5, 99),
        st.none() | st.floats(0.01, 5),
        st.dictionaries(st.sampled_from(["shredded newspaper", "coir", "straw", "grit"]), st.floats(0.01, 3)),
        st.dictionaries(st.sampled_from(NAMES), st.floats(0.001, 5), max_size=3),
        st.sampled_from(["metric", "us"]),
    )


def _any_ground(
    celsius: float | None,
    moisture: float | None,
    worms: float | None,
    stock: dict[str, float],
    eaten: dict[str, float],
    units: str,
) -> Ground:
    entries: list[Entry] = [fed("A", 10, eaten)] if eaten else []
    if celsius is not None or moisture is not None:
        entries.append(entry("checked", 20, tray="A", temperature_c=celsius, moisture_pct=moisture))
    if worms is not None:
        entries.append(entry("worms_added", 0, worms_kg=worms))
    if stock:
        entries.append(entry("supplies_added", 0, supplies_kg=stock))
    return ground(*entries, units=units)
