"""A cause that the keeper takes: what is then to be looked at again, and when."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta

from trayturn.advice.trouble.amounts import rest_days
from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.parts import Cause, Says
from trayturn.advice.trouble.ranking import Ranked
from trayturn.advice.trouble.seen import Tick
from trayturn.domain.entries import FollowUpSet
from trayturn.domain.stack import follow_up_item

MOST_REASONS = 3


def due_days(cause: Cause, case: Case) -> int:
    """Days until a change is to be seen; where food is held back, until it is given again."""
    return max(cause.expect.days, rest_days(case)) if cause.stops_feeding else cause.expect.days


def follow_up(one: Ranked, case: Case, ticks: Iterable[Tick], now: datetime) -> FollowUpSet:
    """The entry that puts the cause on the due list."""
    cause = one.cause
    what = f"{case.who[0].upper()}{case.who[1:]}: {cause.look}."
    reasons = [reason.words for reason in one.of(Says.FOR)[:MOST_REASONS]]
    return FollowUpSet(
        at=now,
        code=cause.code,
        what=what,
        due=now + timedelta(days=due_days(cause, case)),
        why=" ".join((f"Taken as the cause: {cause.title.lower()} ({one.rank}).", *reasons)),
        signs=tuple(tick.sign for tick in ticks)[:50],
        tray=case.tray,
    )


def open_follow_up(cause: Cause, case: Case) -> FollowUpSet | None:
    """The follow-up of that cause that is still open for what is asked about."""
    probe = FollowUpSet(at=case.now, code=cause.code, what=cause.look, due=case.now, tray=case.tray)
    return case.stack.follow_ups.get(follow_up_item(probe))
