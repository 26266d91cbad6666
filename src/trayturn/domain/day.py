"""A turn day as the journal has it: its plan, and the steps done so far."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime

from trayturn.domain.entries import DayOutcome, DayStep, DayStepDone, Stage, TurnDayBegun


@dataclass(frozen=True, slots=True)
class TurnDay:
    """One turn day. `ended_at` is None while it is under way.

    `before` are the trays as they stood when it began, bottom first; `stages_before` what each was doing.
    """

    plan: TurnDayBegun
    before: tuple[str, ...]
    stages_before: Mapping[str, Stage] = field(default_factory=dict)
    done: tuple[DayStepDone, ...] = ()
    ended_at: datetime | None = None
    outcome: DayOutcome | None = None

    @property
    def begun_at(self) -> datetime:
        return self.plan.at

    def steps(self, step: DayStep) -> tuple[DayStepDone, ...]:
        """The steps of that kind done so far, in order."""
        return tuple(one for one in self.done if one.step is step)
