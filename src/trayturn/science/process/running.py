"""A run of the model for many draws of its rates at once."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache

import numpy as np

from trayturn.science.errors import OutOfRange, within
from trayturn.science.process.bin_state import BinState
from trayturn.science.process.cocoons import days_at_20
from trayturn.science.process.events import Drive, Event, Measured, Stopped
from trayturn.science.process.happening import happen, named
from trayturn.science.process.outcome import Harvest, Run
from trayturn.science.process.rates import Array, Rates
from trayturn.science.process.stepping import Stepper
from trayturn.science.process.watching import Watch, harvested, reading
from trayturn.science.temperature import activity_against

WATCHED = ("tray_kg", "moisture", "worms_kg", "sump_l")
warmth = lru_cache(maxsize=256)(activity_against)


def run(
    drive: Drive,
    rates: Rates,
    watch: Sequence[str] = WATCHED,
    measured: Sequence[Measured] = (),
    steps_per_day: int = 1,
    stop: Callable[[], bool] | None = None,
    begin: BinState | None = None,
) -> Run:
    """The bin from `drive.start` to `drive.end`, by steps of a day: what happens falls on the nearest one.

    It begins empty, or as an earlier run with the same draws ended. Raises `OutOfRange`, and `Stopped` when
    `stop` says so.
    """
    return _Going(drive, rates, watch, measured, steps_per_day, begin).run(stop)


class _Going:
    def __init__(
        self,
        drive: Drive,
        rates: Rates,
        watch: Sequence[str],
        measured: Sequence[Measured],
        steps_per_day: int,
        begin: BinState | None,
    ) -> None:
        within(drive.end, "The end", drive.start, drive.start + 36525, "days")
        within(drive.build.area_m2, "The tray's area", 0.005, 4, "m2")
        within(steps_per_day, "The steps", 1, 1440, "a day")
        self.drive, self.measured, self.per_day = drive, measured, steps_per_day
        self.steps = round((drive.end - drive.start) * steps_per_day)
        self.stepper = Stepper(rates, drive.build)
        self.state = begin.copy() if begin else BinState((), rates.n)
        self.state.add_trays(_trays(drive, measured))
        self.watch = Watch(watch, sorted(self.state.trays), self.steps, rates.n)
        self.harvests: list[Harvest] = []
        self.read: Array = np.zeros((len(measured), rates.n))
        self.moments = self._moments()

    def run(self, stop: Callable[[], bool] | None) -> Run:
        for step in range(self.steps + 1):
            if stop is not None and stop():
                raise Stopped
            if step > 0:
                self._step(step - 1)
            for what in self.moments.get(step, ()):
                self._meet(what)
            self.watch.look(step, self.state, self.stepper)
        self._weigh_harvests()
        days = self.drive.start + np.arange(self.steps + 1) / self.per_day
        return Run(days, self.watch.trays, self.watch.series, tuple(self.harvests), self.read, self.state)

    def _step(self, step: int) -> None:
        celsius = self._celsius(self.drive.start + step / self.per_day)
        days = 1 / self.per_day
        self.stepper.step(self.state, days, warmth(celsius), days_at_20(celsius) * days)

    def _celsius(self, day: float) -> float:
        series = self.drive.celsius
        if isinstance(series, int | float):
            return float(series)
        return series[min(max(0, math.floor(day + 1e-9)), len(series) - 1)]

    def _moments(self) -> dict[int, list[Event | int]]:
        """What happens at each step, in order; a reading by its place in `measured`, before events."""
        all_of_them = [(one.day, 0, place, place) for place, one in enumerate(self.measured)]
        events = [(one.day, 1, place, one) for place, one in enumerate(self.drive.events)]
        moments: dict[int, list[Event | int]] = {}
        for day, _, _, what in sorted([*all_of_them, *events], key=lambda one: one[:3]):
            within(day, "A day", self.drive.start, self.drive.end, "days from the start")
            moments.setdefault(round((day - self.drive.start) * self.per_day), []).append(what)
        return moments

    def _meet(self, what: Event | int) -> None:
        if isinstance(what, int):
            if self.measured[what].kind != "harvest_kg":
                self.read[what] = reading(self.measured[what], self.state)
            return
        self.state.before = self.state.most = None
        harvest = happen(what, self.state, self.stepper)
        if harvest is not None:
            self.harvests.append(harvest)

    def _weigh_harvests(self) -> None:
        for place, what in enumerate(self.measured):
            if what.kind == "harvest_kg":
                self.read[place] = harvested(what, self.harvests)


def _trays(drive: Drive, measured: Sequence[Measured]) -> Iterator[str]:
    """Every tray that is named, once."""
    names = [name for event in drive.events for name in named(event)]
    names += [what.tray for what in measured if what.tray is not None]
    for what in measured:
        if what.tray is None and what.kind not in ("worms_kg", "sump_l"):
            raise OutOfRange(f"A measurement of {what.kind} needs its tray.")
    yield from dict.fromkeys(names)
