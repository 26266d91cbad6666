"""Which way is best for what a keeper wants, and which others cannot be told from it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from trayturn.advice.comparing.result import Aim, Best
from trayturn.advice.outlook.figures import five

if TYPE_CHECKING:
    from trayturn.advice.comparing.compare import Ran
    from trayturn.science.process.rates import Array

AS_GOOD = 0.2
"""A way that beats the best in so many draws or more cannot be told from it. Our choice."""
A_TENTH = 0.1
"""Work within so much of the least is as little. Our choice."""
SURE = 0.8
"""All scraps are taken where so many draws say so. Our choice."""


def best_of(ran: Sequence[Ran]) -> tuple[Best, ...]:
    """The best way for each aim."""
    return (
        _by_draws(Aim.CASTINGS, ran, lambda one: one.castings_per_month, "the most castings a month"),
        _least_work(ran),
        _by_draws(Aim.WORMS, ran, lambda one: one.worms, "the most worms"),
        _all_scraps(ran),
    )


def _by_draws(aim: Aim, ran: Sequence[Ran], of: Callable[[Ran], Array], what: str) -> Best:
    """By the middle of the draws; as good are those that do better in many of the same draws."""
    values = [of(one) for one in ran]
    place = max(range(len(ran)), key=lambda n: five(values[n]).p50)
    as_good = tuple(
        n for n in range(len(ran)) if n != place and float((values[n] >= values[place]).mean()) >= AS_GOOD
    )
    return Best(aim, place, as_good, f"{what}, by the middle of the same draws for every way")


def _least_work(ran: Sequence[Ran]) -> Best:
    work = [one.row.work_min.mid for one in ran]
    place = min(range(len(ran)), key=lambda n: (work[n], -ran[n].row.castings_kg_per_month.p50))
    as_good = tuple(n for n in range(len(ran)) if n != place and work[n] <= work[place] * (1 + A_TENTH))
    return Best(Aim.WORK, place, as_good, "the fewest minutes of hands a month")


def _all_scraps(ran: Sequence[Ran]) -> Best:
    """Of the ways whose worms take all, the one that takes most; otherwise the likeliest to take all."""
    sure = [n for n in range(len(ran)) if ran[n].row.takes_all >= SURE]
    if sure:
        place = max(sure, key=lambda n: (ran[n].row.way.scraps_kg_per_week, ran[n].row.takes_all))
        most = ran[place].row.way.scraps_kg_per_week
        as_good = tuple(n for n in sure if n != place and ran[n].row.way.scraps_kg_per_week >= most)
        return Best(Aim.SCRAPS, place, as_good, "the most scraps that its worms can take, 8 draws in 10")
    place = max(range(len(ran)), key=lambda n: ran[n].row.takes_all)
    share = round(100 * ran[place].row.takes_all)
    return Best(Aim.SCRAPS, place, (), f"likeliest to take them all, but in {share} % of draws only")
