"""From one order of a stack to another, one tray at a time, with few places to put trays down.

A tray can be lifted only when none stands on it, and set down on the stack, on a free place, or on a pile
that is not yet too high. The fewest lifts are found by A* over all arrangements; of plans with as few, the
one that lifts least weight in all. A tray that goes back onto the stack from above the first difference has
to be lifted off and on again, so two lifts for each are a bound that no plan beats (Hart, Nilsson & Raphael
1968 for the method; from memory, and checked here against trying everything).
"""

from __future__ import annotations

import heapq
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import count, takewhile

from trayturn.science.errors import OutOfRange

STACK, ELSEWHERE = "stack", "elsewhere"
MOST_LOOKED_AT = 60_000
"""Arrangements looked at before the fewest lifts are given up for a good plan. Engineering choice."""
HURRY = 3
"""How much the bound counts once that is so: plans nearer the end are followed first. Engineering choice."""
MOST_SEARCHED, IN_A_HURRY = 7, 10_000
"""With more trays off the stack than this, only so many arrangements are looked at, in a hurry, and then a
place for each is asked for. Engineering choice."""

Piles = tuple[tuple[str, ...], ...]
Cost = tuple[float, float]


class NoRoom(ValueError):
    """There are too few places beside the stack; `needed` would do."""

    def __init__(self, needed: int) -> None:
        super().__init__("There are too few places to put trays down.")
        self.needed = needed


class _GaveUp(Exception):
    """Too many arrangements were looked at."""


@dataclass(frozen=True, slots=True)
class Lift:
    """One tray lifted. `source` and `target` are `STACK`, `ELSEWHERE`, or the number of a place, from 1."""

    tray: str
    source: str | int
    target: str | int


def restack(
    now: Sequence[str],
    then: Sequence[str],
    aside: Collection[str] = (),
    incoming: Collection[str] = (),
    places: int = 2,
    high: int = 2,
    kg: Mapping[str, float] | None = None,
) -> tuple[Lift, ...]:
    """The lifts from one order to another, both bottom first.

    Trays of `aside` end on a place beside, `incoming` ones come from elsewhere straight onto the stack, and
    those of `now` that are in none of `then` and `aside` go elsewhere. `high` trays may stand on one place.
    Raises `NoRoom`, and `OutOfRange` for a tray that comes from nowhere or stands twice.
    """
    _check(now, then, aside, incoming)
    task = _Task(tuple(then), frozenset(aside), frozenset(incoming), places, high, kg or {})
    off = task.off(tuple(now))
    if places >= off:
        return task.one_by_one(tuple(now))
    if (found := task.solve(tuple(now))) is not None:
        return found
    for more in range(places + 1, off if off <= MOST_SEARCHED else places + 1):
        wider = _Task(task.then, task.aside, task.incoming, more, high, task.kg)
        if wider.solve(tuple(now)) is not None:
            raise NoRoom(more)
    raise NoRoom(off)


def _check(
    now: Sequence[str], then: Sequence[str], aside: Collection[str], incoming: Collection[str]
) -> None:
    if len(set(now)) < len(now) or len({*then, *aside}) < len(then) + len(set(aside)):
        raise OutOfRange("A tray stands twice.")
    lost = ({*then, *aside} - set(now)) ^ set(incoming)
    if lost:
        raise OutOfRange(f"Tray {min(lost)} comes from nowhere, or is there already.")


@dataclass(frozen=True, slots=True)
class _State:
    stack: tuple[str, ...]
    piles: Piles
    waiting: frozenset[str]


@dataclass(frozen=True, slots=True)
class _Task:
    then: tuple[str, ...]
    aside: frozenset[str]
    incoming: frozenset[str]
    places: int
    high: int
    kg: Mapping[str, float]

    def solve(self, now: tuple[str, ...]) -> tuple[Lift, ...] | None:
        """The lifts; None where no order of them does with these places."""
        if not self._has_room(now):
            return None
        start = _State(now, ((),) * self.places, self.incoming)
        many = self.off(now) > MOST_SEARCHED
        for hurry, most in ((HURRY, IN_A_HURRY),) if many else ((1, MOST_LOOKED_AT), (HURRY, MOST_LOOKED_AT)):
            try:
                return self._search(start, hurry, most)
            except _GaveUp:
                continue
        return None

    def off(self, now: tuple[str, ...]) -> int:
        """How many trays are beside the stack at once: all above the first difference that are kept."""
        gone = now[self._settled(now) :]
        return sum(tray in self.then or tray in self.aside for tray in gone)

    def one_by_one(self, now: tuple[str, ...]) -> tuple[Lift, ...]:
        """With a place for each: every tray off, the top one first, and on again in order. None are fewer."""
        settled = self._settled(now)
        spots: dict[str, int] = {}
        lifts = []
        for tray in reversed(now[settled:]):
            kept = tray in self.then or tray in self.aside
            if kept:
                spots[tray] = len(spots) + 1
            lifts.append(Lift(tray, STACK, spots[tray] if kept else ELSEWHERE))
        on = (Lift(tray, spots.get(tray, ELSEWHERE), STACK) for tray in self.then[settled:])
        return (*lifts, *on)

    def _has_room(self, now: tuple[str, ...]) -> bool:
        """Whether all that has to be off the stack at once could stand beside it."""
        return self.off(now) <= self.places * self.high

    def _settled(self, stack: tuple[str, ...]) -> int:
        """How many trays from the bottom up stand where they are to stay."""
        same = takewhile(lambda pair: pair[0] == pair[1], zip(stack, self.then, strict=False))
        return sum(1 for _ in same)

    def _done(self, state: _State) -> bool:
        beside = {tray for pile in state.piles for tray in pile}
        return state.stack == self.then and beside == self.aside and not state.waiting

    def _bound(self, state: _State) -> Cost:
        """No plan from here has fewer lifts, or lifts less in as many."""
        off = state.stack[self._settled(state.stack) :]
        beside = [tray for pile in state.piles for tray in pile if tray not in self.aside]
        moved = [*off, *(tray for tray in off if tray in self.then), *beside, *state.waiting]
        return len(moved), sum(self.kg.get(tray, 0.0) for tray in moved)

    def _search(self, start: _State, hurry: int, most: int) -> tuple[Lift, ...] | None:
        """A*: the lifts, or None where there are none. Raises `_GaveUp`."""
        tie = count()
        best: dict[_State, Cost] = {start: (0, 0.0)}
        came: dict[_State, tuple[_State, Lift]] = {}
        heap = [(self._ahead(start, (0, 0.0), hurry), next(tie), start)]
        while heap:
            _, _, state = heapq.heappop(heap)
            if self._done(state):
                return _way(came, state)
            if len(best) > most:
                raise _GaveUp
            for lift, after in self._lifts(state):
                cost = best[state][0] + 1, best[state][1] + self.kg.get(lift.tray, 0.0)
                if after not in best or cost < best[after]:
                    best[after], came[after] = cost, (state, lift)
                    heapq.heappush(heap, (self._ahead(after, cost, hurry), next(tie), after))
        return None

    def _ahead(self, state: _State, cost: Cost, hurry: int) -> Cost:
        lifts, kg = self._bound(state)
        return cost[0] + hurry * lifts, cost[1] + hurry * kg

    def _lifts(self, state: _State) -> Iterator[tuple[Lift, _State]]:
        """Every lift that can be made, and what it leaves."""
        for tray in state.waiting:
            if state.stack == self.then[: self.then.index(tray)]:
                stack = (*state.stack, tray)
                yield Lift(tray, ELSEWHERE, STACK), _State(stack, state.piles, state.waiting - {tray})
        if state.stack:
            tray = state.stack[-1]
            yield from self._put(tray, STACK, _State(state.stack[:-1], state.piles, state.waiting))
        for n, pile in enumerate(state.piles):
            if pile:
                piles = _with(state.piles, n, pile[:-1])
                yield from self._put(pile[-1], n + 1, _State(state.stack, piles, state.waiting))

    def _put(self, tray: str, source: str | int, held: _State) -> Iterator[tuple[Lift, _State]]:
        """The tray in hand, set down wherever it can be. Of places that are free, the first will do."""
        if tray not in self.then and tray not in self.aside:
            yield Lift(tray, source, ELSEWHERE), held
            return
        if source != STACK:
            yield Lift(tray, source, STACK), _State((*held.stack, tray), held.piles, held.waiting)
        free = next((n for n, pile in enumerate(held.piles) if not pile), None)
        for n, pile in enumerate(held.piles):
            if n + 1 != source and (n == free or 0 < len(pile) < self.high):
                piles = _with(held.piles, n, (*pile, tray))
                yield Lift(tray, source, n + 1), _State(held.stack, piles, held.waiting)


def _with(piles: Piles, n: int, pile: tuple[str, ...]) -> Piles:
    return (*piles[:n], pile, *piles[n + 1 :])


def _way(came: Mapping[_State, tuple[_State, Lift]], state: _State) -> tuple[Lift, ...]:
    """The lifts that led to an arrangement, first one first."""
    lifts: list[Lift] = []
    while state in came:
        state, lift = came[state]
        lifts.append(lift)
    return tuple(reversed(lifts))
