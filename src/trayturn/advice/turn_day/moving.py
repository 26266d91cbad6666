"""The lifts of a turn day: in an order that never needs more hands or places than there are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from trayturn.domain.entries import Stage, TurnDayBegun
from trayturn.domain.setup import BinSetup, Pattern
from trayturn.science.restacking import ELSEWHERE, STACK, Lift, NoRoom, restack

__all__ = [
    "ELSEWHERE",
    "STACK",
    "Lift",
    "Moving",
    "Spots",
    "bringing_of",
    "brought_back",
    "moving_of",
    "moving_to",
    "spot_words",
    "with_set_on_top",
]

LIKE_KG = {Stage.BEDDING: 2.0, Stage.FEEDING: 6.0, Stage.FINISHING: 5.0, Stage.SEPARATING: 5.0}
"""What trays weigh against one another, so that heavy ones are lifted least. A day's lifts must not change
with what is reckoned while it is under way, so they go by stage alone. Engineering choice."""


@dataclass(frozen=True, slots=True)
class Spots:
    """Where the trays are between two lifts: the stack, bottom first, and each place beside it."""

    stack: tuple[str, ...]
    places: tuple[tuple[str, ...], ...]

    def after(self, lift: Lift) -> Spots:
        """Where they are once that tray was lifted."""
        stack = self.stack[:-1] if lift.source == STACK else self.stack
        places = [pile[:-1] if lift.source == n else pile for n, pile in enumerate(self.places, 1)]
        if lift.target == STACK:
            stack = (*stack, lift.tray)
        elif lift.target != ELSEWHERE:
            places[int(lift.target) - 1] = (*places[int(lift.target) - 1], lift.tray)
        return Spots(stack, tuple(places))


@dataclass(frozen=True, slots=True)
class Moving:
    """The lifts, in order. `places` is how many places beside the bin they use at most.

    `lacking` is how many places more they need than the setup has; the lifts are then those of so many.
    """

    lifts: tuple[Lift, ...]
    places: int
    lacking: int = 0
    start: tuple[str, ...] = ()

    def spots(self, done: int) -> Spots:
        """Where the trays are after so many lifts."""
        spots = Spots(self.start, ((),) * max(self.places, 1))
        for lift in self.lifts[:done]:
            spots = spots.after(lift)
        return spots


def moving_of(
    before: Sequence[str], stages: Mapping[str, Stage], begun: TurnDayBegun, setup: BinSetup
) -> Moving:
    """The lifts of a day that has begun: the same ones whenever they are asked for.

    The room they were planned for counts, also where the bin was given another meanwhile.
    """
    return moving_to(before, begun.order, begun.separating, stages, _room(begun, setup))


def _room(begun: TurnDayBegun, setup: BinSetup) -> BinSetup:
    return setup.model_copy(
        update={
            "places_beside": begun.places_beside or setup.places_beside,
            "trays_on_a_place": begun.trays_on_a_place or setup.trays_on_a_place,
        }
    )


def brought_back(order: Sequence[str], tray: str | None, pattern: Pattern) -> tuple[str, ...]:
    """The stack once a tray came back fresh, bottom first: below all, or on top, as the pattern has it."""
    back = () if tray is None else (tray,)
    return (*back, *order) if pattern is Pattern.BEDDING_BELOW else (*order, *back)


def bringing_of(begun: TurnDayBegun, stages: Mapping[str, Stage], setup: BinSetup) -> Moving:
    """The lifts that bring a separated tray back fresh, once nothing is separated any more."""
    order = tuple(tray for tray in dict.fromkeys(begun.order) if tray not in begun.separating)
    whole = brought_back(order, begun.comes_back, setup.pattern)
    return moving_to(order, whole, (), stages, _room(begun, setup))


def with_set_on_top(moving: Moving, separating: Iterable[str]) -> Moving:
    """The same lifts, then those that set the trays to be separated on top, the upper of a pile first."""
    piles = moving.spots(len(moving.lifts)).places
    where = {
        tray: (n, len(pile) - level) for n, pile in enumerate(piles, 1) for level, tray in enumerate(pile)
    }
    beside = [tray for tray in dict.fromkeys(separating) if tray in where]
    up = sorted(beside, key=lambda tray: where[tray][1])
    return replace(moving, lifts=(*moving.lifts, *(Lift(tray, where[tray][0], STACK) for tray in up)))


def moving_to(
    before: Sequence[str],
    whole: Sequence[str],
    separating: Iterable[str],
    stages: Mapping[str, Stage],
    setup: BinSetup,
) -> Moving:
    """The lifts from one stack to another. What is separated stands beside it until the stack is built.

    An order that names a tray twice counts the lower one.
    """
    aside = tuple(tray for tray in dict.fromkeys(separating) if tray in before)
    then = tuple(tray for tray in dict.fromkeys(whole) if tray not in aside)
    kg = tuple((tray, LIKE_KG.get(stage, 3.0)) for tray, stage in sorted(stages.items()))
    return _moving(tuple(before), then, aside, kg, setup.places_beside, setup.trays_on_a_place)


@lru_cache(maxsize=64)
def _moving(
    before: tuple[str, ...],
    then: tuple[str, ...],
    aside: tuple[str, ...],
    kg: tuple[tuple[str, float], ...],
    places: int,
    high: int,
) -> Moving:
    """The lifts, remembered: a day under way asks for the same ones with every key."""
    incoming = [tray for tray in then if tray not in before]
    try:
        lifts, lacking = restack(before, then, aside, incoming, places, high, dict(kg)), 0
    except NoRoom as short:
        lacking = (short.needed or len(before)) - places
        lifts = restack(before, then, aside, incoming, places + lacking, high, dict(kg))
    return Moving(lifts, places + lacking, lacking, before)


def spot_words(spot: str | int, places: int) -> str:
    """Where a lift goes, in words: `the stack`, `place 2 beside it`."""
    if spot == STACK:
        return "the stack"
    if spot == ELSEWHERE:
        return "where the spare trays are"
    return "the place beside it" if places == 1 else f"place {spot} beside it"
