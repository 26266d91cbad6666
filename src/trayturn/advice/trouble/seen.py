"""Signs that the journal tells of already: from the last checks, each with where it comes from."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from trayturn.advice.trouble.asks_readings import COLD_C, DRY_PCT, FULL, HOT_C, WET_PCT, percent_of
from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.signs import OF_PEST
from trayturn.domain.entries import Amount, Checked
from trayturn.domain.words import day

SEEN_DAYS = 14.0
"""How long what a check saw counts as a sign. Our choice."""
SMELLS = {
    "smell-rotten": ("rotten", "rot", "rotting", "foul", "putrid", "sewage", "drain", "eggs"),
    "smell-ammonia": ("ammonia",),
    "smell-sour": ("sour", "vinegar", "acid", "fermented"),
}
"""Words in a check's smell that mean a sign."""
DENIED = {"no", "not", "never", "without", "none", "gone", "nothing"}


@dataclass(frozen=True, slots=True)
class Tick:
    """A sign that is ticked. `said` tells which check it comes from; empty where the keeper ticked it."""

    sign: str
    said: str = ""


def seen_already(case: Case) -> dict[str, Tick]:
    """The signs of the last two weeks' checks, by code."""
    ticks: dict[str, Tick] = {}
    for tick in (*_smelt(case), *_astray(case), *_read(case), *_company(case)):
        ticks.setdefault(tick.sign, tick)
    return ticks


def _tick(sign: str, check: Checked, case: Case) -> Tick:
    return Tick(sign, f"from the check of {day(check.at, case.now)}")


def _last(case: Case, seen: Callable[[Checked], object]) -> Checked | None:
    return case.last_check(seen, SEEN_DAYS)


def _smelt(case: Case) -> Iterator[Tick]:
    check = _last(case, lambda one: one.smell.strip())
    words = set(re.findall(r"\w+", check.smell.casefold())) if check is not None else set()
    if check is None or words & DENIED:
        return
    for sign, known in SMELLS.items():
        if words & set(known):
            yield _tick(sign, check, case)


def _astray(case: Case) -> Iterator[Tick]:
    astray = _last(case, lambda one: one.strays)
    if astray is not None and astray.strays is Amount.MANY:
        yield _tick("leaving", astray, case)
    worms = _last(case, lambda one: one.worms)
    if worms is not None and worms.worms in (Amount.NONE, Amount.FEW):
        yield _tick("few-seen", worms, case)


def _read(case: Case) -> Iterator[Tick]:
    wet, warm = _last(case, percent_of), _last(case, lambda one: one.temperature_c)
    sump = _last(case, lambda one: one.sump_l)
    if wet is not None and (percent := percent_of(wet)) is not None:
        if percent > WET_PCT:
            yield _tick("drips", wet, case)
        if percent < DRY_PCT:
            yield _tick("dry", wet, case)
    if warm is not None and warm.temperature_c is not None:
        if warm.temperature_c > HOT_C:
            yield _tick("heating", warm, case)
        if warm.temperature_c < COLD_C:
            yield _tick("chilled", warm, case)
    if sump is not None and (sump.sump_l or 0.0) >= FULL * case.stack.setup.sump_capacity_l:
        yield _tick("sump-full", sump, case)


def _company(case: Case) -> Iterator[Tick]:
    check = _last(case, lambda one: one.pests)
    if check is not None:
        yield from (_tick(OF_PEST[pest], check, case) for pest in check.pests)
