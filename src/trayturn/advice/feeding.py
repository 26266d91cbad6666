"""Which tray to feed next, when, and why."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.phrases import aged, every, since, when
from trayturn.advice.reading import LIMITS_SOURCE
from trayturn.advice.resting import rests_until
from trayturn.advice.roles import free_tray, oldest_bedding
from trayturn.advice.turning import NextTurn, in_hand, next_turn
from trayturn.domain.entries import Stage
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.units import show_mass, show_temperature
from trayturn.domain.words import count, day, listed
from trayturn.domain.words import due as in_days

COLDEST_C, HOTTEST_C = 4.0, 30.0
"""Limits for Eisenia fetida, from `LIMITS_SOURCE`."""


@dataclass(frozen=True, slots=True)
class FeedNext:
    """The tray to feed next and the moment it is due.

    `tray` is None while no tray is in its feeding stage; `instead` is then the bedding tray that can be it.
    `ready` is True once the moment has come and nothing stands in the way.
    """

    tray: str | None
    due: datetime | None
    ready: bool
    what: str
    why: tuple[str, ...]
    instead: str | None = None


def feed_next(stack: Stack) -> FeedNext:
    """The feeding tray and its next feeding, or what to do while no tray is fed.

    Due is the last feeding and `days_between_feedings`; a tray never fed is due from the day its stage began.
    While a follow-up holds food back, it is due on that follow-up's day.
    """
    fed = stack.in_stage(Stage.FEEDING)
    if not fed:
        return _without_feeding_tray(stack)
    tray = min(fed, key=_least_recently)
    by_interval = feeding_due(tray, stack)
    rest = rests_until(stack, tray.id)
    due = max(by_interval, rest[0]) if rest else by_interval
    turn = next_turn(stack)
    ready = due <= stack.as_of and not stack.separations
    why = (
        *_why_this_tray(tray, fed, stack),
        _why_now(tray, by_interval, stack),
        *_held_back(stack, tray.id),
        *_separation_first(stack),
        *_turn_first(turn, stack),
        *_too_hot_or_cold(stack),
    )
    return FeedNext(tray.id, due, ready, _what(tray, due, turn, stack), why)


def feeding_due(tray: TrayState, stack: Stack) -> datetime:
    """When a feeding tray is fed next."""
    if tray.last_fed_at is None:
        return tray.stage_since
    return tray.last_fed_at + timedelta(days=stack.setup.days_between_feedings)


def _least_recently(tray: TrayState) -> tuple[bool, datetime, int]:
    return tray.last_fed_at is not None, tray.last_fed_at or tray.stage_since, tray.level or 0


def _what(tray: TrayState, due: datetime, turn: NextTurn, stack: Stack) -> str:
    if stack.separations:
        return f"Feed tray {tray.id} once {in_hand(stack)}."
    then = "now" if due <= stack.as_of else in_days(due, stack.as_of)
    start = "Turn the stack first, or feed" if turn.ready else "Feed"
    return f"{start} tray {tray.id} {then}."


def _why_this_tray(tray: TrayState, fed: tuple[TrayState, ...], stack: Stack) -> tuple[str, ...]:
    line = f"Tray {tray.id} has been the feeding tray {since(tray.stage_since, stack.as_of)}."
    if len(fed) == 1:
        return (line,)
    rank = "has not been fed yet" if tray.last_fed_at is None else "was fed least recently"
    return (f"Trays {listed(t.id for t in fed)} are being fed, and {tray.id} {rank}.", line)


def _why_now(tray: TrayState, due: datetime, stack: Stack) -> str:
    if tray.last_fed_at is None:
        return "It has not been fed yet, so it is due now."
    so_far = (
        f"{count(tray.feedings, 'feeding')}, {show_mass(tray.fed_kg, stack.setup.units)} of scraps so far"
    )
    verb = "was due" if due < stack.as_of else "is due"
    return (
        f"It was last fed {when(tray.last_fed_at, stack.as_of)} ({so_far}). This bin is fed "
        f"{every(stack.setup.days_between_feedings)}, so it {verb} {when(due, stack.as_of)}."
    )


def _separation_first(stack: Stack) -> tuple[str, ...]:
    if not stack.separations:
        return ()
    return (f"A separation is under way; feeding waits until {in_hand(stack)}.",)


def _held_back(stack: Stack, tray: str) -> tuple[str, ...]:
    rest = rests_until(stack, tray)
    return (f"No food until {day(rest[0], stack.as_of)}. {rest[1]}",) if rest else ()


def _turn_first(turn: NextTurn, stack: Stack) -> tuple[str, ...]:
    if not turn.ready or turn.due is None:
        return ()
    then = f"; tray {turn.fed} is fed after it" if turn.fed else ""
    return (f"A turn was due {when(turn.due, stack.as_of)}{then}.",)


def _too_hot_or_cold(stack: Stack) -> tuple[str, ...]:
    degrees = stack.temperature_c
    if degrees is None or stack.temperature_at is None or COLDEST_C <= degrees <= HOTTEST_C:
        return ()
    units = stack.setup.units
    do = "Feed little, and move the bin somewhere" + (" cooler." if degrees > HOTTEST_C else " warmer.")
    read = f"{show_temperature(degrees, units)} {when(stack.temperature_at, stack.as_of)}"
    limits = f"{show_temperature(COLDEST_C, units)} to {show_temperature(HOTTEST_C, units)}"
    return (f"The bin was at {read}. {do} Eisenia fetida bears {limits} ({LIMITS_SOURCE}).",)


def _without_feeding_tray(stack: Stack) -> FeedNext:
    if not stack.trays:
        begin = "A bin begins with a tray of damp bedding, worms, and a first feeding."
        return FeedNext(None, None, False, "Start the first trays.", ("No tray is on the stack.", begin))
    bedding = oldest_bedding(stack)
    if bedding is not None:
        return _bedding_instead(bedding, stack)
    name = free_tray(stack)
    what = (
        f"Start tray {name} with fresh bedding, then feed it."
        if name
        else "Empty a tray and start it afresh."
    )
    why = ("No tray is in its feeding stage, and no bedding tray waits to be fed.", *_separation_first(stack))
    return FeedNext(None, None, False, what, why)


def _bedding_instead(bedding: TrayState, stack: Stack) -> FeedNext:
    why = (
        "No tray is in its feeding stage.",
        f"Tray {bedding.id} is the oldest bedding tray, on the stack for {aged(bedding.days_on_stack)}. "
        "Its first feeding makes it the feeding tray.",
        *_held_back(stack, bedding.id),
        *_separation_first(stack),
        *_too_hot_or_cold(stack),
    )
    return FeedNext(
        None, None, False, f"Feed tray {bedding.id}: it becomes the feeding tray.", why, bedding.id
    )
