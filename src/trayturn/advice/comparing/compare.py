"""Ways of running a bin, each run for two years with the same draws of its fitted rates."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING

from trayturn.advice.bands import Band
from trayturn.advice.comparing.best import best_of
from trayturn.advice.comparing.cycle import Needs, cycle
from trayturn.advice.comparing.result import Comparison, Row, Way
from trayturn.advice.outlook import figures, words
from trayturn.advice.outlook.cache import Cache, digest
from trayturn.advice.outlook.coming import meal_of
from trayturn.advice.outlook.fitted import FIT_RUNS, Stop, know
from trayturn.advice.outlook.history import History, history_of
from trayturn.advice.outlook.makeup import bedding, water
from trayturn.advice.outlook.measured import readings_of
from trayturn.advice.outlook.plan import plan_of
from trayturn.advice.outlook.result import Plan, RestsOn
from trayturn.advice.outlook.score import skill_of
from trayturn.advice.pantry import pantry_of
from trayturn.advice.passes import durations, next_time
from trayturn.advice.side_by_side.chains import READY_MIN
from trayturn.advice.turn_day.times import FEED_MIN, LIFT_MIN
from trayturn.domain.entries import Step
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.setup import BinSetup
from trayturn.domain.stack import Stack
from trayturn.science.process.events import Build, Drive
from trayturn.science.temperature import activity_against

if TYPE_CHECKING:
    from trayturn.science.process.outcome import Run
    from trayturn.science.process.rates import Array, Rates

DAYS, TOLD = 730, 365
"""How long a way is run, and how much of that, to its end, is told."""
DRAWS, MOST_WAYS = 200, 60
A_MONTH = 365.25 / 12
NEARLY = 0.999
Progress = Callable[[int, int], None]


_found: Cache[Comparison] = Cache(8)


@dataclass(frozen=True, slots=True)
class Ran:
    """A row with its draws, so that ways can be compared draw by draw."""

    row: Row
    castings_per_month: Array
    worms: Array
    room: Array


def ways_of(
    plan: Plan, trays: Sequence[int] = (), every: Sequence[float] = (), scraps: Sequence[float] = ()
) -> tuple[Way, ...]:
    """Every combination; what is not given is as planned. Raises `ValueError` for none, or too many."""
    counts = trays or (plan.trays,)
    ways = tuple(
        Way(count, days, kg)
        for count in counts
        for days in (every or (plan.turn_every_days,))
        for kg in (scraps or (plan.scraps_kg_per_week,))
    )
    if len(ways) > MOST_WAYS:
        raise ValueError(f"{len(ways)} ways are too many to lay side by side; {MOST_WAYS} are the most.")
    return ways


def compare(
    profile: Profile,
    now: datetime,
    trays: Sequence[int] = (),
    every: Sequence[float] = (),
    scraps: Sequence[float] = (),
    seed: int = 1,
    draws: int = DRAWS,
    progress: Progress | None = None,
    cancel: Stop = None,
) -> Comparison:
    """The ways side by side. The same journal, day, ways and seed give the same answer.

    `progress(done, of)` is told on the way; raises `Stopped` when `cancel` says so, and `ValueError`. It may
    take some seconds: not for the thread that draws.
    """
    stack = replay(profile, now)
    history = history_of(profile, now)
    plan = plan_of(stack, history)
    ways = ways_of(plan, trays, every, scraps)
    key = f"{digest(profile, history)} {ways!r} {seed} {draws}"
    made = _found.get(
        key, lambda: _compared(profile, history, stack, plan, ways, seed, draws, progress, cancel)
    )
    return replace(made, as_of=now)


def _compared(
    profile: Profile,
    history: History,
    stack: Stack,
    plan: Plan,
    ways: tuple[Way, ...],
    seed: int,
    draws: int,
    progress: Progress | None,
    cancel: Stop,
) -> Comparison:
    tell, of = progress or (lambda done, of: None), FIT_RUNS + len(ways)
    readings = readings_of(history, profile)
    known = know(history, readings, seed, draws, lambda done: tell(done, of), cancel)
    needs = _needs(profile, plan, stack, figures.five(known.recent.series["worms_kg"][-1]).p50)
    ran = []
    for way in ways:
        ran.append(_run(way, needs, profile.bin, plan, known.rates, stack, cancel))
        tell(FIT_RUNS + len(ran), of)
    used = len(readings) - len(known.fitted.left_out)
    return Comparison(
        profile.key,
        stack.as_of,
        plan,
        tuple(one.row for one in ran),
        nearest(ways, plan),
        best_of(ran),
        RestsOn(used, words.rests_on(used), skill_of(())),
        seed,
        draws,
    )


def nearest(ways: Sequence[Way], plan: Plan) -> int:
    """The place of the way that is most like the plan."""

    def far(way: Way) -> tuple[int, float, float]:
        off = abs(way.scraps_kg_per_week - plan.scraps_kg_per_week)
        return abs(way.trays - plan.trays), abs(way.every_days - plan.turn_every_days), off

    return min(range(len(ways)), key=lambda place: far(ways[place]))


def _needs(profile: Profile, plan: Plan, stack: Stack, worms_kg: float) -> Needs:
    pantry = pantry_of(profile)
    meal = meal_of(plan, profile) + water(plan.water_ratio)
    fresh = bedding({plan.bedding: plan.fresh_bedding_kg}, pantry) + water(plan.fresh_water_kg)
    return Needs(meal, fresh, plan.feed_every_days, max(worms_kg, 0.05))


def _run(
    way: Way, needs: Needs, setup: BinSetup, plan: Plan, rates: Rates, stack: Stack, cancel: Stop
) -> Ran:
    from trayturn.science.process.running import run

    build = Build(setup.tray_area_m2, setup.sump_capacity_l)
    drive = Drive(build, float(DAYS), cycle(way, needs, setup.pattern, DAYS), plan.celsius)
    done = run(drive, rates, ("worms_kg", "sump_l"), stop=cancel)
    return _told(way, done, needs, rates, setup, plan, stack)


def _told(way: Way, done: Run, needs: Needs, rates: Rates, setup: BinSetup, plan: Plan, stack: Stack) -> Ran:
    """The second year: harvests of it, worms over it, and the sump between its turns."""
    months = TOLD / A_MONTH
    late = [one for one in done.harvests if one.day > DAYS - TOLD]
    nothing = done.series["worms_kg"][-1] * 0.0
    castings = sum((one.kg for one in late), nothing)
    worms = done.series["worms_kg"][-TOLD:].mean(axis=0)
    sump = done.series["sump_l"][-TOLD:]
    turns = TOLD / max(1.0, way.every_days)
    room = worms * rates.need * (7 * activity_against(plan.celsius) / max(needs.meal.solids_kg, 0.01))
    many = max(1, len(late))
    row = Row(
        way,
        figures.five(castings / months),
        figures.five(castings / many),
        sum(one.age_d for one in late) / many,
        figures.five(sum((one.moisture for one in late), nothing) / many),
        figures.five(sum((one.hatched for one in late), nothing) / many),
        figures.five(worms),
        figures.five(_drained(sump) / turns),
        float((sump >= NEARLY * setup.sump_capacity_l).any(axis=0).mean()),
        float((room >= way.scraps_kg_per_week).mean()),
        _bedding(way, plan, turns / months),
        _work(way, needs, stack, turns / months),
    )
    return Ran(row, castings / months, worms, room)


def _drained(sump: Array) -> Array:
    """What ran into the sump over the days, litres: every rise of its level."""
    rises: Array = (sump[1:] - sump[:-1]).clip(0).sum(axis=0)
    return rises


def _bedding(way: Way, plan: Plan, turns_a_month: float) -> float:
    """Dry bedding a month, kg: with the meals, and in a fresh tray at each turn."""
    meals = way.scraps_kg_per_week * A_MONTH / 7 * plan.bedding_ratio
    return meals + plan.fresh_bedding_kg * turns_a_month


def _work(way: Way, needs: Needs, stack: Stack, turns_a_month: float) -> Band:
    """Minutes of hands a month: meals, and at each turn the lifts, the loosening and a separation."""
    meals = A_MONTH / max(1.0, needs.feed_every_days) * FEED_MIN
    lifts = 2 * way.trays * LIFT_MIN + stack.setup.loosen_minutes * max(0, way.trays - 1)
    turn = _separation(stack).plus(Band(lifts, lifts, lifts))
    return turn.times(turns_a_month).plus(Band(0.7 * meals, meals, 1.3 * meals))


def _separation(stack: Stack) -> Band:
    """Minutes of hands for one separation: the passes to be expected, at this keeper's pace."""
    times = durations(stack.setup, stack.past_separations)
    each = sum(times.minutes[step] for step in (Step.LOOSEN, Step.SKIM, Step.DECIDE))
    around = READY_MIN + times.settling
    return next_time(stack).passes.times(each).plus(Band(around, around, around))
