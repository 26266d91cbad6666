"""What is to be at hand before the bin is opened: by what the day has in it. Common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.turn_day.moving import Moving
from trayturn.advice.turn_day.plan import DayPlan
from trayturn.domain.words import count

EACH_DAY = ("gloves", "a scale", "a jug for the sump")
TO_SEPARATE = ("a bright light", "a scoop", "a tub for castings", "a tub for pieces", "labels")


def tools_for(plan: DayPlan, moving: Moving) -> tuple[str, ...]:
    """The things this day needs, in the order in which they are reached for."""
    return tuple(_tools(plan, moving))


def _tools(plan: DayPlan, moving: Moving) -> Iterator[str]:
    yield from EACH_DAY
    used = len({lift.target for lift in moving.lifts if isinstance(lift.target, int)})
    if used:
        yield f"{count(used, 'clear place')} beside the bin"
    if plan.fresh or plan.comes_back:
        yield "bedding"
    if plan.fed is not None:
        yield "the meal"
    if plan.separating:
        yield from TO_SEPARATE
