"""Makers of a separation's entries: of tray A in the usual bin, five days after its turn."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from tests.builders import a_usual_bin, entry, moment, stack_of
from trayturn.domain.entries import Entry
from trayturn.domain.stack import Separation, Stack


def at(minute: float) -> datetime:
    """Minutes into a separation that begins on day 65."""
    return moment(65) + timedelta(minutes=minute)


def say(kind: str, minute: float, tray: str = "A", **fields: Any) -> Any:
    return entry(kind, at(minute), tray=tray, **fields)


def begun(tray: str = "A", minute: float = 0) -> tuple[Entry, ...]:
    return (say("separation_begun", minute, tray), say("step_started", minute, tray, step="get_ready"))


def one_pass(start: float = 4, number: int = 1, seen: str = "few", **fields: Any) -> tuple[Entry, ...]:
    """Loosen for four minutes, rest for fifteen, skim for five."""
    steps = (("loosen", 0.0, 4.0), ("rest", 4.0, 19.0), ("skim", 19.0, 24.0))
    told: list[Entry] = []
    for step, begins, ends in steps:
        timed: dict[str, Any] = {} if step == "skim" else {"ends_at": at(start + ends)}
        told += [
            say("step_started", start + begins, step=step, pass_number=number, **timed),
            say("step_ended", start + ends, step=step, pass_number=number),
        ]
    return (*told, say("pass_done", start + 24, pass_number=number, worms_seen=seen, **fields))


def separating(*entries: Entry, minute: float = 1000) -> Stack:
    return stack_of(*a_usual_bin(), *entries, as_of=at(minute))


def running(stack: Stack, tray: str = "A") -> Separation:
    found = stack.separation(tray)
    assert found is not None
    return found
