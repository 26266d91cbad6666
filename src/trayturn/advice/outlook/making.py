"""The outlook of a bin, put together: fit, past forecasts, the plan run ahead, and what to measure."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime

from trayturn.advice.outlook import figures, words
from trayturn.advice.outlook.bedding import bedding_to_prevent
from trayturn.advice.outlook.cache import Cache, digest
from trayturn.advice.outlook.coming import Coming, come
from trayturn.advice.outlook.fitted import FIT_RUNS, Known, Stop, know
from trayturn.advice.outlook.history import History, history_of
from trayturn.advice.outlook.measured import Reading, readings_of
from trayturn.advice.outlook.misfits import misfits, points
from trayturn.advice.outlook.plan import plan_of
from trayturn.advice.outlook.result import Outlook, PastForecast, Plan, RestsOn
from trayturn.advice.outlook.score import (
    MOST,
    past_forecasts,
    skill_of,
    thumb_errors,
    weighed_lives,
    worse_than_thumb,
)
from trayturn.advice.outlook.telling import narrow_most
from trayturn.advice.outlook.thumb import width_of
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack

DAYS, DRAWS = 180, 400
"""How far ahead and with how many draws, where nobody says otherwise."""
LONGEST_DAYS = 1000
AFTER_FIT = 2
"""Steps of work after the fit and the past forecasts: the plan, and all that is told of it."""

Progress = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class _Ground:
    """What every outlook of a bin on one day rests on, whatever the plan."""

    history: History
    readings: tuple[Reading, ...]
    known: Known


_grounds: Cache[_Ground] = Cache(2)
_outlooks: Cache[Outlook] = Cache(16)


def outlook(
    profile: Profile,
    now: datetime,
    days: int = DAYS,
    plan: Plan | None = None,
    seed: int = 1,
    draws: int = DRAWS,
    progress: Progress | None = None,
    cancel: Stop = None,
) -> Outlook:
    """The outlook of a bin from `now` on, by a plan or as its keeper has gone on until now.

    `now` is the moment that the bin is told of, such as `stack.as_of`; later entries do not count. The same
    journal, day, plan, seed and number of draws give the same outlook. `progress(done, of)` is told on the
    way; raises `Stopped` when `cancel` says so. It may take a second: not for the thread that draws.
    """
    history = history_of(profile, now)
    days = max(1, min(days, LONGEST_DAYS))
    key = f"{digest(profile, history)} {days} {plan!r} {seed} {draws}"
    made = _outlooks.get(
        key, lambda: _made(profile, history, days, plan, seed, draws, progress or _silent, cancel)
    )
    return replace(made, as_of=now)


def _silent(done: int, of: int) -> None:
    """Nobody asks how far it is."""


def _made(
    profile: Profile,
    history: History,
    days: int,
    plan: Plan | None,
    seed: int,
    draws: int,
    progress: Progress,
    cancel: Stop,
) -> Outlook:
    stack = replay(profile, history.calendar.now)
    plan = plan or plan_of(stack, history)
    if not stack.trays:
        return _nothing(stack, history, days, plan, seed)
    before = FIT_RUNS + min(MOST, len(weighed_lives(profile, history.calendar.now)))
    of = before + AFTER_FIT
    ground = _ground(profile, history, seed, draws, lambda done: progress(done, of), cancel)
    past = past_forecasts(
        profile, history, seed, progress=lambda done, _: progress(FIT_RUNS + done, of), stop=cancel
    )
    coming = come(profile, stack, ground.history, ground.known, plan, days, seed, cancel)
    progress(before + 1, of)
    told = _told(_Asked(profile, stack, history, plan, days, seed, draws), ground, coming, past, cancel)
    progress(of, of)
    return replace(told, sentences=tuple(words.sentences(told, stack)))


@dataclass(frozen=True, slots=True)
class _Asked:
    """What an outlook is asked of."""

    profile: Profile
    stack: Stack
    history: History
    plan: Plan
    days: int
    seed: int
    draws: int


def _told(
    asked: _Asked, ground: _Ground, coming: Coming, past: tuple[PastForecast, ...], cancel: Stop
) -> Outlook:
    """The answer as plain data, without its sentences. By the rule of thumb where the model was worse."""
    skill, calendar = skill_of(past), asked.history.calendar
    by_thumb = worse_than_thumb(skill)
    used = len(ground.readings) - len(ground.known.fitted.left_out)
    recent = ground.known.recent.series
    return Outlook(
        key=asked.profile.key,
        as_of=calendar.now,
        until=calendar.noon(calendar.today + asked.days),
        plan=asked.plan,
        used="rule of thumb" if by_thumb else "model",
        rests_on=RestsOn(used, words.rests_on(used), skill),
        harvests=coming.harvests(width_of(thumb_errors(past)) if by_thumb else None),
        finishing=coming.target,
        finishing_kg=None if by_thumb else coming.finishing_kg(),
        series=coming.series(not by_thumb),
        turns=coming.turns(),
        worms_kg=figures.five(recent["worms_kg"][-1]),
        sump_l=figures.five(coming.sump[0].clip(0, asked.profile.bin.sump_capacity_l)),
        moisture={
            tray.id: figures.five(recent["moisture"][-1, ground.known.recent.trays.index(tray.id)])
            for tray in asked.stack.trays
        },
        bottom_tray=coming.bottom,
        bottom_tray_soaked_on=coming.soaked_on(),
        sump_full_on=coming.sump_full_on(),
        dry_bedding_kg=bedding_to_prevent(asked.profile, coming, cancel),
        scraps_kg_per_week=coming.scraps_a_week(asked.profile) if asked.history.fed else None,
        points=points(ground.known, ground.readings),
        past=past,
        does_not_fit=misfits(ground.known, ground.readings, asked.stack),
        narrow_most=narrow_most(coming, ground.known),
        assumed=asked.history.assumed,
        seed=asked.seed,
        draws=asked.draws,
    )


def _ground(
    profile: Profile,
    history: History,
    seed: int,
    draws: int,
    progress: Callable[[int], None],
    cancel: Stop,
) -> _Ground:
    readings = readings_of(history, profile)
    key = f"{digest(profile, history)} {seed} {draws}"
    return _grounds.get(
        key, lambda: _Ground(history, readings, know(history, readings, seed, draws, progress, cancel))
    )


def _nothing(stack: Stack, history: History, days: int, plan: Plan, seed: int) -> Outlook:
    """A bin with no tray on its stack has no outlook yet, and that is what is said."""
    return Outlook(
        key=stack.key,
        as_of=history.calendar.now,
        until=history.calendar.noon(history.calendar.today + days),
        plan=plan,
        used="model",
        rests_on=RestsOn(0, words.rests_on(0), skill_of(())),
        sentences=tuple(_empty_words(stack)),
        seed=seed,
    )


def _empty_words(stack: Stack) -> Iterator[str]:
    yield "No tray is on the stack, so there is nothing to tell of yet."
    if stack.first_tray_at is None:
        yield "Once the first tray is started and fed, its outlook stands here."
