"""How much more dry bedding would keep the sump from filling up."""

from __future__ import annotations

from dataclasses import replace

from trayturn.advice.outlook import figures
from trayturn.advice.outlook.coming import Coming, come
from trayturn.advice.outlook.fitted import Stop
from trayturn.domain.profile import Profile
from trayturn.science.water import bedding_for

TRIES = 5
LEAST_KG, MORE = 0.1, 2.0
"""What is tried first at least, and how many times as much next where that was not enough. Our choice."""


def bedding_to_prevent(profile: Profile, coming: Coming, stop: Stop = None) -> float | None:
    """Dry bedding to spread over the plan's meals, kg in all, beyond what they have.

    Nothing where the sump most likely does not fill up; None where what was tried would not prevent it. The
    first try soaks up what is too much, at three times the bedding's weight; each is then run.
    """
    capacity, plan = profile.bin.sump_capacity_l, coming.plan
    over = figures.five(coming.sump[-1]).p50 - capacity
    scraps = plan.scraps_kg_per_week * coming.days / 7
    if over < 0:
        return 0.0
    if scraps <= 0:
        return None
    more = max(LEAST_KG, bedding_for(over))
    for _ in range(TRIES):
        tried = replace(plan, bedding_ratio=plan.bedding_ratio + more / scraps)
        then = come(
            profile, coming.stack, coming.history, coming.known, tried, coming.days, coming.seed, stop
        )
        if figures.five(then.sump[-1]).p50 < capacity:
            return more
        more *= MORE
    return None
