"""A turn arranged by hand: one tray moved, given another stage, or taken out, from the plan as it stands."""

from __future__ import annotations

from dataclasses import replace

from trayturn.advice.turn_day.plan import STANDS, DayPlan, Wish, plan_day, spare_trays
from trayturn.domain.entries import Stage
from trayturn.domain.stack import Stack

NEXT = {Stage.BEDDING: Stage.FEEDING, Stage.FEEDING: Stage.FINISHING}


def by_hand(plan: DayPlan, wish: Wish) -> Wish:
    """The plan as it stands as a wish by hand, to be changed from there."""
    if wish.order:
        return wish
    return replace(wish, order=plan.order, stages=dict(plan.stages), more=0, bring=not plan.left_out)


def moved(plan: DayPlan, wish: Wish, tray: str, by: int) -> Wish:
    """The tray so many levels up (or down); one that is separated comes back on top."""
    own = by_hand(plan, wish)
    order = list(own.order)
    if tray not in order:
        return _back_in(own, tray) if by < 0 else own
    at = order.index(tray)
    to = max(0, min(len(order) - 1, at + by))
    order.insert(to, order.pop(at))
    return replace(own, order=tuple(order))


def restaged(plan: DayPlan, wish: Wish, tray: str) -> Wish:
    """The next stage for a tray: bedding, feeding, finishing, to be separated, and bedding again."""
    own = by_hand(plan, wish)
    if tray not in own.order:
        return _back_in(own, tray, Stage.BEDDING)
    stage = own.stages.get(tray, Stage.BEDDING)
    if stage in NEXT:
        return replace(own, stages={**own.stages, tray: NEXT[stage]})
    if len(own.order) == 1:
        return replace(own, stages={**own.stages, tray: STANDS[0]})
    return replace(
        own,
        order=tuple(one for one in own.order if one != tray),
        stages={one: what for one, what in own.stages.items() if one != tray},
    )


def _back_in(wish: Wish, tray: str, stage: Stage = Stage.FINISHING) -> Wish:
    """A tray that was to be separated stands again, on top: it finishes longer, or counts as bedding."""
    return replace(wish, order=(*wish.order, tray), stages={**wish.stages, tray: stage})


def fresh_out_or_in(stack: Stack, plan: DayPlan, wish: Wish) -> Wish | None:
    """The fresh trays left out, or the usual one in again at the bottom; None where no tray is spare.

    Without a spare one the usual tray is the one that is separated and comes back.
    """
    own = by_hand(plan, wish)
    if plan.comes_back or plan_day(stack).comes_back in plan.separating:
        return replace(own, bring=not plan.comes_back)
    if plan.fresh:
        order = tuple(tray for tray in own.order if tray not in plan.fresh)
        return replace(own, order=order, bring=False) if order else None
    usual = plan_day(stack).fresh or spare_trays(stack)
    if not usual:
        return None
    stages = {**own.stages, usual[0]: Stage.BEDDING}
    return replace(own, order=(usual[0], *own.order), stages=stages, bring=True)
