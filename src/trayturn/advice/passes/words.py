"""What is left of a separation, in words."""

from __future__ import annotations

from datetime import timedelta

from trayturn.advice.bands import Band, said
from trayturn.advice.passes.estimate import PRACTICE, Ahead
from trayturn.domain.entries import Step
from trayturn.domain.units import three_figures
from trayturn.domain.words import count, span

WHICH = {Step.GET_READY: "", Step.DECIDE: "more"}
"""How the passes left are called: all, more than those done, or with the one under way."""


def ahead_words(told: Ahead, step: Step) -> tuple[str, ...]:
    """What is left at that step and what rest would do, and what that rests on."""
    left = minutes_words(told.minutes)
    if step in (Step.SETTLE, Step.CLEAN_UP):
        return (f"{left[:1].upper()}{left[1:]} to the end.",)
    more = passes_words(told.passes, WHICH.get(step, "with this one"))
    if not told.passes.high:
        return (f"{more}, {left} to the end.", _basis(told))
    return f"{more}, {left}; {rest_words(told)}.", _basis(told)


def next_words(told: Ahead) -> tuple[str, str]:
    """The same of a tray still to be begun."""
    more = passes_words(told.passes, "")
    return f"Next time: {more}, {minutes_words(told.minutes)}; {rest_words(told)}.", _basis(told)


def _basis(told: Ahead) -> str:
    source = ", no source" if told.rests_on == PRACTICE else ""
    return f"That rests on {told.rests_on}{source}."


def passes_words(passes: Band, what: str) -> str:
    """`2 to 4 more passes`, `at most 3 more passes`, `2 to 4 passes with this one`, `no more passes`."""
    low, high = round(passes.low), round(passes.high)
    more, after = ("more ", "") if what == "more" else ("", f" {what}".rstrip())
    if high == 0:
        return f"No {more}passes"
    if low == high:
        return f"{count(high, f'{more}pass', f'{more}passes')}{after}"
    known = f"{low} to {high}" if low else f"At most {high}"
    return f"{known} {more}pass{'' if high == 1 else 'es'}{after}"


def minutes_words(minutes: Band) -> str:
    """`about 40 to 85 min`, or in hours where it takes longer."""
    low, high = _rounded(minutes.low), _rounded(minutes.high)
    if high > 120:
        return said(minutes, lambda one: span(timedelta(minutes=_rounded(one)))).removeprefix("about ")
    return f"about {low} min" if low == high else f"about {low} to {high} min"


def _rounded(minutes: float) -> int:
    step = 1 if minutes < 10 else 5
    return round(minutes / step) * step


def rest_words(told: Ahead) -> str:
    """Whether the rest as set would do, or a shorter or longer one, with its band."""
    low, high = _rounded(told.rest.low), _rounded(told.rest.high)
    band = f"about {low} min" if low == high else f"{low} to {high} min"
    if told.rest_advised < told.rest_as_set:
        return f"a shorter rest would do, {band}"
    if told.rest_advised > told.rest_as_set:
        return f"a longer rest would do better, {band}"
    return f"a rest of {band} would do"


def rest_option(minutes: float) -> str:
    """A rest as it is offered: `15 min`."""
    return f"{three_figures(minutes)} min"
