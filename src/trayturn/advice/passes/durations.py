"""How long the steps of a separation take this keeper, from those done before."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from statistics import median

from trayturn.domain.entries import Step
from trayturn.domain.setup import BinSetup
from trayturn.domain.stack import Separation, StepTimes

USUAL = {Step.SKIM: 5.0, Step.DECIDE: 1.0, Step.SETTLE: 10.0, Step.CLEAN_UP: 5.0}
"""Minutes of the steps that nothing times, until some were done. Our choice."""
PASS = (Step.LOOSEN, Step.REST, Step.SKIM, Step.DECIDE)
LAST = 12
"""How many of the latest steps of a kind count: a keeper gets quicker."""


@dataclass(frozen=True, slots=True)
class Durations:
    """Minutes that each step usually takes."""

    minutes: Mapping[Step, float]

    @property
    def one_pass(self) -> float:
        return sum(self.minutes[step] for step in PASS)

    @property
    def settling(self) -> float:
        """What comes after the last pass."""
        return self.minutes[Step.SETTLE] + self.minutes[Step.CLEAN_UP]

    def left(self, step: StepTimes, now: datetime) -> float:
        """Minutes from now to the end of the pass, or of the settling, that this step belongs to."""
        phase = PASS if step.step in PASS else (Step.SETTLE, Step.CLEAN_UP)
        if step.step not in phase:
            return 0.0
        later = phase[phase.index(step.step) + 1 :]
        return self.left_of(step, now) + sum(
            self.rest_after(step) if one is Step.REST else self.minutes[one] for one in later
        )

    def left_of(self, step: StepTimes, now: datetime) -> float:
        """Minutes left of the step itself: of a rest by its deadline, else by what it usually takes."""
        if step.step is Step.REST and step.ends_at is not None:
            return max(0.0, (step.ends_at - now).total_seconds() / 60)
        spent = (now - step.started_at).total_seconds() / 60
        return self.minutes[step.step] - min(max(0.0, spent), self.minutes[step.step])

    def rest_after(self, step: StepTimes) -> float:
        """Minutes of the rest that follows a loosening: as it was chosen for this pass, else as usual."""
        return step.rest_minutes or self.minutes[Step.REST]


def minutes_of(step: StepTimes) -> float | None:
    """How long a step took, minutes; None while it runs, and where a clock was set back in it."""
    if step.ended_at is None or step.ended_at <= step.started_at:
        return None
    return (step.ended_at - step.started_at).total_seconds() / 60


def durations(setup: BinSetup, separations: Iterable[Separation]) -> Durations:
    """The middle of what each step took in these separations, oldest first, and of what is usual.

    What is usual counts as one step more, so that a single step left open overnight does not count for much.
    """
    usual = {Step.LOOSEN: setup.loosen_minutes, Step.REST: setup.rest_minutes, **USUAL}
    taken: dict[Step, list[float]] = {step: [] for step in usual}
    for step in (step for sep in separations for step in sep.steps if step.step in usual):
        minutes = minutes_of(step)
        if minutes is not None:
            taken[step.step].append(minutes)
    return Durations({step: median([*taken[step][-LAST:], usual[step]]) for step in usual})
