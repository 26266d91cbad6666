"""Which tray to feed next, when, and why."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.phrases import aged, every, since, when
from trayturn.advice.resting import Rest, leading, rests
from trayturn.advice.roles import free_tray, oldest_bedding
from trayturn.advice.turning import NextTurn, next_turn
from trayturn.domain.entries import Stage
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.units import show_mass
from trayturn.domain.words import count, listed
from trayturn.domain.words import due as in_days


@dataclass(frozen=True, slots=True)
class FeedNext:
    """The tray to feed next and the moment it is due.

    `tray` is None while no tray is in its feeding stage; `instead` is then the bedding tray that can be it.
    `ready` is True once the moment has come and nothing stands in the way; `rests` are what does.
    """

    tray: str | None
    due: datetime | None
    ready: bool
    what: str
    why: tuple[str, ...]
    instead: str | None = None
    rests: tuple[Rest, ...] = ()


def feed_next(stack: Stack) -> FeedNext:
    """The feeding tray and its next feeding, or what to do while no tray is fed.

    Due is the last feeding and `days_between_feedings`; a tray never fed is due from the day its stage began.
    A bin that should rest is due once it has rested.
    """
    fed = stack.in_stage(Stage.FEEDING)
    if not fed:
        return _without_feeding_tray(stack)
    tray = min(fed, key=_least_recently)
    its_day = feeding_due(tray, stack)
    resting = tuple(rests(stack, tray))
    due = max([its_day, *(rest.until for rest in resting if rest.until is not None)])
    turn = next_turn(stack)
    ready = due <= stack.as_of and not resting
    why = (
        *_why_this_tray(tray, fed, stack),
        _why_now(tray, its_day, stack),
        *(rest.why for rest in resting),
        *_turn_first(turn, stack),
    )
    return FeedNext(tray.id, due, ready, _what(tray, due, turn, resting, stack), why, rests=resting)


def feeding_due(tray: TrayState, stack: Stack) -> datetime:
    """When a feeding tray is fed next."""
    if tray.last_fed_at is None:
        return tray.stage_since
    return tray.last_fed_at + timedelta(days=stack.setup.days_between_feedings)


def _least_recently(tray: TrayState) -> tuple[bool, datetime, int]:
    return tray.last_fed_at is not None, tray.last_fed_at or tray.stage_since, tray.level or 0


def _what(tray: TrayState, due: datetime, turn: NextTurn, resting: tuple[Rest, ...], stack: Stack) -> str:
    last = leading(resting)
    if last is not None and (last.until is None or last.until == due):
        return f"Feed tray {tray.id} once {last.end}."
    day = "now" if due <= stack.as_of else in_days(due, stack.as_of)
    start = "Turn the stack first, or feed" if turn.ready and stack.turn_day is None else "Feed"
    return f"{start} tray {tray.id} {day}."


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


def _turn_first(turn: NextTurn, stack: Stack) -> tuple[str, ...]:
    if not turn.ready or turn.due is None:
        return ()
    then = f"; tray {turn.fed} is fed after it" if turn.fed else ""
    return (f"A turn was due {when(turn.due, stack.as_of)}{then}.",)


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
    parted = tuple(rest for rest in rests(stack, None) if rest.code == "separation")
    why = "No tray is in its feeding stage, and no bedding tray waits to be fed."
    return FeedNext(None, None, False, what, (why, *(rest.why for rest in parted)), rests=parted)


def _bedding_instead(bedding: TrayState, stack: Stack) -> FeedNext:
    resting = tuple(rests(stack, bedding))
    last = leading(resting)
    why = (
        "No tray is in its feeding stage.",
        f"Tray {bedding.id} is the oldest bedding tray, on the stack for {aged(bedding.days_on_stack)}. "
        "Its first feeding makes it the feeding tray.",
        *(rest.why for rest in resting),
    )
    once = f" once {last.end}" if last else ""
    what = f"Feed tray {bedding.id}{once}: it becomes the feeding tray."
    return FeedNext(None, last.until if last else None, False, what, why, bedding.id, resting)
