"""What if: the same outlook under another plan, beside that of today, and what to do about it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from trayturn.advice.outlook.history import history_of
from trayturn.advice.outlook.making import DAYS, DRAWS, Progress, outlook
from trayturn.advice.outlook.plan import plan_of
from trayturn.advice.outlook.result import Outlook, Plan
from trayturn.advice.outlook.what_differs import differences
from trayturn.advice.outlook.what_to_do import what_to_do
from trayturn.advice.phrases import times_words
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.setup import Units
from trayturn.domain.units import UnitError, parse_temperature, show_temperature, split_quantity
from trayturn.domain.words import count

HOLIDAY_DAYS, COLD, HEAT = 14.0, (5.0, 14.0), (32.0, 7.0)
"""Days away, and how cold or hot for how long, where nobody says. Our choices."""
LONGEST_DAYS = 365.0
COLDEST_C, HOTTEST_C = -20.0, 50.0
KINDS = ("holiday", "cold", "heat", "double-scraps", "half-worms", "double-bedding")
TIMES = {"double-scraps": 2.0, "half-worms": 0.5, "double-bedding": 2.0}
"""How many times as much, where nobody says otherwise."""
SHARES = {"scraps": "double-scraps", "worms": "half-worms", "bedding": "double-bedding"}
"""The kinds that take a number of times, by the word that is typed before it."""
MOST_TIMES = 10.0


@dataclass(frozen=True, slots=True)
class WhatIf:
    """Something else than today's plan. `days`, `celsius` and `times` count where the kind has them.

    `times` is how many times as much of the scraps, worms or bedding; 0 is as many as the kind is named for.
    """

    kind: str
    days: float = 0.0
    celsius: float = 0.0
    times: float = 0.0

    @property
    def factor(self) -> float:
        """How many times as much; once where the kind has none."""
        return self.times or TIMES.get(self.kind, 1.0)

    def plan(self, plan: Plan, now: datetime) -> Plan:
        """Today's plan with this in it, from tomorrow on."""
        start = now + timedelta(days=1)
        return CHANGES[self.kind](self, plan, start)

    def said(self, units: Units) -> str:
        """`14 days away`, `14 days at 5 °C`."""
        if self.kind == "holiday":
            return f"{count(round(self.days), 'day')} away"
        if self.kind in ("cold", "heat"):
            return f"{count(round(self.days), 'day')} at {show_temperature(self.celsius, units)}"
        return f"{times_words(self.factor)} the {OF[self.kind]}"


OF = {"double-scraps": "scraps", "half-worms": "worms", "double-bedding": "bedding at each meal"}


def _away(what: WhatIf, plan: Plan, start: datetime) -> Plan:
    return replace(plan, away=(start, what.days))


def _spell(what: WhatIf, plan: Plan, start: datetime) -> Plan:
    return replace(plan, spell=(start, what.days, what.celsius))


CHANGES: dict[str, Callable[[WhatIf, Plan, datetime], Plan]] = {
    "holiday": _away,
    "cold": _spell,
    "heat": _spell,
    "double-scraps": lambda what, plan, start: replace(
        plan, scraps_kg_per_week=what.factor * plan.scraps_kg_per_week
    ),
    "half-worms": lambda what, plan, start: replace(plan, worms_share=what.factor * plan.worms_share),
    "double-bedding": lambda what, plan, start: replace(plan, bedding_ratio=what.factor * plan.bedding_ratio),
}


def read_what_if(text: str, units: Units = Units.METRIC) -> WhatIf:
    """`holiday=14`, `cold=5C:14`, `heat`, `double-scraps`, `half-worms`, `double-bedding`, `scraps=1.5`.

    Raises `UnitError` for anything else, with what would do.
    """
    kind, _, value = text.strip().partition("=")
    kind = kind.strip().lower()
    if kind in SHARES:
        return WhatIf(SHARES[kind], times=_times(value, kind))
    if kind not in KINDS:
        raise UnitError(f"{kind[:30]!r} is nothing that is reckoned; use one of {', '.join(KINDS)}.")
    if kind == "holiday":
        return WhatIf(kind, _days(value, "holiday=14") if value else HOLIDAY_DAYS)
    if kind in ("cold", "heat"):
        return _weather(kind, value, units)
    if value:
        raise UnitError(f"{kind} takes no amount.")
    return WhatIf(kind)


def _weather(kind: str, value: str, units: Units) -> WhatIf:
    celsius, days = COLD if kind == "cold" else HEAT
    degrees, _, long = value.partition(":")
    if degrees.strip():
        celsius = parse_temperature(degrees, units)
    if long.strip():
        days = _days(long, f"{kind}=5C:14")
    if not COLDEST_C <= celsius <= HOTTEST_C:
        ends = " to ".join(show_temperature(end, units) for end in (COLDEST_C, HOTTEST_C))
        raise UnitError(f"{degrees.strip()} is no temperature of a room with worms; use one from {ends}.")
    return WhatIf(kind, days, celsius)


def _times(text: str, kind: str) -> float:
    number, unit = split_quantity(text, "1.5")
    if unit not in ("", "x", "times") or not 0 < number <= MOST_TIMES:
        raise UnitError(
            f"{text.strip()!r} is no number of times above 0 up to {MOST_TIMES:g}; type {kind}=1.5."
        )
    return number


def _days(text: str, example: str) -> float:
    number, unit = split_quantity(text, "14")
    if unit not in ("", "d", "day", "days") or not 1 <= number <= LONGEST_DAYS:
        raise UnitError(f"{text.strip()!r} is no number of days from 1 to {LONGEST_DAYS:g}; type {example}.")
    return number


@dataclass(frozen=True, slots=True)
class Compared:
    """Today's outlook, the other one, what differs in sentences, and what to do about it."""

    what: WhatIf
    said: str
    today: Outlook
    then: Outlook
    differences: tuple[str, ...]
    do: tuple[str, ...]


def what_if(
    profile: Profile,
    now: datetime,
    what: WhatIf,
    days: int = DAYS,
    plan: Plan | None = None,
    seed: int = 1,
    draws: int = DRAWS,
    progress: Progress | None = None,
    cancel: Callable[[], bool] | None = None,
) -> Compared:
    """Both outlooks, from the same draws. The arguments are those of `outlook`, and so is what it raises."""
    stack = replay(profile, now)
    today = outlook(profile, now, days, plan, seed, draws, progress, cancel)
    plan = plan or plan_of(stack, history_of(profile, now))
    other = what.plan(plan, now)
    then = outlook(profile, now, days, other, seed, draws, progress, cancel)
    units = stack.setup.units
    told = tuple(differences(today, then, stack))
    do: tuple[str, ...] = ()
    if then.series:
        do = tuple(what_to_do(what.kind, what.days, what.celsius, what.factor, plan, today, then, profile))
    return Compared(what, what.said(units), today, then, told, do)
