"""Ways of running a bin side by side, as plain data."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from trayturn.advice.bands import Band
from trayturn.advice.outlook.result import Five, Plan, RestsOn


class Aim(StrEnum):
    """What a keeper may want most."""

    CASTINGS = "most castings"
    WORK = "least work"
    WORMS = "most worms"
    SCRAPS = "all my scraps"


@dataclass(frozen=True, slots=True)
class Way:
    """One way of running a bin: trays on the stack, days between turns, scraps a week, kg."""

    trays: int
    every_days: float
    scraps_kg_per_week: float


@dataclass(frozen=True, slots=True)
class Row:
    """What comes of one way, in its second year. Masses in kg.

    `castings_kg` is a harvest, `age_days` and `moisture` are those at it, `hatched` the share of cocoons that
    had hatched before it. `sump_full` is the share of draws in which the sump fills between two turns,
    `takes_all` that in which the worms can take all the scraps. `work_min` is minutes of hands a month.
    """

    way: Way
    castings_kg_per_month: Five
    castings_kg: Five
    age_days: float
    moisture: Five
    hatched: Five
    worms_kg: Five
    sump_l_per_turn: Five
    sump_full: float
    takes_all: float
    bedding_kg_per_month: float
    work_min: Band


@dataclass(frozen=True, slots=True)
class Best:
    """The best way for an aim, by its place, those that are as good as far as can be told, and why."""

    aim: Aim
    place: int
    as_good: tuple[int, ...]
    why: str


@dataclass(frozen=True, slots=True)
class Comparison:
    """The rows in the order asked for. `now` is the place of the way that is nearest to today's plan."""

    key: str
    as_of: datetime
    plan: Plan
    rows: tuple[Row, ...]
    now: int
    best: tuple[Best, ...]
    rests_on: RestsOn
    seed: int
    draws: int

    def of(self, aim: Aim) -> Best:
        """The best way for that aim."""
        return next(one for one in self.best if one.aim is aim)
