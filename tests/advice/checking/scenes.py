"""A tray to be checked: its journal told as in the other tests, and the readings being taken."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tests.builders import a_profile, entry, moment, started
from trayturn.advice.checking.history import checks_of
from trayturn.advice.checking.kinds import Kind, Value
from trayturn.advice.checking.scene import Scene
from trayturn.advice.pantry import shipped_pantry
from trayturn.domain.entries import Checked, Entry
from trayturn.domain.replay import replay

TRAY_A = started("A", 0, stage="feeding")
"""Half a kilogram of shredded cardboard, fed from the first day on."""


def checked(day: float, tray: str | None = "A", **reading: Any) -> Checked:
    made: Checked = entry("checked", day, tray=tray, **reading)
    return made


def scene(
    *entries: Entry,
    day: float = 30,
    tray: str | None = "A",
    now: Mapping[Kind, Value] | None = None,
    **setup: Any,
) -> Scene:
    """Tray A of the usual bin on that day, with what is read now."""
    profile = a_profile(TRAY_A, *entries, **setup)
    stack = replay(profile, moment(day))
    found = stack.tray(tray) if tray else None
    return Scene(stack, found, checks_of(profile), shipped_pantry(), now or {})
