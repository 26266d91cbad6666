"""What an outlook says: plain data for screens, text and JSON. SI throughout: kg, litres, fractions, days.

A band is the middle 80 % of the draws, from p10 to p90; half of them lie between p25 and p75. Series have one
value a day. Nothing here is an array.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Literal, NamedTuple

from trayturn.advice.bands import Band

Used = Literal["model", "rule of thumb"]
PointKind = Literal["castings", "tray", "moisture", "food left", "worms", "sump"]


class Five(NamedTuple):
    """Percentiles of an estimate."""

    p10: float
    p25: float
    p50: float
    p75: float
    p90: float

    @property
    def band(self) -> Band:
        """The middle 80 % of it."""
        return Band(self.p10, self.p50, self.p90)


@dataclass(frozen=True, slots=True)
class Days:
    """Moments, all of one zone: an early one, the middle and a late one; None is not within the outlook."""

    early: datetime | None
    mid: datetime | None
    late: datetime | None


@dataclass(frozen=True, slots=True)
class Fan:
    """A series with its bands: `days` are counted from the outlook's `as_of`, negative ones are past."""

    days: tuple[float, ...]
    p10: tuple[float, ...]
    p25: tuple[float, ...]
    p50: tuple[float, ...]
    p75: tuple[float, ...]
    p90: tuple[float, ...]

    def __len__(self) -> int:
        return len(self.days)

    def at(self, place: int) -> Five:
        """The percentiles at a place in the series."""
        return Five(self.p10[place], self.p25[place], self.p50[place], self.p75[place], self.p90[place])


@dataclass(frozen=True, slots=True)
class Harvest:
    """Castings to come: wet kg. `date` is when, if the plan is kept; the window is how far off a turn may be.

    `moisture` and `hatched` are fractions, the second of the cocoons laid in the tray. Both are None by the
    rule of thumb, which knows nothing of them. `age_days` is counted from when the tray was started.
    """

    date: datetime
    early: datetime
    late: datetime
    tray: str
    castings_kg: Five
    age_days: float
    moisture: Five | None = None
    hatched: Five | None = None


@dataclass(frozen=True, slots=True)
class Point:
    """Something the keeper measured. `misfit_sd` is how far it lies above what the model makes of it, in
    standard deviations; None without a fit. `entry` is its place in the journal, from 1."""

    at: datetime
    value: float
    kind: PointKind
    tray: str | None
    misfit_sd: float | None = None
    entry: int | None = None


@dataclass(frozen=True, slots=True)
class PastForecast:
    """A forecast as it would have been made, and what came: castings in wet kg.

    `thumb` is what the rule of thumb would have said. `came` is None where the castings were not weighed.
    """

    made_at: datetime
    target_at: datetime
    tray: str
    p10: float
    p50: float
    p90: float
    came: float | None
    thumb: float

    @property
    def held(self) -> bool | None:
        """Whether the band held what came."""
        return None if self.came is None else self.p10 <= self.came <= self.p90


@dataclass(frozen=True, slots=True)
class Skill:
    """How forecasts did: over `harvests` weighed ones, how many bands held, and the errors of the model and
    the rule of thumb, each as the mean size of the logarithm of forecast over harvest."""

    harvests: int
    held: int
    model_error: float | None
    thumb_error: float | None

    @property
    def better(self) -> bool | None:
        """Whether the model did at least as well as the rule of thumb; None where that cannot be told."""
        if self.model_error is None or self.thumb_error is None:
            return None
        return self.model_error <= self.thumb_error


@dataclass(frozen=True, slots=True)
class RestsOn:
    """What the outlook rests on."""

    measurements: int
    words: str
    skill: Skill


@dataclass(frozen=True, slots=True)
class Misfit:
    """An entry that does not fit the others: `off_sd` standard deviations above what the model makes of it,
    `expected` being that. `entry` is its place in the journal, from 1."""

    at: datetime
    kind: PointKind
    tray: str | None
    value: float
    expected: float
    off_sd: float
    left_out: bool
    entry: int | None
    words: str


@dataclass(frozen=True, slots=True)
class NarrowMost:
    """The measurement that would narrow the band of the next harvest most, and by what share of its width."""

    kind: PointKind
    tray: str | None
    narrows: float
    words: str


@dataclass(frozen=True, slots=True)
class Plan:
    """What is done from now on. Scraps are kg fresh, `mix` their shares by name; the bedding ratio is kg of
    dry bedding a kg of scraps, the water ratio kg of water poured on. A fresh tray gets `fresh_bedding_kg` of
    `bedding`, and `fresh_water_kg`.

    `away` is (from, days) without a meal, a turn or a separation; `spell` is (from, days, celsius) of another
    temperature than `celsius`. `worms_share` of the worms are there. `turn_off_days` is how far off its day a
    turn may be; `said` tells where each figure comes from.
    """

    turn_every_days: float
    trays: int
    scraps_kg_per_week: float
    bedding_ratio: float
    feed_every_days: float
    fresh_bedding_kg: float
    celsius: float
    bedding: str = "shredded cardboard"
    fresh_water_kg: float = 0.0
    water_ratio: float = 0.0
    turn_off_days: float = 7.0
    mix: Mapping[str, float] = field(default_factory=dict)
    away: tuple[datetime, float] | None = None
    spell: tuple[datetime, float, float] | None = None
    worms_share: float = 1.0
    said: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Outlook:
    """The outlook of a bin.

    `series` are fans by name: `castings` (wet kg, in the tray that finishes next or is fed), `worms` (kg in
    the bin), `sump` (litres), and `moisture:TRAY` (fractions). `finishing` is the tray whose castings
    `finishing_kg` are, as they would be if it were separated now. By the rule of thumb there is neither this
    nor a fan of castings. `turns` are those of the time that the series show, made and planned.
    `dry_bedding_kg` is what would keep the sump from filling up within the outlook: nothing where it does
    not; None where no bedding that is reckoned with would. `seed` and `draws` give the same outlook again.
    """

    key: str
    as_of: datetime
    until: datetime
    plan: Plan | None
    used: Used
    rests_on: RestsOn
    harvests: tuple[Harvest, ...] = ()
    finishing: str | None = None
    finishing_kg: Five | None = None
    series: Mapping[str, Fan] = field(default_factory=dict)
    turns: tuple[datetime, ...] = ()
    worms_kg: Five | None = None
    sump_l: Five | None = None
    moisture: Mapping[str, Five] = field(default_factory=dict)
    bottom_tray: str | None = None
    bottom_tray_soaked_on: Days | None = None
    sump_full_on: Days | None = None
    dry_bedding_kg: float | None = 0.0
    scraps_kg_per_week: Five | None = None
    points: tuple[Point, ...] = ()
    past: tuple[PastForecast, ...] = ()
    does_not_fit: tuple[Misfit, ...] = ()
    narrow_most: NarrowMost | None = None
    assumed: tuple[str, ...] = ()
    sentences: tuple[str, ...] = ()
    seed: int = 1
    draws: int = 0

    def on(self, days: float) -> datetime:
        """The moment so many days from the outlook's own."""
        return self.as_of + timedelta(days=days)
