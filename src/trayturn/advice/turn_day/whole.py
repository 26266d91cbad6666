"""A planned turn day, whole: moves, lifts, time, stock, tools, cautions, and what speaks for waiting."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.cautions import Caution, cautions_for
from trayturn.advice.pantry import Pantry
from trayturn.advice.turn_day.lifts import Fresh, LiftTold, lifts_told
from trayturn.advice.turn_day.moving import Moving, moving_to
from trayturn.advice.turn_day.needs import Needs, needs_of
from trayturn.advice.turn_day.plan import DayPlan, Wish, plan_day
from trayturn.advice.turn_day.readiness import NotReady, not_ready
from trayturn.advice.turn_day.times import DayTime, day_time
from trayturn.advice.turn_day.tools import tools_for
from trayturn.domain.stack import Stack
from trayturn.domain.words import as_read

SMELL_OF, LIFTING = "ammonia", "lifting"


@dataclass(frozen=True, slots=True)
class Whole:
    """All that a keeper needs before the day begins."""

    plan: DayPlan
    moving: Moving
    lifts: tuple[LiftTold, ...]
    time: DayTime
    waits: tuple[NotReady, ...]
    needs: Needs
    tools: tuple[str, ...]
    cautions: tuple[Caution, ...]

    @property
    def heaviest(self) -> LiftTold | None:
        """The lift with the highest index."""
        return max(self.lifts, key=lambda one: one.index, default=None)


def whole_day(stack: Stack, pantry: Pantry, wish: Wish | None = None) -> Whole:
    """The plan of a day with everything that belongs to it."""
    plan = plan_day(stack, wish)
    stages = {tray.id: tray.stage for tray in stack.trays}
    before = [tray.id for tray in stack.trays]
    moving = moving_to(before, plan.whole, plan.separating, stages, stack.setup)
    loosened = len([tray for tray in plan.order if tray in before])
    lifts = lifts_told(stack, moving, pantry, Fresh(plan.bedding_kg, plan.fed))
    return Whole(
        plan,
        moving,
        lifts,
        day_time(stack, moving, plan.separating, loosened, fed=plan.fed is not None),
        not_ready(stack, plan, pantry),
        needs_of(stack, plan),
        tools_for(plan, moving),
        _cautions(stack, plan, any(lift.heavy for lift in lifts)),
    )


def _cautions(stack: Stack, plan: DayPlan, heavy: bool) -> tuple[Caution, ...]:
    """Those of what this day has in it, each once.

    Ammonia, where the bin smelled of it of late, stands before all, then lifting where a tray is too heavy.
    """
    works = ("turn", "separation") if plan.separating else ("turn",)
    found = {one.code: one for work in works for one in cautions_for(work)}
    if heavy and LIFTING in found:
        found = {LIFTING: found[LIFTING], **found}
    if _smells(stack):
        first = next(one for one in cautions_for("putting_right") if one.code == SMELL_OF)
        found = {first.code: first, **found}
    return tuple(found.values())


def _smells(stack: Stack) -> bool:
    """Whether the bin smelled of ammonia, and nobody has checked on a later day without noting a smell."""
    smelled, last = stack.smelled, stack.last_check_at
    if smelled is None or last is None or SMELL_OF not in smelled.smell.casefold():
        return False
    return as_read(last, stack.as_of).date() <= as_read(smelled.at, stack.as_of).date()
