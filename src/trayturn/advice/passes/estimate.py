"""How many passes are left, how long they take, and what rest would do: learned from the passes so far."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from trayturn.advice.bands import Band, exactly
from trayturn.advice.passes.durations import Durations, durations, minutes_of
from trayturn.advice.passes.stopping import MUCH_LEFT, advised_to_stop, empty_kg, lefts, weights_missing
from trayturn.domain.entries import Amount, Outcome, Step
from trayturn.domain.setup import BinSetup
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.words import count
from trayturn.science.passes import (
    Likely,
    passes_after,
    passes_left,
    rest_needed,
    share_by_sight,
    share_in,
    share_taken,
    usual_of,
)

LAST_RESTS = 8
"""How many of the latest rests count: worms, light and the tray's moisture change."""
SHORTEST, LONGEST = 5.0, 60.0
"""Rests that are advised, minutes: more than an hour of light is said to paralyse worms."""
ALIKE = 1.25
"""Up to how many times another a rest does as well. Our choice."""
PRACTICE = "common practice"


@dataclass(frozen=True, slots=True)
class Ahead:
    """What is left of a separation. `passes` are those not yet skimmed, with the one under way.

    `minutes` are those to the end of it. `rest` is the band of minutes that would do, `rest_advised` one in
    it as a keeper would set it, and `rest_as_set` the bin's own.
    """

    passes: Band
    minutes: Band
    rest: Band
    rest_advised: float
    rest_as_set: float
    rests_on: str


def ahead(stack: Stack, sep: Separation) -> Ahead:
    """What is left of a separation under way."""
    earlier = [one for one in stack.past_separations if one.begun_at < sep.begun_at]
    shares = [share for one in earlier if (share := _share_of(stack, one)) is not None]
    passes = _passes(stack, sep, shares)
    under_way = [one for one in stack.separations if one.tray != sep.tray]
    times = durations(stack.setup, [*earlier, *under_way, sep])
    rests = [rest for one in (*earlier, sep) for rest in _rests(stack, one)]
    return _told(passes, _minutes(stack, sep, passes, times), rests, stack.setup, _basis(sep, stack, shares))


def next_time(stack: Stack) -> Ahead:
    """What to expect of the next tray, from all that were separated."""
    past = stack.past_separations
    shares = [share for one in past if (share := _share_of(stack, one)) is not None]
    passes = Band(*_as_tuple(passes_left(1.0, share_taken([], shares))))
    times = durations(stack.setup, past)
    minutes = Band(*(number * times.one_pass + times.settling for number in passes))
    rests = [rest for one in past for rest in _rests(stack, one)]
    return _told(passes, minutes, rests, stack.setup, count(len(shares), "tray") if shares else PRACTICE)


def _told(
    passes: Band, minutes: Band, rests: Sequence[tuple[float, str]], setup: BinSetup, basis: str
) -> Ahead:
    rest = Band(*_as_tuple(rest_needed(rests[-LAST_RESTS:])))
    as_set = setup.rest_minutes
    advised = _settable(rest.mid) if rests and not 1 / ALIKE < rest.mid / as_set < ALIKE else as_set
    return Ahead(passes, minutes, rest, advised, as_set, basis)


def _settable(minutes: float) -> float:
    """Minutes as a keeper would set them: whole, from ten up in fives."""
    step = 5 if minutes >= 10 else 1
    return min(LONGEST, max(SHORTEST, round(minutes / step) * float(step)))


def _passes(stack: Stack, sep: Separation, before: Sequence[float]) -> Band:
    """The passes not yet skimmed, with the one under way."""
    step = sep.step.step if sep.step else None
    if step in (Step.SETTLE, Step.CLEAN_UP) or sep.ended_at is not None:
        return exactly(0)
    weighs = empty_kg(stack, sep.tray)
    if step is Step.DECIDE and advised_to_stop(sep, weighs)[0]:
        return exactly(0)
    left = lefts(sep, weighs)
    if left:
        found = passes_left(left[-1], share_taken(_shares(left), before))
    else:
        seen = [str(done.worms_seen) for done in sep.passes]
        found = passes_after(len(seen), share_by_sight(seen, share_taken([], before)))
    under_way = 1 if step in (Step.LOOSEN, Step.REST, Step.SKIM) else 0
    return Band(*(max(under_way, number) for number in _as_tuple(found)))


def _minutes(stack: Stack, sep: Separation, passes: Band, times: Durations) -> Band:
    """Passes times the minutes of one, and the settling; of what is under way only what is left of it."""
    step = sep.step
    if step is None or step.step is Step.GET_READY:
        return Band(*(number * times.one_pass + times.settling for number in passes))
    left = times.left(step, stack.as_of)
    if step.step in (Step.SETTLE, Step.CLEAN_UP):
        return exactly(left)
    whole = [number if step.step is Step.DECIDE else number - 1 for number in passes]
    return Band(*(number * times.one_pass + left + times.settling for number in whole))


def _shares(left: Sequence[float]) -> list[float]:
    """What each pass took of what was left before it."""
    before = [1.0, *left[:-1]]
    return [1 - now / was for was, now in zip(before, left, strict=True) if was > 0]


def _share_of(stack: Stack, past: Separation) -> float | None:
    """What a pass took in an earlier tray: as weighed, else from how many left little; None if neither."""
    if left := lefts(past, empty_kg(stack, past.tray)):
        return usual_of(_shares(left))
    finished = past.outcome is Outcome.FINISHED and past.passes
    return share_in(len(past.passes)) if finished else None


def _rests(stack: Stack, sep: Separation) -> list[tuple[float, str]]:
    """Rests in minutes with the worms seen after each, where the worms had somewhere lower to go."""
    left = lefts(sep, empty_kg(stack, sep.tray))
    rested = {step.pass_number: minutes_of(step) for step in sep.steps if step.step is Step.REST}
    found = []
    for place, done in enumerate(sep.passes):
        minutes = rested.get(done.pass_number)
        if minutes is not None and _had_room(sep, place, left):
            found.append((min(1440.0, max(0.1, minutes)), str(done.worms_seen)))
    return found


def _had_room(sep: Separation, place: int, left: Sequence[float] | None) -> bool:
    """Whether the worms of a pass had somewhere lower to go; unweighed, the keeper went on where they had."""
    done = sep.passes[place]
    if done.worms_seen is not Amount.MANY:
        return True
    if left:
        return left[place] > MUCH_LEFT
    return place + 1 < len(sep.passes) or sep.pass_number > done.pass_number


def _basis(sep: Separation, stack: Stack, before: Sequence[float]) -> str:
    """What the estimate rests on: `3 passes of this tray and 2 earlier trays`."""
    here = f"{count(len(sep.passes), 'pass', 'passes')} of this tray" if sep.passes else ""
    missing = weights_missing(sep, empty_kg(stack, sep.tray)) if here else ""
    return _and_trays(here + (f" (by sight: {missing})" if missing else ""), len(before))


def _and_trays(here: str, trays: int) -> str:
    earlier = count(trays, "earlier tray") if trays else ""
    return " and ".join(part for part in (here, earlier) if part) or PRACTICE


def _as_tuple(likely: Likely) -> tuple[float, float, float]:
    return likely.low, likely.mid, likely.high
