"""Past forecasts against what came, and against a naive rule of thumb.

For each separation whose castings were weighed, the forecast is made as it would have been when the tray
began to finish: with the entries up to that moment alone, and the habits of that time. Only the day on which
it was separated is taken as it came.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.bands import Band
from trayturn.advice.outlook import figures
from trayturn.advice.outlook.ahead import planned
from trayturn.advice.outlook.cache import Cache, digest
from trayturn.advice.outlook.fitted import Stop
from trayturn.advice.outlook.history import ONE_STEP, History, history_of
from trayturn.advice.outlook.measured import readings_of
from trayturn.advice.outlook.plan import plan_of
from trayturn.advice.outlook.result import PastForecast, Skill
from trayturn.advice.outlook.thumb import solids_in, thumb_of
from trayturn.domain.entries import SeparationBegun, Settled, Stage
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
class Weighed:
    """A separation whose castings were weighed: when the tray began to finish, when it was emptied."""

    tray: str
    started_at: datetime
    finishing_at: datetime
    settled_at: datetime
    kg: float


_cache: Cache[PastForecast] = Cache(64)


def weighed_harvests(profile: Profile, history: History) -> tuple[Weighed, ...]:
    """Every separation with weighed castings, oldest first."""
    begun: dict[str, datetime] = {}
    found: list[Weighed] = []
    for one in history.tolds:
        if isinstance(one.entry, SeparationBegun) and one.entry.tray in one.before:
            begun.setdefault(one.entry.tray, one.at)
        elif isinstance(one.entry, Settled) and one.entry.castings_kg is not None:
            since = begun.pop(one.entry.tray, None)
            if since is not None:
                found.append(_weighed(profile, one.entry, since))
    return tuple(found)


def _weighed(profile: Profile, entry: Settled, begun: datetime) -> Weighed:
    tray = replay(profile, begun - A_MOMENT).tray(entry.tray)
    finishing = tray.stage_since if tray is not None and tray.stage is Stage.FINISHING else begun - A_MOMENT
    started = tray.started_at if tray is not None else begun
    return Weighed(entry.tray, started, finishing, entry.at, entry.castings_kg or 0.0)


def past_forecasts(
    profile: Profile,
    history: History,
    seed: int = 1,
    draws: int = DRAWS,
    progress: Callable[[int, int], None] | None = None,
    stop: Stop = None,
) -> tuple[PastForecast, ...]:
    """The forecast of each of the latest weighed harvests, oldest first."""
    harvests = weighed_harvests(profile, history)[-MOST:]
    found = []
    for place, harvest in enumerate(harvests):
        found.append(_forecast(profile, harvest, seed, draws, stop))
        if progress is not None:
            progress(place + 1, len(harvests))
    return tuple(found)


def _forecast(profile: Profile, harvest: Weighed, seed: int, draws: int, stop: Stop) -> PastForecast:
    """The forecast from the entries up to when the tray began to finish."""
    history = history_of(profile, harvest.finishing_at)
    key = f"{digest(profile, history)} {harvest} {seed} {draws}"
    return _cache.get(key, lambda: _made(profile, history, harvest, seed, draws, stop))


def _made(
    profile: Profile, history: History, harvest: Weighed, seed: int, draws: int, stop: Stop
) -> PastForecast:
    from trayturn.science.process.fitting import fit
    from trayturn.science.process.rates import draw_rates
    from trayturn.science.process.running import run
    from trayturn.science.process.telling import as_weighed

    measured = [one.what for one in readings_of(history, profile)]
    rates = fit(history.drive, measured, draw_rates(draws, seed), seed, stop=stop).rates
    day = round(history.calendar.day(harvest.settled_at))
    plan = plan_of(replay(profile, harvest.finishing_at), history)
    meals = planned(profile, history, plan, day, turns=False)
    ahead = history_of(meals, history.calendar.now, history.calendar.noon(day)).ahead
    separate = Separate(day + 0.5 - 2 * ONE_STEP, harvest.tray)
    drive = history.drive.then((*ahead, separate), day + 0.5 - ONE_STEP)
    came = run(drive, rates, (), stop=stop).harvests[-1].kg
    said = figures.five(as_weighed(came, seed))
    solids = solids_in(history.events, harvest.tray, history.calendar.today + 0.5)
    made_at, target_at = harvest.finishing_at, harvest.settled_at
    return PastForecast(
        made_at, target_at, harvest.tray, said.p10, said.p50, said.p90, harvest.kg, thumb_of(solids)
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
    history = history_of(profile, emptied_at)
    of_tray = [one for one in weighed_harvests(profile, history) if one.tray == tray]
    if not of_tray:
        return None
    made = _forecast(profile, of_tray[-1], seed, DRAWS, None)
    return Band(made.p10, made.p50, made.p90)


def forecasts(profile: Profile, stack: Stack, seed: int = 1) -> Mapping[tuple[str, datetime], Band]:
    """The forecasts of the latest weighed harvests by tray and when its life began, as a ledger asks them."""
    history = history_of(profile, stack.as_of)
    return dict(_by_life(profile, history, seed))


def _by_life(profile: Profile, history: History, seed: int) -> Iterator[tuple[tuple[str, datetime], Band]]:
    for harvest in weighed_harvests(profile, history)[-MOST:]:
        made = _forecast(profile, harvest, seed, DRAWS, None)
        yield (harvest.tray, harvest.started_at), Band(made.p10, made.p50, made.p90)
