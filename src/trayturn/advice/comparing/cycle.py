"""A stack turned again and again in one way, as what drives the model: fresh at first, in full swing later.

The moves are those of the bin's pattern in their simplest form, so that hundreds of ways can be run: the
journal is not asked. Every tray that is emptied comes back fresh.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from trayturn.advice.comparing.result import Way
from trayturn.advice.outlook.makeup import Makeup
from trayturn.domain.setup import Pattern
from trayturn.science.process.events import Event, Put, Separate, SumpEmptied, Turn, WormsPut

LATE = 0.3
"""Meals and turns of one day follow each other by this much of it."""


@dataclass(frozen=True, slots=True)
class Needs:
    """What goes in: a kg of scraps with its bedding, a fresh tray, days between meals, and the worms, kg."""

    meal: Makeup
    fresh: Makeup
    feed_every_days: float
    worms_kg: float


@dataclass(slots=True)
class _Stack:
    """Trays bottom first; `fed` is the one that is fed, `done` those that finish, oldest first."""

    order: list[str]
    fed: str
    done: list[str] = field(default_factory=list)


def cycle(way: Way, needs: Needs, pattern: Pattern, days: int) -> tuple[Event, ...]:
    """All that happens in so many days."""
    return tuple(_cycle(way, needs, pattern, days))


def _cycle(way: Way, needs: Needs, pattern: Pattern, days: int) -> Iterator[Event]:
    names = [f"{n + 1}" for n in range(max(1, way.trays))]
    stack = _Stack(names if pattern is Pattern.BEDDING_BELOW else names[:1], "")
    stack.fed = stack.order[-1]
    yield Turn(0.0, tuple(stack.order))
    for name in stack.order:
        yield _put(0.0, name, needs.fresh)
    yield WormsPut(0.0, needs.worms_kg)
    meal, turn = 1.0, max(1.0, way.every_days)
    while min(meal, turn) <= days - 1:
        if meal <= turn:
            yield _put(meal, stack.fed, needs.meal, way.scraps_kg_per_week * needs.feed_every_days / 7)
            meal += max(1.0, needs.feed_every_days)
        else:
            yield from _turn(turn + LATE, stack, way, names, needs, pattern)
            turn += max(1.0, way.every_days)


def _put(day: float, tray: str, what: Makeup, times: float = 1.0) -> Put:
    return Put(
        day,
        tray,
        quick_kg=what.quick_kg * times,
        slow_kg=what.slow_kg * times,
        resistant_kg=what.resistant_kg * times,
        water_kg=what.water_kg * times,
    )


def _turn(
    day: float, stack: _Stack, way: Way, names: list[str], needs: Needs, pattern: Pattern
) -> Iterator[Event]:
    """The sump poured out, the oldest finished tray separated, the fed one finishing, a fresh one in."""
    yield SumpEmptied(day)
    spent = stack.fed
    stack.done.append(spent)
    below = pattern is Pattern.BEDDING_BELOW
    bedding = [tray for tray in stack.order if tray not in stack.done]
    full = len(stack.done) > 1 or not bedding if below else len(stack.order) == len(names)
    leaving = stack.done.pop(0) if full else None
    fresh = leaving or next((name for name in names if name not in stack.order), None)
    if leaving is not None:
        yield Separate(day, leaving, overs_to=_overs_to(stack, leaving, bedding))
        stack.order.remove(leaving)
    if fresh is not None and len(stack.order) < len(names):
        stack.order.insert(0 if below and bedding else len(stack.order), fresh)
    stack.fed = (bedding[-1] if below and bedding else fresh) or spent
    stack.order = [*(t for t in stack.order if t != stack.fed), stack.fed]
    yield Turn(day, tuple(stack.order))
    if fresh is not None:
        yield _put(day, fresh, needs.fresh)


def _overs_to(stack: _Stack, leaving: str, bedding: list[str]) -> str | None:
    """What is not castings goes to the tray that is fed next, or to any other."""
    others = bedding or [tray for tray in stack.order if tray != leaving]
    return others[-1] if others else None
