"""A planned turn day, whole: moves, lifts, time, stock, tools, cautions, and what speaks for waiting."""

from __future__ import annotations

from dataclasses import dataclass, replace

from trayturn.advice.cautions import Caution, cautions_for
from trayturn.advice.pantry import Pantry
from trayturn.advice.turn_day.lifts import Fresh, LiftTold, lifts_told
from trayturn.advice.turn_day.moving import Moving, moving_to, with_set_on_top
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
    """All that a keeper needs before the day begins.

    `lifts` are those of `moving`, then those that set trays on top; `back` those that bring a tray back.
    """

    plan: DayPlan
    moving: Moving
    bringing: Moving
    lifts: tuple[LiftTold, ...]
    back: tuple[LiftTold, ...]
    time: DayTime
    waits: tuple[NotReady, ...]
    needs: Needs
    tools: tuple[str, ...]
    cautions: tuple[Caution, ...]

    @property
    def places(self) -> int:
        """How many places beside the bin the day's lifts use at most."""
        return max(self.moving.places, self.bringing.places)

    @property
    def lacking(self) -> int:
        """How many places more than the bin has the lifts need."""
        return max(self.moving.lacking, self.bringing.lacking)

    @property
    def heaviest(self) -> LiftTold | None:
        """The lift with the highest index."""
        return max((*self.lifts, *self.back), key=lambda one: one.index, default=None)


def whole_day(stack: Stack, pantry: Pantry, wish: Wish | None = None) -> Whole:
    """The plan of a day with everything that belongs to it."""
    plan = plan_day(stack, wish)
    stages = {tray.id: tray.stage for tray in stack.trays}
    before = [tray.id for tray in stack.trays]
    moving = moving_to(before, plan.whole, plan.separating, stages, stack.setup)
    bringing = moving_to(plan.order, plan.at_last, (), stages, stack.setup)
    loosened = len([tray for tray in plan.order if tray in before])
    fresh = Fresh(plan.bedding_kg, plan.fed)
    lifts = lifts_told(stack, with_set_on_top(moving, plan.separating), pantry, fresh)
    back = lifts_told(stack, bringing, pantry, replace(fresh, back=plan.comes_back))
    lifted = len(lifts) + len(back)
    return Whole(
        plan,
        moving,
        bringing,
        lifts,
        back,
        day_time(stack, lifted, plan.separating, loosened, fed=plan.fed is not None),
        not_ready(stack, plan, pantry),
        needs_of(stack, plan),
        tools_for(plan, moving),
        _cautions(stack, plan, any(lift.heavy for lift in (*lifts, *back))),
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
