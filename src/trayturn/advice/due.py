"""What is due at a bin, most pressing first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from enum import IntEnum

from trayturn.advice.feeding import feed_next
from trayturn.advice.phrases import every, since, when
from trayturn.advice.roles import free_tray, room, waiting_on_top
from trayturn.advice.story import DOING, NAMES, THEN, separation_line
from trayturn.advice.turning import next_turn
from trayturn.domain.setup import Pattern
from trayturn.domain.stack import Separation, Stack, StepTimes
from trayturn.domain.words import clock, count
from trayturn.domain.words import due as in_days

KINDS = ("rest", "separation", "turn", "worms", "feed", "check", "start")
FAR_OFF = datetime.max.replace(tzinfo=UTC)


class Press(IntEnum):
    """How pressing something is: worms that wait come first, then work whose day has come."""

    REST_OVER = 0
    STEP_WAITS = 1
    REST_RUNS = 2
    NOW = 3
    LATER = 4
    ANY_TIME = 5


@dataclass(frozen=True, slots=True)
class Due:
    """One thing to do at one bin. `bin` is its key, `name` its shown name; `due` is None without a day."""

    bin: str
    name: str
    kind: str
    what: str
    why: tuple[str, ...]
    due: datetime | None
    tray: str | None
    press: Press = Press.LATER

    @property
    def pressing(self) -> bool:
        """To be done now: nothing stands in the way, and its day has come or it has none to wait for."""
        return self.press in (Press.REST_OVER, Press.STEP_WAITS, Press.NOW)

    @property
    def late(self) -> bool:
        """Pressing, since its moment has come."""
        return self.pressing and self.due is not None

    @property
    def order(self) -> tuple[int, int, datetime, int, str, str]:
        """What to sort by, also across bins. Work whose day has come goes by kind: turn before feeding."""
        kind = KINDS.index(self.kind)
        first = kind if self.press is Press.NOW else 0
        return self.press, first, self.due or FAR_OFF, kind, self.bin, self.tray or ""


def due_list(stack: Stack) -> list[Due]:
    """All that is due at this bin or coming up, most pressing first. Never empty: something comes next."""
    if not stack.trays:
        feed = feed_next(stack)
        return [_due(stack, "start", feed.what, feed.why, None, press=Press.NOW)]
    found = [_separation_due(stack, separation) for separation in stack.separations]
    found += [*_waiting(stack), *_turn(stack), *_worms(stack), *_feed(stack), *_check(stack), *_start(stack)]
    return sorted(found, key=lambda due: due.order)


def _due(
    stack: Stack,
    kind: str,
    what: str,
    why: tuple[str, ...],
    due: datetime | None,
    tray: str | None = None,
    press: Press = Press.LATER,
) -> Due:
    return Due(stack.key, stack.setup.name, kind, what, why, due, tray, press)


def _separation_due(stack: Stack, separation: Separation) -> Due:
    step = separation.step
    why = (
        separation_line(separation, stack.as_of),
        f"Its separation began {when(separation.begun_at, stack.as_of)}; "
        f"{count(len(separation.passes), 'pass', 'passes')} done so far.",
    )
    if step is None or step.ends_at is None:
        begun = step.started_at if step else separation.begun_at
        what = f"Tray {separation.tray} waits: {_task(separation, step)}."
        return _due(stack, "separation", what, why, begun, separation.tray, Press.STEP_WAITS)
    then, doing = THEN[step.step], DOING[step.step]
    if step.ends_at <= stack.as_of:
        what = f"Tray {separation.tray}: {then} now; the {NAMES[step.step]} is over."
        return _due(stack, "rest", what, why, step.ends_at, separation.tray, Press.REST_OVER)
    what = f"Tray {separation.tray}: {doing} until {clock(step.ends_at, stack.as_of)}, then {then}."
    return _due(stack, "rest", what, why, step.ends_at, separation.tray, Press.REST_RUNS)


def _waiting(stack: Stack) -> Iterator[Due]:
    """A turn was done first, and the tray that left is still to be separated."""
    tray = waiting_on_top(stack)
    if tray is not None and not stack.separations:
        finishing = since(tray.stage_since, stack.as_of)
        why = (f"It has been finishing {finishing}, and stands above the feeding tray.",)
        what = f"Separate tray {tray.id}: it waits on top."
        yield _due(stack, "separation", what, why, stack.last_turn_at, tray.id, Press.NOW)


def _task(separation: Separation, step: StepTimes | None) -> str:
    """What the keeper is to do in an untimed step, or between two steps."""
    if step is not None:
        return NAMES[step.step]
    return THEN[separation.steps[-1].step] if separation.steps else "get ready"


def _turn(stack: Stack) -> Iterator[Due]:
    turn = next_turn(stack)
    if turn.due is not None:
        press = Press.NOW if turn.ready and not stack.separations else Press.LATER
        yield _due(stack, "turn", turn.what, turn.why, turn.due, press=press)


def _worms(stack: Stack) -> Iterator[Due]:
    """A bin that was only just set up has bedding and no worms yet."""
    begun = any(tray.feedings for tray in (*stack.trays, *stack.off_stack)) or stack.turns
    if begun or stack.worms_kg is not None or stack.past_separations or stack.separations:
        return
    why = (
        "No worms are written down for this bin, and it has not been fed yet.",
        "Give them the damp bedding first; their first meals are small.",
    )
    yield _due(stack, "worms", "Put the worms in.", why, None, press=Press.NOW)


def _feed(stack: Stack) -> Iterator[Due]:
    feed = feed_next(stack)
    tray = feed.tray or feed.instead
    if feed.due is not None:
        yield _due(
            stack, "feed", feed.what, feed.why, feed.due, tray, Press.NOW if feed.ready else Press.LATER
        )
    else:
        press = Press.LATER if stack.separations else Press.NOW
        yield _due(stack, "feed" if tray else "start", feed.what, feed.why, None, tray, press)


def _check(stack: Stack) -> Iterator[Due]:
    last = stack.last_check_at or stack.began_at
    if last is None:
        return
    due = last + timedelta(days=stack.setup.days_between_checks)
    now = due <= stack.as_of
    looked = f"last checked {when(last, stack.as_of)}" if stack.last_check_at else "not checked yet"
    why = (
        f"This bin is checked {every(stack.setup.days_between_checks)}, and was {looked}.",
        "Look at moisture, smell, temperature and the sump.",
    )
    what = f"Check the bin {'now' if now else in_days(due, stack.as_of)}."
    yield _due(stack, "check", what, why, due, press=Press.NOW if now else Press.LATER)


def _start(stack: Stack) -> Iterator[Due]:
    """Bedding below, a stack with room takes a bedding tray at any time; a turn that is due brings one."""
    places, name = room(stack), free_tray(stack)
    turning = next_turn(stack).ready or bool(stack.separations)
    if stack.setup.pattern is not Pattern.BEDDING_BELOW or turning or not places or name is None:
        return
    if feed_next(stack).tray is None and feed_next(stack).instead is None:
        return
    why = (
        f"The stack has room for {count(places, 'more tray')}.",
        "A bedding tray at the bottom catches what drips, and is ready when its turn comes.",
    )
    yield _due(
        stack, "start", f"There is room for tray {name} with fresh bedding.", why, None, name, Press.ANY_TIME
    )
