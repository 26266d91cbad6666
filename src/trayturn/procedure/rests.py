"""Timed steps under way, across bins: what every screen shows while one runs."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, clock, countdown, span
from trayturn.procedure.stepper import StepView, view


@dataclass(frozen=True, slots=True)
class RunningRest:
    """One timed step of one bin. `mark` tells two apart, also after the deadline was moved."""

    bin: str
    name: str
    tray: str
    shown: StepView

    @property
    def over(self) -> bool:
        return self.shown.over is not None

    @property
    def mark(self) -> tuple[str, str, datetime | None]:
        return self.bin, self.tray, self.shown.ends_at

    def words(self, now: datetime) -> str:
        """One line: whose rest, what is left, the clock time it ends, and what comes next."""
        return f"{clean(self.name, 20)}, tray {self.tray}: {self._told(now)}"

    def words_here(self, now: datetime) -> str:
        """The same on a screen of its own bin."""
        return f"Tray {self.tray}: {self._told(now)}"

    def _told(self, now: datetime) -> str:
        name = self.shown.name
        if self.shown.over is not None:
            return f"{name} over for {span(self.shown.over)}. Now {self.shown.then}."
        ends = clock(self.shown.ends_at, now) if self.shown.ends_at else ""
        left = countdown(self.shown.left or timedelta(0))
        return f"{name} {left} left, until {ends}, then {self.shown.then}"


def running_rests(stacks: Iterable[Stack], now: datetime) -> list[RunningRest]:
    """Every timed step under way, the one that ends (or ended) first on top."""
    rests = [
        RunningRest(stack.key, stack.setup.name, sep.tray, shown)
        for stack in stacks
        for sep in stack.separations
        if (shown := view(sep, now)) is not None and shown.ends_at is not None
    ]
    return sorted(rests, key=lambda rest: (rest.shown.ends_at or now, rest.bin, rest.tray))
