"""The keeper's word on due things: put off for some days, or done."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time, timedelta

from trayturn.advice.due.item import Due, Press
from trayturn.advice.phrases import when
from trayturn.domain.entries import Done, Snoozed
from trayturn.domain.stack import Stack
from trayturn.domain.words import as_read
from trayturn.domain.words import due as in_days

FURTHEST = timedelta(days=365)
"""How far ahead a thing can be put off day by day."""


def heard(due: Due, stack: Stack) -> Due | None:
    """The due thing after the keeper's word on it: as it was, put off, or None once it is done.

    What is done comes back when it is due again: once its own moment is later than the one it was done for.
    """
    done = stack.done.get(due.item)
    if due.done_by_word and done is not None and (due.due is None or due.due <= done):
        return None
    until = stack.snoozed.get(due.item)
    if until is None or until <= stack.as_of or not due.can_wait:
        return due
    return due if due.due is not None and due.due >= until else _put_off(due, until, stack.as_of)


def _put_off(due: Due, until: datetime, now: datetime) -> Due:
    before = "it has no day of its own"
    if due.due is not None:
        before = f"it {'is' if due.due > now else 'was'} due {when(due.due, now)}"
    return replace(
        due,
        what=_on_another_day(due, until, now),
        why=(f"Put off until {when(until, now).removeprefix('on ')}; {before}.", *due.why),
        due=until,
        press=Press.LATER,
        snoozed_until=until,
        was_due=due.due,
    )


def _on_another_day(due: Due, until: datetime, now: datetime) -> str:
    """`Feed tray B now.` as `Feed tray B in 2 days.`; what names no day of its own stays as it is."""
    own = in_days(due.due, now) if due.due is not None else "now"
    for day in ("now", own):
        if due.what.endswith(f" {day}."):
            return f"{due.what.removesuffix(f'{day}.')}{in_days(until, now)}."
    return due.what


def put_off_a_day(due: Due, now: datetime) -> Snoozed | None:
    """The entry that puts it off to the day after its own, or after today. None where it cannot wait."""
    day = max(now, due.due or now)
    if not due.can_wait or day - now > FURTHEST:
        return None
    return Snoozed(at=now, item=due.item, until=_midnight(day, now, 1))


def take_a_day_back(due: Due, now: datetime) -> Snoozed | None:
    """The entry that takes a day of putting off back, down to its own day. None where it is not put off."""
    if due.snoozed_until is None:
        return None
    until = _midnight(due.snoozed_until, now, -1)
    own = max(now, due.was_due or now)
    return Snoozed(at=now, item=due.item, until=until if until > own else now)


def _midnight(moment: datetime, now: datetime, days: int) -> datetime:
    """The first moment of a day so many days from that one, as the keeper's clock reads it."""
    local = as_read(moment, now)
    return datetime.combine(local.date() + timedelta(days=days), time(), local.tzinfo)


def mark_done(due: Due, now: datetime) -> Done:
    """The entry that closes it. Done ahead, it stays away until it is due after that day."""
    ahead = due.was_due or due.due
    return Done(at=now, item=due.item, due=ahead if ahead is not None and ahead > now else None)
