"""From the journal to what drives the model: trays and meals, worms, the sump, and how warm it was."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import pairwise

from trayturn.advice.contents import ROOM_C
from trayturn.advice.outlook.calendar import Calendar, calendar_of
from trayturn.advice.outlook.happened import Reader
from trayturn.advice.pantry import pantry_of
from trayturn.domain.entries import Checked, Fed, Undone, WormsAdded
from trayturn.domain.profile import Profile
from trayturn.domain.replay import Told, told
from trayturn.domain.setup import BinSetup, Units
from trayturn.domain.units import show_mass, show_temperature
from trayturn.domain.words import clean, listed
from trayturn.science.process.events import Build, Drive, Event, Put, Separate, SumpEmptied, WormsPut
from trayturn.science.ration import STOCKING_KG_M2

WITHOUT_WORMS_DAYS = 14.0
"""A bin fed for longer than this before any worms are written down had some already. Our choice."""
LESS_L = 0.02
"""A sump that reads lower by more than this was emptied since. Our choice."""
NEVER_FULL_L = 10_000.0
"""The model's sump never runs over, so that what drips can be told; how much fits is minded afterwards."""
OLDEST_DAYS = 2 * 365
"""What went in longer ago than this is castings long since. Our choice."""
ONE_STEP = 1e-6
"""Days: enough for one thing to come after another."""


@dataclass(frozen=True, slots=True)
class History:
    """A bin's past as the model takes it.

    `tolds` are the entries up to now, `events` what they come to, `ahead` what those after now do, which a
    plan adds. `celsius` has a temperature for each day up to today. `assumed` says what the journal does not.
    """

    calendar: Calendar
    setup: BinSetup
    tolds: tuple[Told, ...]
    events: tuple[Event, ...]
    ahead: tuple[Event, ...]
    celsius: tuple[float, ...]
    assumed: tuple[str, ...]

    @property
    def fed(self) -> bool:
        """Whether anything was fed."""
        return any(isinstance(event, Put) and event.quick_kg > 0 for event in self.events)

    @property
    def build(self) -> Build:
        """The trays, over a sump that never runs over."""
        return Build(self.setup.tray_area_m2, NEVER_FULL_L)

    @property
    def start(self) -> int:
        """The day on which the model begins: the first, or two years ago."""
        return max(0, self.calendar.today - OLDEST_DAYS)

    @property
    def drive(self) -> Drive:
        """The past up to and with today."""
        until = self.calendar.today + 0.5 - ONE_STEP
        return Drive(self.build, until, self.events, self.celsius, float(self.start))


def history_of(profile: Profile, now: datetime, until: datetime | None = None) -> History:
    """The journal up to `now`; with `until`, of a profile that holds a plan, also what comes after now."""
    entries = tuple(one for one in told(profile, until or now) if not isinstance(one.entry, Undone))
    past = tuple(one for one in entries if one.at <= now)
    calendar = calendar_of((one.entry.at for one in past), now)
    reader = Reader(calendar, profile.bin, pantry_of(profile))
    events = tuple(reader.read(past))
    assumed = tuple(_assumed(reader, profile.bin.units))
    worms, worms_said = _first_worms(past, calendar, profile.bin)
    celsius, warmth_said = _celsius(past, calendar, profile.bin.units)
    every = (*worms, *events, *_sump_emptied(past, calendar))
    return History(
        calendar,
        profile.bin,
        past,
        tuple(_not_too_old(every, calendar.today - OLDEST_DAYS)),
        tuple(reader.read(entries[len(past) :])),
        celsius,
        (*worms_said, *warmth_said, *assumed),
    )


def _not_too_old(events: Sequence[Event], start: int) -> Iterator[Event]:
    """What happened before the model begins happens on that day, in its order; harvests of then are gone."""
    for event in events:
        if event.day >= start:
            yield event
        elif not isinstance(event, Separate):
            yield replace(event, day=float(start))


def _assumed(reader: Reader, units: Units) -> Iterator[str]:
    if reader.unfilled:
        trays, kg = listed(reader.unfilled), show_mass(reader.fill_kg, units)
        yield f"How much bedding went into tray {trays} is not written down: a tray full, {kg}, is assumed."
    if reader.stand_ins:
        names = [clean(name, 40) for name in reader.stand_ins]
        shown = listed([*names[:3], *([f"{len(names) - 3} more"] if len(names) > 3 else [])])
        yield f"Not in the table of ingredients, and reckoned as mixed kitchen scraps: {shown}."


def _first_worms(
    past: Sequence[Told], calendar: Calendar, setup: BinSetup
) -> tuple[tuple[Event, ...], tuple[str, ...]]:
    """Worms that nobody wrote down: where meals began long before any came, the best stocking is assumed."""
    meals = [one.at for one in past if isinstance(one.entry, Fed)]
    written = [one.at for one in past if isinstance(one.entry, WormsAdded)]
    if not meals:
        return (), ()
    first = calendar.day(meals[0])
    if written and calendar.day(written[0]) <= first + WITHOUT_WORMS_DAYS:
        return (), ()
    kg = STOCKING_KG_M2 * setup.tray_area_m2
    said = (
        f"No worms are written down before the first meal: {show_mass(kg, setup.units)} are assumed, the "
        "density that did best in a trial (Ndegwa et al. 2000)."
    )
    return (WormsPut(first, kg),), (said,)


def _sump_emptied(past: Sequence[Told], calendar: Calendar) -> Iterator[Event]:
    """A sump only fills: one that reads lower was emptied after it was looked at last."""
    read = [one for one in past if isinstance(one.entry, Checked) and one.entry.sump_l is not None]
    for earlier, later in pairwise(read):
        if _litres(later) < _litres(earlier) - LESS_L:
            yield SumpEmptied(calendar.day(earlier.at) + ONE_STEP)


def _litres(one: Told) -> float:
    assert isinstance(one.entry, Checked)
    return one.entry.sump_l or 0.0


def _celsius(
    past: Sequence[Told], calendar: Calendar, units: Units
) -> tuple[tuple[float, ...], tuple[str, ...]]:
    """A temperature for each day: in a straight line between readings, and outside them the nearest one."""
    read: dict[int, float] = {}
    for one in past:
        if isinstance(one.entry, Checked) and one.entry.temperature_c is not None:
            read[int(calendar.day(one.at))] = one.entry.temperature_c
    if not read:
        room = show_temperature(ROOM_C, units)
        return (ROOM_C,) * (calendar.today + 1), (f"No temperature is written down: {room} is assumed.",)
    return tuple(_day_by_day(sorted(read.items()), calendar.today)), ()


def _day_by_day(read: Sequence[tuple[int, float]], today: int) -> Iterator[float]:
    """A value for each day up to today from values of some days, the earliest first."""
    place = 0
    for day in range(today + 1):
        while place < len(read) and read[place][0] < day:
            place += 1
        (first, low), (last, high) = read[max(0, place - 1)], read[min(place, len(read) - 1)]
        share = (day - first) / (last - first) if last > first and day > first else 0.0
        yield low + share * (high - low)
