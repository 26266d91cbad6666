"""The plan run ahead: harvests, what the trays, worms and sump come to, and when something is full."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from functools import cached_property
from typing import TYPE_CHECKING

from trayturn.advice.outlook import figures
from trayturn.advice.outlook.ahead import planned
from trayturn.advice.outlook.fitted import WATCHED, Known, Stop
from trayturn.advice.outlook.history import ONE_STEP, History, history_of
from trayturn.advice.outlook.makeup import Makeup, bedding, scraps
from trayturn.advice.outlook.result import Days, Fan, Five, Harvest, Plan
from trayturn.advice.outlook.thumb import solids_in, thumb_band, thumb_of
from trayturn.advice.pantry import pantry_of
from trayturn.domain.entries import Stage
from trayturn.domain.profile import Profile
from trayturn.domain.stack import Stack
from trayturn.science.process.events import Drive, Event, Separate, Turn
from trayturn.science.temperature import activity_against

if TYPE_CHECKING:
    from trayturn.science.process.outcome import Run
    from trayturn.science.process.rates import Array

SOAKED = 0.95
"""Bedding counts as soaked when it holds so much of all it can. Our choice."""
LEAST_HARVEST_KG = 0.01
"""What is less than this is no harvest."""
TO_THE_END = 0.5 - ONE_STEP
"""Of its last day, in days: all that happens on a day falls before its middle."""


@dataclass(frozen=True)
class Coming:
    """What comes of a plan, day by day from today on."""

    history: History
    stack: Stack
    known: Known
    plan: Plan
    ahead: tuple[Event, ...]
    run: Run
    seed: int

    @property
    def today(self) -> int:
        return self.history.calendar.today

    @property
    def days(self) -> int:
        """How many days ahead it goes."""
        return len(self.run.days) - 1

    @cached_property
    def drive(self) -> Drive:
        """The past and the plan as one."""
        return replace(
            self.history.drive.then(self.ahead, self.today + self.days + TO_THE_END),
            celsius=celsius(self.history, self.plan, self.days),
        )

    @cached_property
    def weighed(self) -> tuple[tuple[float, str, Array], ...]:
        """Day, tray and castings as a scale would show them, of each harvest."""
        from trayturn.science.process.telling import as_weighed

        return tuple(
            (one.day, one.tray, as_weighed(one.kg, self.seed + place))
            for place, one in enumerate(self.run.harvests)
        )

    def harvests(self, thumb_width: float | None) -> tuple[Harvest, ...]:
        """The harvests to come; by the rule of thumb where its width is given."""
        return tuple(
            self._harvest(place, thumb_width)
            for place, (_, _, kg) in enumerate(self.weighed)
            if figures.five(kg).p90 > LEAST_HARVEST_KG
        )

    def _harvest(self, place: int, thumb_width: float | None) -> Harvest:
        one, (day, tray, kg) = self.run.harvests[place], self.weighed[place]
        calendar, off = self.history.calendar, self.plan.turn_off_days
        noons = [calendar.noon(max(self.today, round(day + ahead))) for ahead in (0.0, -off, off)]
        if thumb_width is not None:
            castings = thumb_band(thumb_of(self.solids_in(tray, day)), thumb_width)
            return Harvest(noons[0], noons[1], noons[2], tray, castings, one.age_d)
        moist, hatched = figures.five(one.moisture), figures.five(one.hatched)
        return Harvest(noons[0], noons[1], noons[2], tray, figures.five(kg), one.age_d, moist, hatched)

    def solids_in(self, tray: str, day: float) -> float:
        """Solids that went into a tray before it is separated that day, kg."""
        return solids_in((*self.history.events, *self.ahead), tray, day)

    @cached_property
    def target(self) -> str | None:
        """The tray whose castings are followed: the next to be separated of those that stand, or the fed."""
        standing = {tray.id for tray in self.stack.trays}
        for _, tray, _ in self.weighed:
            if tray in standing:
                return tray
        order = (Stage.SEPARATING, Stage.FINISHING, Stage.FEEDING)
        found = [tray.id for stage in order for tray in self.stack.in_stage(stage)]
        return found[0] if found else None

    def leaves(self, tray: str) -> int:
        """On which day from today on the tray is emptied; the day after the last where it is not."""
        days = [round(e.day) for e in self.ahead if _empties(e, tray)]
        return min(days, default=self.today + self.days + 1)

    def series(self, castings: bool = True) -> dict[str, Fan]:
        """All fans, with the past before today."""
        recent, first = self.known.recent, round(float(self.known.recent.days[0])) - self.today
        found = {
            "worms": figures.joined(
                figures.fan(recent.series["worms_kg"], first), figures.fan(self.run.series["worms_kg"], 0)
            ),
            "sump": self._sump_fan(first),
        }
        if castings and self.target is not None:
            wet = (figures.castings_wet(recent, self.target), figures.castings_wet(self.run, self.target))
            found["castings"] = self._of_tray(self.target, *wet)
        for tray in self.stack.trays:
            row = (recent.trays.index(tray.id), self.run.trays.index(tray.id))
            moist = (recent.series["moisture"][:, row[0]], self.run.series["moisture"][:, row[1]])
            found[f"moisture:{tray.id}"] = self._of_tray(tray.id, *moist)
        return found

    def _of_tray(self, tray: str, recent: Array, coming: Array) -> Fan:
        """A tray's series from when it was started until it leaves."""
        state = self.stack.tray(tray)
        first = round(float(self.known.recent.days[0]))
        started = round(self.history.calendar.day(state.started_at)) if state is not None else first
        skip = max(0, started - first)
        past = figures.fan(recent[skip:], first + skip - self.today)
        left = self.leaves(tray) - self.today
        return figures.joined(past, figures.fan(coming[:left], 0)) if left > 0 else past

    def turns(self) -> tuple[datetime, ...]:
        """The turns from where the series begin, made and planned."""
        first = round(float(self.known.recent.days[0]))
        events = (*self.history.events, *self.ahead)
        days = {round(e.day) for e in events if isinstance(e, Turn) and e.day >= first}
        return tuple(self.history.calendar.noon(day) for day in sorted(days))

    @cached_property
    def sump(self) -> Array:
        """What would stand in a sump that never runs over and is not emptied, litres: (days, draws)."""
        level: Array = (self.run.series["sump_l"] + self.known.sump_off).clip(0)
        return level

    def _sump_fan(self, first: int) -> Fan:
        """The past as the model has it until the sump was last read, and from there on as it was read."""
        capacity, level = self.history.setup.sump_capacity_l, self.known.recent.series["sump_l"]
        read = self.known.sump_read
        if read is not None:
            level = level.copy()
            level[max(0, read - self.today - first) :] += self.known.sump_off
        past = figures.fan(level.clip(0, capacity), first)
        return figures.joined(past, figures.fan(self.sump.clip(0, capacity), 0))

    def sump_full_on(self) -> Days | None:
        """When the sump is full if nobody empties it."""
        full = figures.first_days(self.sump >= self.history.setup.sump_capacity_l)
        return figures.days_band(full, len(self.sump), self.history.calendar)

    @property
    def bottom(self) -> str | None:
        """The lowest tray, where it is bedding that takes up what drips."""
        lowest = self.stack.trays[0] if self.stack.trays else None
        return lowest.id if lowest is not None and lowest.stage is Stage.BEDDING else None

    def soaked_on(self) -> Days | None:
        """When the lowest tray holds nearly all the water it can."""
        if self.bottom is None:
            return None
        row = self.run.trays.index(self.bottom)
        water = self.run.series["water_kg"][:, row]
        solids = self.run.series["tray_kg"][:, row] - water
        soaked = water >= SOAKED * self.known.rates.holds * solids
        left = self.leaves(self.bottom) - self.today
        if left <= 0:
            return None
        first = figures.first_days(soaked[:left])
        return figures.days_band(first, len(soaked[:left]), self.history.calendar)

    def finishing_kg(self) -> Five | None:
        """What the followed tray would give if it were separated today."""
        from trayturn.science.process.telling import as_weighed

        if self.target is None:
            return None
        return figures.five(as_weighed(figures.castings_wet(self.known.recent, self.target)[-1], self.seed))

    def scraps_a_week(self, profile: Profile) -> Five:
        """Scraps that keep the worms there are, with the bedding that goes along, kg fresh a week."""
        meal = meal_of(self.plan, profile)
        worms, need = self.known.recent.series["worms_kg"][-1], self.known.rates.need
        warmth = activity_against(self.plan.celsius)
        return figures.five(worms * need * (7 * warmth / max(meal.solids_kg, 0.01)))


def meal_of(plan: Plan, profile: Profile) -> Makeup:
    """What a kg of scraps and its bedding come to."""
    pantry = pantry_of(profile)
    return scraps(plan.mix, pantry) + bedding({plan.bedding: plan.bedding_ratio}, pantry)


def _empties(event: Event, tray: str) -> bool:
    return isinstance(event, Separate) and event.tray == tray


def celsius(history: History, plan: Plan, days: int) -> tuple[float, ...]:
    """A temperature for each day of the past and the plan."""
    coming = [plan.celsius] * (days + 1)
    if plan.spell is not None:
        begins, long, degrees = plan.spell
        first = round(history.calendar.day(begins)) - history.calendar.today
        for day in range(max(0, first), min(days + 1, first + round(long))):
            coming[day] = degrees
    return (*history.celsius[: history.calendar.today], *coming)


def come(
    profile: Profile,
    stack: Stack,
    history: History,
    known: Known,
    plan: Plan,
    days: int,
    seed: int,
    stop: Stop = None,
) -> Coming:
    """Run the plan ahead from today."""
    from trayturn.science.process.running import run

    today = history.calendar.today
    last = history.calendar.noon(today + days)
    ahead = history_of(planned(profile, history, plan, today + days), history.calendar.now, last).ahead
    end = known.end
    if plan.worms_share != 1.0:
        end = end.copy()
        end.worms = end.worms * plan.worms_share
    drive = Drive(history.build, today + days + TO_THE_END, ahead, celsius(history, plan, days), float(today))
    return Coming(
        history, stack, known, plan, ahead, run(drive, known.rates, WATCHED, stop=stop, begin=end), seed
    )
