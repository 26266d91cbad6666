"""Past forecasts against what came, and against a naive rule of thumb.

For each separation whose castings were weighed, the forecast is made as it would have been when the tray
began to finish: with the entries up to that moment alone, and the habits of that time. Only the day on which
it was separated is taken as it came.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.bands import Band
from trayturn.advice.outlook import figures
from trayturn.advice.outlook.ahead import planned
from trayturn.advice.outlook.cache import Cache, digest
from trayturn.advice.outlook.fitted import Stop
from trayturn.advice.outlook.history import ONE_STEP, History, history_of
from trayturn.advice.outlook.measured import Weighed, readings_of, weighed_castings
from trayturn.advice.outlook.plan import plan_of
from trayturn.advice.outlook.result import PastForecast, Skill
from trayturn.advice.outlook.thumb import solids_in, thumb_of
from trayturn.domain.entries import Stage
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack
from trayturn.science.process.events import Separate

DRAWS = 150
"""Draws of a past forecast: enough for the ends of a band to about a twentieth."""
MOST = 8
"""So many of the latest harvests are looked at. Our choice."""
ENOUGH = 3
"""Harvests from which on the model has to be as good as the rule of thumb."""
A_MOMENT = timedelta(seconds=1)


@dataclass(frozen=True, slots=True)
class Life:
    """A tray's life that ended in weighed castings: when it began, began to finish, and was emptied."""

    tray: str
    started_at: datetime
    finishing_at: datetime
    settled_at: datetime
    kg: float


_cache: Cache[PastForecast] = Cache(64)


def weighed_lives(profile: Profile, now: datetime) -> tuple[Life, ...]:
    """Every tray's life that ended in weighed castings by then, oldest first."""
    return tuple(_life(profile, one) for one in weighed_castings(replay(profile, now)))


def _life(profile: Profile, one: Weighed) -> Life:
    begun = one.separation.begun_at
    tray = replay(profile, begun - A_MOMENT).tray(one.tray)
    finishing = tray.stage_since if tray is not None and tray.stage is Stage.FINISHING else begun - A_MOMENT
    started = tray.started_at if tray is not None else begun
    return Life(one.tray, started, finishing, one.at, one.kg)


def past_forecasts(
    profile: Profile,
    history: History,
    seed: int = 1,
    draws: int = DRAWS,
    progress: Callable[[int, int], None] | None = None,
    stop: Stop = None,
) -> tuple[PastForecast, ...]:
    """The forecast of each of the latest weighed harvests, oldest first."""
    lives = weighed_lives(profile, history.calendar.now)[-MOST:]
    found = []
    for place, life in enumerate(lives):
        found.append(_forecast(profile, life, seed, draws, stop))
        if progress is not None:
            progress(place + 1, len(lives))
    return tuple(found)


def _forecast(profile: Profile, life: Life, seed: int, draws: int, stop: Stop) -> PastForecast:
    """The forecast from the entries up to when the tray began to finish."""
    history = history_of(profile, life.finishing_at)
    key = f"{digest(profile, history)} {life} {seed} {draws}"
    return _cache.get(key, lambda: _made(profile, history, life, seed, draws, stop))


def _made(profile: Profile, history: History, life: Life, seed: int, draws: int, stop: Stop) -> PastForecast:
    from trayturn.science.process.fitting import fit
    from trayturn.science.process.rates import draw_rates
    from trayturn.science.process.running import run
    from trayturn.science.process.telling import as_weighed

    measured = [one.what for one in readings_of(history, profile)]
    rates = fit(history.drive, measured, draw_rates(draws, seed), seed, stop=stop).rates
    day = round(history.calendar.day(life.settled_at))
    plan = plan_of(replay(profile, life.finishing_at), history)
    meals = planned(profile, history, plan, day, turns=False)
    ahead = history_of(meals, history.calendar.now, history.calendar.noon(day)).ahead
    separate = Separate(day + 0.5 - 2 * ONE_STEP, life.tray)
    drive = history.drive.then((*ahead, separate), day + 0.5 - ONE_STEP)
    came = run(drive, rates, (), stop=stop).harvests[-1].kg
    said = figures.five(as_weighed(came, seed))
    solids = solids_in(history.events, life.tray, history.calendar.today + 0.5)
    made_at, target_at = life.finishing_at, life.settled_at
    return PastForecast(
        made_at, target_at, life.tray, said.p10, said.p50, said.p90, life.kg, thumb_of(solids)
    )


def skill_of(past: Sequence[PastForecast]) -> Skill:
    """How the forecasts did. Errors are mean sizes of logarithms, so that twice and half count alike."""
    model = [error for one in past if (error := log_error(one.p50, one.came)) is not None]
    thumb = [error for one in past if (error := log_error(one.thumb, one.came)) is not None]
    return Skill(
        harvests=sum(1 for one in past if one.came is not None),
        held=sum(1 for one in past if one.held),
        model_error=_mean_size(model),
        thumb_error=_mean_size(thumb),
    )


def log_error(forecast: float, came: float | None) -> float | None:
    """The logarithm of forecast over what came; None where there is none."""
    return math.log(forecast / came) if came and forecast > 0 else None


def _mean_size(errors: Sequence[float]) -> float | None:
    return sum(map(abs, errors)) / len(errors) if errors else None


def thumb_errors(past: Sequence[PastForecast]) -> list[float]:
    """How far the rule of thumb was off, each time."""
    return [error for one in past if (error := log_error(one.thumb, one.came)) is not None]


def worse_than_thumb(skill: Skill) -> bool:
    """Whether the model has been worse than the rule of thumb, over harvests enough to say so."""
    return skill.harvests >= ENOUGH and skill.better is False


def forecast_of(profile: Profile, tray: str, emptied_at: datetime, seed: int = 1) -> Band | None:
    """What had been forecast of the tray's life that ended in the separation settled last by that moment.

    The forecast of the castings, kg, made when the tray began to finish; None where they were not weighed.
    """
    of_tray = [one for one in weighed_lives(profile, emptied_at) if one.tray == tray]
    if not of_tray:
        return None
    made = _forecast(profile, of_tray[-1], seed, DRAWS, None)
    return Band(made.p10, made.p50, made.p90)


def forecasts(profile: Profile, stack: Stack, seed: int = 1) -> Mapping[tuple[str, datetime], Band]:
    """The forecasts of the latest weighed harvests by tray and when its life began, as a ledger asks them."""
    found = {}
    for life in weighed_lives(profile, stack.as_of)[-MOST:]:
        made = _forecast(profile, life, seed, DRAWS, None)
        found[life.tray, life.started_at] = Band(made.p10, made.p50, made.p90)
    return found
