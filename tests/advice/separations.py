"""Separations made up pass by pass, as the models of `science.passes` have it, and the bin they belong to."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from random import Random

from tests.builders import a_usual_bin, moment, stack_of
from trayturn.domain.entries import Amount, Outcome, PassDone, Step
from trayturn.domain.stack import Separation, Stack, StepTimes
from trayturn.science import passes as p

START = moment(200)
HELD_KG, EMPTY_KG = 6.0, 0.9
MINUTES = {Step.LOOSEN: 4.0, Step.REST: 15.0, Step.SKIM: 6.0, Step.DECIDE: 1.0}
TREE = stack_of(*a_usual_bin(), as_of=START)


@dataclass(frozen=True)
class Pass:
    """One pass: what it took of what was left, what was left after it, the rest before it, what was seen."""

    share: float
    left: float
    seen: str = "few"
    rest: float = 15.0


def share_of(log_odds: float) -> float:
    return 1 / (1 + math.exp(-log_odds))


def log_odds(share: float) -> float:
    return math.log(share / (1 - share))


def made_up(rng: Random, mean: float, least: int = 0) -> list[Pass]:
    """A tray skimmed until little is left, and at least so often: shares around a mean, worms by the eye."""
    left, found = 1.0, list[Pass]()
    while left > p.LITTLE_LEFT or len(found) < least:
        share = share_of(rng.gauss(mean, p.PASSES_DIFFER))
        left *= 1 - share
        glance = rng.gauss(math.log(left), p.GLANCE)
        seen = "many" if glance < math.log(p.MANY_BELOW) else "few"
        found.append(Pass(share, left, "none" if glance > math.log(p.NONE_ABOVE) else seen))
    return found


def separation(
    passes: Sequence[Pass], begun: datetime = START, *, weighed: bool = True, done: bool = False
) -> Separation:
    """A separation of tray A with these passes, at its decision or finished."""
    steps: list[StepTimes] = []
    told: list[PassDone] = []
    at, before = begun, 1.0
    for number, one in enumerate(passes, 1):
        for step, minutes in {**MINUTES, Step.REST: one.rest}.items():
            till = at + timedelta(minutes=minutes)
            steps.append(StepTimes(step, number, at, ended_at=till))
            at = till
        kg = (before - one.left) * HELD_KG if weighed else None
        told.append(PassDone(at=at, tray="A", pass_number=number, worms_seen=Amount(one.seen), skimmed_kg=kg))
        before = one.left
    if done:
        ended, outcome = at, Outcome.FINISHED
        gross = HELD_KG + EMPTY_KG if weighed else None
        return Separation("A", begun, 2, tuple(steps), tuple(told), gross, None, ended, outcome)
    if steps:
        steps[-1] = replace(steps[-1], ended_at=None)
    gross = HELD_KG + EMPTY_KG if weighed else None
    return Separation("A", begun, 2, tuple(steps), tuple(told), gross)


def earlier(trays: Sequence[Sequence[Pass]], *, weighed: bool = True) -> tuple[Separation, ...]:
    """Trays separated one after the other before."""
    days = [timedelta(days=10 * (len(trays) - n)) for n in range(len(trays))]
    return tuple(
        separation(tray, START - day, weighed=weighed, done=True)
        for tray, day in zip(trays, days, strict=True)
    )


def a_stack(now: Separation | None, past: Sequence[Separation] = ()) -> Stack:
    """The usual bin with that separation under way, and those behind it."""
    under_way = (now,) if now is not None else ()
    last = now.steps[-1].started_at if now is not None and now.steps else START
    return replace(TREE, separations=under_way, past_separations=tuple(past), as_of=last)
