"""What is left of each separation, as tasks that need hands with the rests between them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.bands import Band
from trayturn.advice.passes import Durations, ahead, durations, next_time
from trayturn.domain.entries import Step
from trayturn.domain.stack import Separation, Stack, StepTimes
from trayturn.science.scheduling import Chain, Task

LOOSEN, SKIM, DECIDE, SETTLE = "loosen", "skim", "decide", "settle"
CLEAN_UP, READY = "clean up", "get ready"
READY_MIN = 5.0
"""Minutes to get ready: set on top, weigh, read the cautions. Our choice."""
LEAST_MIN = 0.1
"""A task that took longer than usual is as good as done."""


@dataclass(frozen=True, slots=True)
class Ahead:
    """One tray with what is left of it, for the fewest, the likeliest and the most passes."""

    stack: Stack
    tray: str
    chains: tuple[Chain, Chain, Chain]

    @property
    def name(self) -> str:
        """What tells its chain from others: the bin and the tray."""
        return self.chains[1].name


def chains_of(stacks: Sequence[Stack], now: datetime, planned: Iterable[tuple[str, str]] = ()) -> list[Ahead]:
    """Every separation under way, and those `planned`, by bin and tray, that are still to be begun."""
    times = {stack.key: _times(stack, stacks) for stack in stacks}
    found = [
        Ahead(stack, sep.tray, _under_way(stack, sep, times[stack.key], now))
        for stack in stacks
        for sep in stack.separations
    ]
    by_key = {stack.key: stack for stack in stacks}
    for key, tray in planned:
        stack = by_key.get(key)
        if stack is not None and stack.separation(tray) is None:
            found.append(Ahead(stack, tray, _to_begin(stack, tray, times[key])))
    return found


def _times(stack: Stack, stacks: Iterable[Stack]) -> Durations:
    """How long this keeper takes, by all bins: hands are the same everywhere, rests those of the bin."""
    done = [one for other in stacks for one in (*other.past_separations, *other.separations)]
    return durations(stack.setup, sorted(done, key=lambda one: one.begun_at))


def _under_way(stack: Stack, sep: Separation, times: Durations, now: datetime) -> tuple[Chain, Chain, Chain]:
    left = ahead(stack, sep).passes
    chains = [_chain(stack, sep.tray, sep.step, passes, times, now) for passes in left]
    return chains[0], chains[1], chains[2]


def _to_begin(stack: Stack, tray: str, times: Durations) -> tuple[Chain, Chain, Chain]:
    left: Band = next_time(stack).passes
    made = [
        Chain(_name(stack, tray), (Task(READY, READY_MIN), *_passes(times, round(n)), *_end(times)))
        for n in left
    ]
    return made[0], made[1], made[2]


def _name(stack: Stack, tray: str) -> str:
    return f"{stack.key}/{tray}"


def _chain(
    stack: Stack, tray: str, step: StepTimes | None, passes: float, times: Durations, now: datetime
) -> Chain:
    """From the step under way to the end. `passes` are those not yet skimmed, the one under way included."""
    name, number = _name(stack, tray), max(0, round(passes))
    if step is None or step.step is Step.GET_READY:
        first = Task(READY, _getting_ready(step, now))
        return Chain(name, (first, *_passes(times, number), *_end(times)))
    if step.step is Step.LOOSEN:
        first = Task(LOOSEN, max(LEAST_MIN, times.left_of(step, now)), times.rest_after(step))
        later = _passes(times, number - 1)
        return Chain(name, (first, _skim(times), *later, *_end(times)))
    if step.step is Step.REST:
        tasks = (_skim(times), *_passes(times, number - 1), *_end(times))
        return Chain(name, tasks, times.left_of(step, now))
    left = max(LEAST_MIN, times.left(step, now))
    if step.step is Step.SKIM:
        return Chain(name, (Task(SKIM, left), *_passes(times, number - 1), *_end(times)))
    if step.step is Step.DECIDE:
        return Chain(name, (Task(DECIDE, left), *_passes(times, number), *_end(times)))
    return Chain(name, (Task(CLEAN_UP if step.step is Step.CLEAN_UP else SETTLE, left),))


def _getting_ready(step: StepTimes | None, now: datetime) -> float:
    """Minutes left of getting ready, which nothing times."""
    spent = max(0.0, (now - step.started_at).total_seconds() / 60) if step is not None else 0.0
    return max(LEAST_MIN, READY_MIN - spent)


def _skim(times: Durations) -> Task:
    return Task(SKIM, times.minutes[Step.SKIM] + times.minutes[Step.DECIDE])


def _passes(times: Durations, number: int) -> tuple[Task, ...]:
    loosen = Task(LOOSEN, times.minutes[Step.LOOSEN], times.minutes[Step.REST])
    return (loosen, _skim(times)) * max(0, number)


def _end(times: Durations) -> tuple[Task, ...]:
    return (Task(SETTLE, times.settling),)
