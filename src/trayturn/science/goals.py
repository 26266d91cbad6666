"""What to add to a mix so that it reaches a moisture, a carbon to nitrogen ratio, or both.

Each goal is one linear equation in the masses added, since a mix's water, solids, carbon and nitrogen are
sums:
moisture G asks sum kg (M - G) = 0, and C:N R asks sum kg (1 - M)(C - R N) = 0 (Richard & Trautmann, Cornell
Composting 1996; the second is derived here from the mass balance). Two goals fix two unknown masses.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from trayturn.science.blend import Blend, Part, Stuff
from trayturn.science.errors import OutOfRange, within

Weight = Callable[[Stuff], float]
CLOSE = 1e-12


class Unreachable(ValueError):
    """No mass of what may be added reaches the goal. The message says why, and what can be reached."""


@dataclass(frozen=True, slots=True)
class Goal:
    """One goal. `weight` is what a kilogram of something adds to its equation, which is to come to
    nothing."""

    name: str
    weight: Weight
    of_solids: bool = False
    """Whether it is of the solids alone, and so says nothing of a mix without any."""

    def total(self, blend: Blend) -> float:
        return sum(part.kg * self.weight(part.stuff) for part in blend.parts)


def moisture_goal(moisture: float) -> Goal:
    """To be so moist, as a fraction. Raises `OutOfRange`."""
    within(moisture, "The moisture wanted", 0.01, 0.99)
    return Goal(
        f"a moisture of {moisture:.0%}", lambda stuff: _known(stuff.moisture, stuff, "moisture") - moisture
    )


def c_to_n_goal(ratio: float) -> Goal:
    """To have so much carbon for each part of nitrogen. Raises `OutOfRange`."""
    within(ratio, "The carbon to nitrogen ratio wanted", 1, 1000)

    def weight(stuff: Stuff) -> float:
        solids = 1 - _known(stuff.moisture, stuff, "moisture")
        if solids == 0:
            return 0.0
        return solids * (_known(stuff.c, stuff, "carbon") - ratio * _known(stuff.n, stuff, "nitrogen"))

    return Goal(f"a carbon to nitrogen ratio of {ratio:g}", weight, of_solids=True)


def _known(value: float | None, stuff: Stuff, what: str) -> float:
    if value is None:
        raise OutOfRange(f"The {what} of {stuff.name} is not known, so this goal cannot be reckoned.")
    return value


def solve(blend: Blend, goals: Sequence[Goal], addends: Sequence[Stuff]) -> list[Part]:
    """The masses to add, one part for each addend that is needed, none where the mix is there already.

    One goal takes the addend that reaches it with the least mass; two goals take the two addends (or, among
    more, the pair with the least mass in all). Raises `Unreachable` and `OutOfRange`.
    """
    if not 1 <= len(goals) <= 2:
        raise OutOfRange("One goal or two can be reached at once.")
    if blend.dry_kg == 0 and any(goal.of_solids for goal in goals):
        raise OutOfRange("A mix without solids has no carbon and no nitrogen to bring to a ratio.")
    found = [parts for parts in _tries(blend, goals, addends) if parts is not None]
    if not found:
        raise Unreachable(_why(blend, goals, addends))
    best = min(found, key=lambda parts: sum(part.kg for part in parts))
    return [part for part in best if part.kg > 0]


def _tries(blend: Blend, goals: Sequence[Goal], addends: Sequence[Stuff]) -> list[list[Part] | None]:
    single = [_one(blend, goals, addend) for addend in addends]
    if len(goals) == 1:
        return single
    pairs = [(a, b) for n, a in enumerate(addends) for b in addends[n + 1 :]]
    return [*single, *(_two(blend, goals, a, b) for a, b in pairs)]


def _one(blend: Blend, goals: Sequence[Goal], addend: Stuff) -> list[Part] | None:
    """So much of one addend that every goal is reached, if it can be."""
    first, *others = goals
    kg = _quotient(-first.total(blend), first.weight(addend))
    if kg is None:
        return None
    added = Part(addend, kg)
    scale = blend.wet_kg + kg
    reached = all(abs(goal.total(blend.plus(added))) <= 1e-9 * scale for goal in others)
    return [added] if reached else None


def _two(blend: Blend, goals: Sequence[Goal], a: Stuff, b: Stuff) -> list[Part] | None:
    """So much of two addends that both goals are reached: two equations, by Cramer's rule."""
    (a1, b1, t1), (a2, b2, t2) = ((g.weight(a), g.weight(b), -g.total(blend)) for g in goals)
    determinant = a1 * b2 - a2 * b1
    if abs(determinant) < CLOSE:
        return None
    masses = [(t1 * b2 - t2 * b1) / determinant, (a1 * t2 - a2 * t1) / determinant]
    if any(kg < -CLOSE * max(1.0, blend.wet_kg) for kg in masses):
        return None
    return [Part(stuff, max(0.0, kg)) for stuff, kg in zip((a, b), masses, strict=True)]


def _quotient(wanted: float, each: float) -> float | None:
    if abs(wanted) < CLOSE:
        return 0.0
    kg = wanted / each if abs(each) > CLOSE else -1.0
    return kg if 0 <= kg <= 1e5 else None


def _why(blend: Blend, goals: Sequence[Goal], addends: Sequence[Stuff]) -> str:
    names = " and ".join(addend.name for addend in addends) or "nothing"
    for goal in goals:
        now = goal.total(blend)
        if all(now * goal.weight(addend) >= 0 for addend in addends) and abs(now) > CLOSE:
            return (
                f"No amount of {names} brings this mix to {goal.name}: each would leave it on the same side. "
                f"{_stands(blend)} Name something else to add."
            )
    wanted = " and ".join(goal.name for goal in goals)
    return f"No amounts of {names} bring this mix to {wanted}. {_stands(blend)} Name other things to add."


def _stands(blend: Blend) -> str:
    ratio = f", C:N {blend.c_to_n:.0f}" if blend.c_to_n else ""
    return f"It stands at {blend.moisture:.0%} moisture{ratio}."
