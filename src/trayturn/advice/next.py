"""Which bin to feed next and which tray, across all bins; and which bins should rest, and until when."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.bands import Band, mass_band
from trayturn.advice.due import Due, due_list
from trayturn.advice.feeding import FeedNext, feed_next, feeding_due
from trayturn.advice.phrases import every, when
from trayturn.advice.resting import Rest, leading
from trayturn.domain.stack import Stack, days_between
from trayturn.domain.units import three_figures
from trayturn.domain.words import day, masses
from trayturn.domain.words import due as in_days


@dataclass(frozen=True, slots=True)
class Next:
    """One bin's place in the ranking. `feed` is its feeding as a due thing, `first` what presses most in it.

    `rests` are the reasons to feed nothing now, none where it may be fed; `until` is the day they are over,
    None where no day is known. `late` is how far past its day it is, in its own intervals between feedings;
    `begins` is whether worms or a tray are wanted before food.
    """

    bin: str
    name: str
    tray: str | None
    what: str
    short: str
    why: tuple[str, ...]
    feed: Due
    first: Due
    rests: tuple[Rest, ...]
    until: datetime | None
    days_since_fed: float | None
    days_between_feedings: float
    uneaten_kg: Band | None
    caddy_kg: Mapping[str, float]
    late: float
    begins: bool

    @property
    def resting(self) -> bool:
        return bool(self.rests)

    @property
    def line(self) -> str:
        """What to do with the reason in a few words: `Feed tray B now (fed 14 days ago, every 12 days).`"""
        return f"{self.what.removesuffix('.')} ({self.short})." if self.short else self.what

    @property
    def order(self) -> tuple[int, float, str]:
        """What to sort by: who waits longest by its own interval, what is to be started, then who rests."""
        if self.rests:
            return (2, self.until.timestamp(), self.bin) if self.until is not None else (3, 0.0, self.bin)
        return (1 if self.begins else 0, -self.late, self.bin)


def what_next(stacks: Iterable[Stack], uneaten: Mapping[str, Band | None] | None = None) -> list[Next]:
    """Every bin, the one to feed first on top. `uneaten` is the scraps still there, by bin where reckoned."""
    known = uneaten or {}
    return sorted((_next(stack, known.get(stack.key)) for stack in stacks), key=lambda one: one.order)


def _next(stack: Stack, uneaten: Band | None) -> Next:
    due = due_list(stack)
    feed = next((one for one in due if one.kind == "feed"), None) or next(
        one for one in due if one.kind == "start"
    )
    coming = feed_next(stack)
    resting = (*coming.rests, *_own_day(stack, coming), *_put_off(feed, stack))
    last = leading(resting)
    begin = due[0] if due[0].kind == "worms" else feed if feed.kind == "start" else None
    fed_at = _last_fed(stack, coming)
    since = _days(fed_at, stack)
    return Next(
        bin=stack.key,
        name=stack.setup.name,
        tray=feed.tray,
        what=f"Rests until {last.end}." if last else begin.what if begin else feed.what,
        short=last.short if last else "" if begin else _fed(fed_at, stack),
        why=(*feed.why, *_intervals(since, stack), *_left(uneaten, stack), *_caddy(stack)),
        feed=feed,
        first=due[0],
        rests=resting,
        until=last.until if last else None,
        days_since_fed=since,
        days_between_feedings=stack.setup.days_between_feedings,
        uneaten_kg=uneaten,
        caddy_kg=stack.caddy_kg,
        late=_late(since, stack),
        begins=begin is not None,
    )


def _own_day(stack: Stack, coming: FeedNext) -> Iterator[Rest]:
    """Fed less than its own interval ago. The day is that of `feed_next`."""
    tray = stack.tray(coming.tray or "")
    if tray is None or (due := feeding_due(tray, stack)) <= stack.as_of:
        return
    short = _fed(tray.last_fed_at, stack)
    yield Rest("interval", day(due, stack.as_of), due, short, f"It is fed {when(due, stack.as_of)}.")


def _put_off(feed: Due, stack: Stack) -> Iterator[Rest]:
    if feed.snoozed_until is not None:
        until = feed.snoozed_until
        yield Rest("put_off", day(until, stack.as_of), until, "put off by you", feed.why[0])


def _last_fed(stack: Stack, coming: FeedNext) -> datetime | None:
    """When the tray to be fed was fed, or the bin where none is being fed; None where it never was."""
    tray = stack.tray(coming.tray or "")
    return tray.last_fed_at if tray is not None else stack.last_fed_at


def _days(last: datetime | None, stack: Stack) -> float | None:
    return days_between(last, stack.as_of) if last is not None else None


def _late(since: float | None, stack: Stack) -> float:
    """One never fed counts as due today: nothing in it has been waiting for food yet."""
    return 0.0 if since is None else since / stack.setup.days_between_feedings - 1


def _fed(last: datetime | None, stack: Stack) -> str:
    if last is None:
        return "not fed yet"
    return f"fed {in_days(last, stack.as_of)}, {every(stack.setup.days_between_feedings)}"


def _intervals(since: float | None, stack: Stack) -> Iterator[str]:
    interval = stack.setup.days_between_feedings
    if since is not None and since >= interval:
        times = three_figures(since / interval)
        yield f"That is {times} times its own interval between feedings."


def _left(uneaten: Band | None, stack: Stack) -> Iterator[str]:
    """What it can take depends on what still lies there."""
    if uneaten is not None:
        left = mass_band(uneaten, stack.setup.units)
        yield f"Of the scraps in it {left} are still uneaten, as reckoned from its meals and its warmth."


def _caddy(stack: Stack) -> Iterator[str]:
    if stack.caddy_kg and stack.caddy_at is not None:
        waiting = masses(stack.caddy_kg, stack.setup.units)
        yield f"In its caddy {waiting} wait since {when(stack.caddy_at, stack.as_of).removeprefix('on ')}."
