"""Why a bin should rest from feeding, and until when: it is separated, too cold or hot, wet, or smells."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.phrases import when
from trayturn.advice.reading import LIMITS_SOURCE, WETTEST_PCT, moisture_of
from trayturn.advice.turning import in_hand
from trayturn.domain.entries import Checked, FollowUpSet
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.units import show_temperature, three_figures
from trayturn.domain.words import as_read, clean, day

COLDEST_C, HOTTEST_C = 4.0, 30.0
"""Limits for Eisenia fetida, from `LIMITS_SOURCE`. To feed nothing outside them is our choice."""
FOUL = re.compile(r"\b(rott|putrid|ammonia)", re.IGNORECASE)
FREE_OF = re.compile(r"\b(no|not|never|without|gone)\b", re.IGNORECASE)
"""Words of a smell that say it is not there: `no ammonia`."""
NO_FOOD = frozenset({"too-wet", "overfed", "much-nitrogen", "protein"})
"""The follow-ups, by code, until whose day nothing is fed."""
FOUL_ADVICE = (
    "Feed nothing, fork in dry bedding and let air in. At a rotten smell public guidance is to wait a week "
    f"at least (Oregon Metro; RecycleWorks San Mateo); ammonia harms worms from 0.5 mg/g ({LIMITS_SOURCE})."
)


@dataclass(frozen=True, slots=True)
class Rest:
    """One reason to feed nothing. `end` is what ends it, as in `until tray C is separated`.

    `until` is its day, None where none is known; `short` is the reason in a few words, `why` in full.
    """

    code: str
    end: str
    until: datetime | None
    short: str
    why: str


def rests(stack: Stack, tray: TrayState | None) -> Iterator[Rest]:
    """Why the bin, or the tray that would be fed, should rest though its day may have come."""
    if stack.separations:
        end = in_hand(stack)
        why = f"A separation is under way; feeding waits until {end}."
        yield Rest("separation", end, None, "", why)
    yield from _temperature(stack)
    yield from _trouble(stack, tray)


def leading(resting: Sequence[Rest]) -> Rest | None:
    """The reason that lasts longest: one without a known day, or else the one with the latest."""
    undated = [rest for rest in resting if rest.until is None]
    dated = [(rest.until, -place, rest) for place, rest in enumerate(resting) if rest.until is not None]
    return undated[0] if undated else max(dated)[2] if dated else None


def _temperature(stack: Stack) -> Iterator[Rest]:
    degrees, at = stack.temperature_c, stack.temperature_at
    if degrees is None or at is None or COLDEST_C <= degrees <= HOTTEST_C:
        return
    units = stack.setup.units
    code, end = ("hot", "it is cooler") if degrees > HOTTEST_C else ("cold", "it is warmer")
    read = f"{show_temperature(degrees, units)} {when(at, stack.as_of)}"
    limits = f"{show_temperature(COLDEST_C, units)} to {show_temperature(HOTTEST_C, units)}"
    why = (
        f"The bin was at {read}. Eisenia fetida bears {limits} ({LIMITS_SOURCE}); to feed nothing outside "
        f"that is our choice. Move the bin somewhere {end.split()[-1]}, and read it again."
    )
    yield Rest(code, end, None, read, why)


def _trouble(stack: Stack, tray: TrayState | None) -> Iterator[Rest]:
    """What the last looks found: wet, or a foul smell; and a follow-up that holds food back."""
    held = rests_until(stack, tray.id if tray is not None else None)
    end, until = _next_look(stack, tray, held[0] if held else None)
    found = [*_wet(stack, tray), *_smell(stack)]
    for code, short, why, at in found:
        if not _cleared(stack, tray, at):
            yield Rest(code, end, until, short, why)
    if held is not None:
        yield Rest("follow_up", end, until, "held back for a follow-up", held[1])


def _wet(stack: Stack, tray: TrayState | None) -> Iterator[tuple[str, str, str, datetime]]:
    read = moisture_of(tray) if tray is not None else None
    if tray is None or read is None or read.percent is None or read.at is None or read.percent <= WETTEST_PCT:
        return
    short = f"{three_figures(read.percent)} % moisture {when(read.at, stack.as_of)}"
    why = (
        f"Tray {tray.id} was read at {short}, above the {WETTEST_PCT:.0f} % published as a limit for "
        f"Eisenia fetida ({LIMITS_SOURCE}). Mix in dry bedding; food brings more water."
    )
    yield "wet", short, why, read.at


def _smell(stack: Stack) -> Iterator[tuple[str, str, str, datetime]]:
    """A foul smell counts while nobody has checked on a later day without noting one."""
    check, last = stack.smelled, stack.last_check_at
    if check is None or last is None or not foul(check.smell):
        return
    if as_read(last, stack.as_of).date() > as_read(check.at, stack.as_of).date():
        return
    short = f'smelled of "{clean(check.smell, 30)}" {when(check.at, stack.as_of)}'
    yield "smell", short, f"{_smelled(check)} {short}. {FOUL_ADVICE}", check.at


def _smelled(check: Checked) -> str:
    return f"Tray {check.tray}" if check.tray else "The bin"


def foul(smell: str) -> bool:
    """Whether a smell in the keeper's words is of rot or ammonia: `ammonia, fainter`, not `no ammonia`."""
    return bool(FOUL.search(smell)) and not FREE_OF.search(smell)


def rests_until(stack: Stack, tray: str | None = None) -> tuple[datetime, str] | None:
    """Until when a follow-up holds food back, and why; None where none does.

    Of one tray, what is open for it and for the bin as a whole counts; without a tray, whatever is open.
    Once its day has come a follow-up holds nothing back any more: it is due itself.
    """
    held = [one for one in _against_food(stack, tray) if one.due > stack.as_of]
    if not held:
        return None
    last = max(held, key=lambda one: one.due)
    of = f" of tray {last.tray}" if last.tray else ""
    return last.due, f"Food is held back until the follow-up{of}: {clean(last.what, 200)}"


def _against_food(stack: Stack, tray: str | None) -> list[FollowUpSet]:
    """The open follow-ups, of the tray and of the bin, that tell against food."""
    open_ones = [one for one in stack.follow_ups.values() if one.code in NO_FOOD]
    return [one for one in open_ones if tray is None or one.tray in (None, tray)]


def _next_look(stack: Stack, tray: TrayState | None, held: datetime | None) -> tuple[str, datetime | None]:
    """What ends a trouble, with its day while that is to come: the follow-up, or else the next check."""
    until, what = held, "it is looked at again"
    if not _against_food(stack, tray.id if tray is not None else None):
        last = stack.last_check_at
        until = last + timedelta(days=stack.setup.days_between_checks) if last is not None else None
        what = "it is checked again"
    if until is None or until <= stack.as_of:
        return what, None
    near = day(until, stack.as_of)
    return f"{what} {near if near in ('today', 'tomorrow') else f'on {near}'}", until


def _cleared(stack: Stack, tray: TrayState | None, at: datetime) -> bool:
    """Whether a follow-up about it was marked done since the reading: the keeper looked, and it is over."""
    about = ("", tray.id if tray is not None else "")
    for item, moment in stack.done.items():
        kind, code, of = (*item.split(":", 2), "", "")[:3]
        if moment > at and kind == "follow_up" and code in NO_FOOD and of in about:
            return True
    return False
