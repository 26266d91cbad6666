"""What the keeper measured, with how far each reading may be off.

Which scale was used is not in the journal: what a kitchen scale can carry counts as weighed on one, what is
heavier on a bathroom or luggage scale. Both errors are the working values of the outlook's design, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.outlook.calendar import Calendar
from trayturn.advice.outlook.history import History
from trayturn.advice.outlook.result import PointKind
from trayturn.advice.reading import FEEL_BAND_PCT, FEEL_PCT
from trayturn.domain.entries import Checked, Settled
from trayturn.domain.profile import Profile
from trayturn.domain.replay import Told
from trayturn.science.process.events import Kind, Measured, Separate

KITCHEN_MOST_KG = 5.0
"""What a kitchen scale carries. Common practice, no source."""
KITCHEN, BATHROOM = 0.02, 0.05
"""One standard deviation of a weight, as a share of it."""
HANDFUL = 0.05
"""How far the moisture of a handful may lie from that of its tray. Our choice."""
MOISTURE = math.hypot(FEEL_BAND_PCT / 100, HANDFUL)
"""Of a moisture reading, by feel or by a meter, which is not trusted further."""
WORMS = 0.20
"""Of all the worms, weighed or reckoned from a count, as a share. Our choice."""
FOOD_LEFT = 0.10
"""Of the share of the food that is still to be seen. Our choice."""
SUMP_L, SUMP = 0.3, 0.2
"""Of a sump, as a share and in litres at least: it is read by eye, and drops find their way down before all
bedding above is soaked, which the model does not know. Our choice."""
LEAST_KG = 0.05
"""Contents lighter than this cannot be told from the tray."""
SHOWN: dict[Kind, PointKind] = {
    "harvest_kg": "castings",
    "tray_kg": "tray",
    "moisture": "moisture",
    "food_left": "food left",
    "worms_kg": "worms",
    "sump_l": "sump",
}
"""What each kind of measurement is called outside."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A measurement with the moment and the entry it stands in."""

    what: Measured
    at: datetime
    entry: int

    @property
    def kind(self) -> PointKind:
        """What it is called."""
        return SHOWN[self.what.kind]


def readings_of(history: History, profile: Profile) -> tuple[Reading, ...]:
    """Everything measured up to now, in the order of the journal.

    Trays off the stack tell nothing, nor what is older than the model goes back, and castings count once
    for each separation.
    """
    separated = {(e.tray, e.day): True for e in history.events if isinstance(e, Separate)}
    found: list[Reading] = []
    for one in history.tolds:
        for what in _read(one, history.calendar, profile):
            if what.day < history.start:
                continue
            if what.kind != "harvest_kg" or separated.pop((what.tray or "", what.day), False):
                found.append(Reading(what, one.entry.at, one.place))
    return tuple(found)


def _read(one: Told, calendar: Calendar, profile: Profile) -> Iterator[Measured]:
    day, entry = calendar.day(one.at), one.entry
    if isinstance(entry, Checked):
        yield from _checked(entry, day, one, profile)
    elif isinstance(entry, Settled) and entry.castings_kg is not None:
        yield Measured(day, "harvest_kg", entry.castings_kg, scale_sd(entry.castings_kg), entry.tray)


def _checked(entry: Checked, day: float, one: Told, profile: Profile) -> Iterator[Measured]:
    if entry.sump_l is not None:
        yield Measured(day, "sump_l", entry.sump_l, sump_sd(entry.sump_l))
    if entry.worms_kg is not None:
        yield Measured(day, "worms_kg", entry.worms_kg, WORMS)
    if entry.tray is None or entry.tray not in one.before:
        return
    percent = entry.moisture_pct
    if percent is None and entry.feel is not None:
        percent = FEEL_PCT[entry.feel]
    if percent is not None:
        yield Measured(day, "moisture", percent / 100, MOISTURE, entry.tray)
    if entry.food_left_pct is not None:
        yield Measured(day, "food_left", entry.food_left_pct / 100, FOOD_LEFT, entry.tray)
    if entry.gross_kg is not None:
        held = entry.gross_kg - profile.empty_kg(entry.tray)
        if held > LEAST_KG:
            off = scale_sd(entry.gross_kg) * entry.gross_kg / held
            yield Measured(day, "tray_kg", held, off, entry.tray)


def scale_sd(kg: float) -> float:
    """How far such a weight may be off, as a share of it."""
    return KITCHEN if kg <= KITCHEN_MOST_KG else BATHROOM


def sump_sd(litres: float) -> float:
    """How far a sump may be off, litres."""
    return max(SUMP_L, SUMP * litres)
