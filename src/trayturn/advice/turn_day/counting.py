"""How many trays may stand after the turn: one fewer, as usual, or more, and what each of that does."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.bands import rough_mass
from trayturn.advice.stock.turns import turn_supported
from trayturn.advice.turn_day.plan import MOST_TRAYS, DayPlan, Wish, plan_day, spare_trays
from trayturn.domain.stack import Stack
from trayturn.domain.words import listed


@dataclass(frozen=True, slots=True)
class Choice:
    """So many trays after the turn, the wish for it, and what that does. `why` says why it is suggested."""

    number: int
    wish: Wish
    does: str
    why: str = ""


def counts(stack: Stack) -> dict[int, Wish]:
    """How many trays may stand after the turn, each with the wish for it: one fewer, the usual, and more."""
    usual = plan_day(stack)
    found = {_stand(usual): Wish()}
    fewer = plan_day(stack, Wish(bring=False))
    if fewer.fed is not None and (usual.fresh or usual.comes_back):
        found[_stand(fewer)] = Wish(bring=False)
    spare = spare_trays(stack, (*usual.fresh, *usual.separating))
    for more in range(1, len(spare) + 1):
        if len(usual.whole) + more <= MOST_TRAYS:
            found[_stand(usual) + more] = Wish(more=more)
    return dict(sorted(found.items()))


def choices(stack: Stack) -> tuple[Choice, ...]:
    """Each number that can be had, with what it does; one fewer is suggested where bedding is lacking."""
    if not stack.trays:
        return ()
    usual, short = plan_day(stack), _short_words(stack)
    made = []
    for number, wish in counts(stack).items():
        plan = plan_day(stack, wish)
        made.append(Choice(number, wish, _does(plan, usual), short if plan.left_out else ""))
    return tuple(made)


def _does(plan: DayPlan, usual: DayPlan) -> str:
    if plan.left_out:
        tray = usual.fresh[0] if usual.fresh else usual.comes_back
        after = "" if usual.fresh else " after its separation"
        return f"Tray {tray} stays out{after}; tray {plan.fed} is fed."
    extra = [tray for tray in plan.fresh if tray not in usual.fresh]
    if extra:
        noun, comes = ("tray", "comes") if len(extra) == 1 else ("trays", "come")
        return f"Spare {noun} {listed(extra)} {comes} in too, with bedding."
    if plan.comes_back is not None:
        return f"Tray {plan.comes_back} comes back fresh after its separation."
    return f"Tray {plan.fresh[0]} comes in with fresh bedding." if plan.fresh else "No tray comes in."


def _short_words(stack: Stack) -> str:
    """What bedding is lacking for the usual turn; empty where it is not, or is not known."""
    support = turn_supported(stack, stack.as_of)
    if support is None or not support.short:
        return ""
    return f"about {rough_mass(support.short_kg, support.units)} of bedding is lacking"


def _stand(plan: DayPlan) -> int:
    return len(plan.at_last)
