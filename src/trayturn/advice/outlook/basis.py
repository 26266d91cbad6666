"""What a band rests on: measurements, which of them do not fit, what to measure next, and the plan."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.outlook.misfits import FAR_SD, shown
from trayturn.advice.outlook.plan import plan_words
from trayturn.advice.outlook.result import Misfit, Outlook, Point
from trayturn.advice.outlook.scored import past_lines
from trayturn.advice.outlook.topics import PAST, points_of
from trayturn.advice.outlook.words import rests_lines
from trayturn.domain.setup import Units
from trayturn.domain.units import three_figures
from trayturn.domain.words import count, day

HOLD = "The wide band holds 4 times in 5, the narrow one 1 time in 2, as far as the plan is kept."
MOST_POINTS = 12
"""So many of the latest measurements of a series are listed. Our choice."""


def basis_lines(topic: str, told: Outlook, units: Units) -> Iterator[str]:
    """All of it, in paragraphs parted by empty lines: for one topic, its own measurements among it."""
    yield from rests_lines(told, most=len(told.does_not_fit))
    yield from _measured(topic, told, units)
    if topic == PAST:
        yield from _forecasts(told, units)
    if told.plan is not None:
        yield ""
        yield f"As planned: {'; '.join(plan_words(told.plan, units))}."
        yield from told.plan.said
    yield from told.assumed
    yield ""
    yield HOLD


def _measured(topic: str, told: Outlook, units: Units) -> Iterator[str]:
    found = sorted(points_of(topic, told), key=lambda one: one.at, reverse=True)
    if not found:
        return
    yield ""
    yield f"{count(len(found), 'measurement')} of this series:"
    out = {(one.entry, one.kind): one for one in told.does_not_fit}
    for one in found[:MOST_POINTS]:
        value, fits = shown(one.kind, one.value, units), _fits(one, out.get((one.entry, one.kind)))
        yield f"{day(one.at, told.as_of)}: {value}, {fits} (entry {one.entry})"
    if len(found) > MOST_POINTS:
        yield f"and {len(found) - MOST_POINTS} before."


def _fits(one: Point, odd: Misfit | None) -> str:
    """How far off a measurement is, in usual errors."""
    if one.misfit_sd is None:
        return "not held against the model"
    side = "more" if one.misfit_sd > 0 else "less"
    off = f"{three_figures(round(abs(one.misfit_sd), 1))} times the usual error {side}"
    if odd is None and abs(one.misfit_sd) <= FAR_SD:
        return off if abs(one.misfit_sd) > 1 else "within the usual error"
    return f"does not fit, {off}" + (", left out" if odd is not None and odd.left_out else "")


def _forecasts(told: Outlook, units: Units) -> Iterator[str]:
    for one in reversed(told.past):
        yield ""
        yield from past_lines(one, told.as_of, units)
