"""Keepers made up for the tests: what they do to a stack, and what they would measure."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from trayturn.science.process.events import (
    LOGARITHMIC,
    Build,
    Drive,
    Emptied,
    Event,
    Measured,
    Put,
    Separate,
    SumpEmptied,
    TrayOn,
    Turn,
    WormsPut,
)
from trayturn.science.process.rates import Array, Rates
from trayturn.science.process.running import run

DRY = 0.92
"""The solids of dry bedding, kg/kg."""


@dataclass(frozen=True)
class Habits:
    """How a keeper runs a stack whose fresh trays come in at the bottom and whose top tray is fed."""

    trays: int = 4
    turn_every: int = 60
    feed_every: int = 13
    scraps_kg: float = 1.5
    moisture: float = 0.82
    with_it_kg: float = 0.1
    bedding_kg: float = 0.5
    worms_kg: float = 1.0
    celsius: float | tuple[float, ...] = 20.0
    empties_sump: bool = True
    first_level: int = 1


def stack(habits: Habits, turns: int) -> Drive:
    """So many turns. From the second on each gives a harvest, whose tray comes back in as fresh bedding."""
    order = [chr(ord("A") + place) for place in range(habits.trays)]
    events: list[Event] = [WormsPut(0, habits.worms_kg)]
    for level, tray in enumerate(order, 1):
        events += [TrayOn(0, tray, level), _bedding(0, tray, habits.bedding_kg)]
    for turn in range(1, turns + 1):
        day = turn * habits.turn_every
        events += _meals(habits, order[-1], day - habits.turn_every, day)
        if turn == 1:
            order = [*order[:-2], order[-1], order[-2]]
            events.append(Turn(day, tuple(order)))
        else:
            order = [order[-2], *order[:-3], order[-1], order[-3]]
            events += _harvest(habits, order, day)
    return Drive(Build(), turns * habits.turn_every + 1, tuple(events), habits.celsius)


def _meals(habits: Habits, tray: str, start: int, end: int) -> Iterator[Put]:
    for day in range(start, end, habits.feed_every):
        scraps, dry = habits.scraps_kg, habits.with_it_kg
        water = scraps * habits.moisture + dry * (1 - DRY)
        yield Put(day, tray, scraps * (1 - habits.moisture), dry * DRY, water_kg=water)


def _harvest(habits: Habits, order: list[str], day: int) -> Iterator[Event]:
    """The tray that will be the lowest is separated and comes back in, the others having moved up."""
    yield Turn(day, tuple(order[1:]))
    yield Separate(day, order[0])
    yield Emptied(day, order[0])
    if habits.empties_sump:
        yield SumpEmptied(day)
    yield TrayOn(day, order[0], 1)
    yield _bedding(day, order[0], habits.bedding_kg)


def _bedding(day: float, tray: str, kg: float) -> Put:
    return Put(day, tray, slow_kg=kg * DRY, water_kg=kg * (1 - DRY))


def any_habits(seed: int) -> Habits:
    """Habits of one keeper among many, in a room that is warmer in summer."""
    rng = random.Random(seed)
    middle, swing, begins = rng.uniform(17, 21), rng.uniform(0, 4), rng.uniform(0, 365)
    return Habits(
        trays=rng.randint(3, 5),
        turn_every=rng.randint(45, 75),
        feed_every=rng.randint(7, 14),
        scraps_kg=rng.uniform(0.7, 1.8),
        moisture=rng.uniform(0.76, 0.88),
        with_it_kg=rng.uniform(0.05, 0.25),
        bedding_kg=rng.uniform(0.3, 0.8),
        worms_kg=rng.uniform(0.5, 1.3),
        celsius=tuple(middle + swing * math.sin((day + begins) / 58.1) for day in range(600)),
    )


CUP = 0.15
"""How far off a keeper's cups are, a share of one standard deviation."""


def cupped(drive: Drive, seed: int) -> Drive:
    """What truly went in where the drive holds what the keeper believes."""
    rng = random.Random(seed)

    def off() -> float:
        return math.exp(CUP * rng.gauss(0, 1))

    def true(put: Put) -> Put:
        scraps = off()
        quick, water = put.quick_kg * scraps, put.water_kg * scraps
        return replace(put, quick_kg=quick, water_kg=water, slow_kg=put.slow_kg * off())

    events = tuple(true(event) if isinstance(event, Put) else event for event in drive.events)
    return replace(drive, events=events)


def readings(drive: Drive, habits: Habits) -> list[Measured]:
    """What the keeper looks at: castings on a kitchen scale, trays on a bathroom scale, a handful's feel, a
    count of the worms, the sump. Their values are still to come."""
    found = [Measured(one.day, "harvest_kg", 0, 0.02, one.tray) for one in _separations(drive)]
    for turn in range(int(drive.end) // habits.turn_every):
        fed = next(e for e in drive.events if isinstance(e, Put) and e.day == turn * habits.turn_every)
        begun, middle = fed.day + 10, fed.day + habits.turn_every // 2
        found += [Measured(middle, "tray_kg", 0, 0.05, top_tray(drive, middle))]
        found += [Measured(day, "moisture", 0, 0.05, top_tray(drive, day)) for day in (begun, middle)]
        found += [Measured(middle, "food_left", 0, 0.1, top_tray(drive, middle))]
        found += [Measured(fed.day + habits.turn_every - 1, "sump_l", 0, 0.1)]
    return [*found, Measured(habits.turn_every - 2, "worms_kg", 0, 0.2)]


def _separations(drive: Drive) -> list[Separate]:
    return [event for event in drive.events if isinstance(event, Separate)]


def top_tray(drive: Drive, day: float) -> str:
    """The tray that is fed at that time."""
    meals = [e for e in drive.events if isinstance(e, Put) and e.quick_kg > 0 and e.day <= day]
    return max(meals, key=lambda meal: meal.day).tray


def measure(drive: Drive, truth: Rates, planned: list[Measured], seed: int) -> list[Measured]:
    """The readings of a bin whose rates are the truth, one draw, with errors of the size said."""
    read = run(drive, truth, (), planned).read[:, 0]
    error = np.random.default_rng(seed).standard_normal(len(planned))
    return [
        replace(what, value=_off(what, value, e)) for what, value, e in zip(planned, read, error, strict=True)
    ]


def _off(what: Measured, value: float, error: float) -> float:
    if what.kind in LOGARITHMIC:
        return float(value * math.exp(what.sd * error))
    return float(value + what.sd * error)


def one_draw(rates: Rates, place: int) -> Rates:
    """The rates of one draw alone."""
    picked: list[Array] = [values[place : place + 1] for values in rates.all()]
    return Rates(*picked)


def solids_of(drive: Drive, tray: str, day: float) -> float:
    """The solids put into a tray since it was last emptied before that day, kg, as the keeper believes."""
    begun = max(
        (e.day for e in drive.events if isinstance(e, Emptied) and e.tray == tray and e.day < day), default=0
    )
    puts = [e for e in drive.events if isinstance(e, Put) and e.tray == tray and begun <= e.day < day]
    return sum(put.quick_kg + put.slow_kg for put in puts)
