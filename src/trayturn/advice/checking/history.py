"""What was read before: a tray's or a bin's own recent readings of each kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.checking.kinds import OF_THE_BIN, OF_THE_TRAY, Kind, Value, value_of
from trayturn.advice.checking.smells import Smell, smell_of
from trayturn.advice.reading import FEEL_PCT
from trayturn.domain.entries import Amount, Checked, Feel
from trayturn.domain.profile import Profile
from trayturn.domain.replay import standing
from trayturn.domain.stack import Stack, TrayState

MOST = 12
"""How many of the latest readings are shown. Our choice: a season of weekly checks."""
AMOUNTS = {Amount.NONE: 0.0, Amount.FEW: 1.0, Amount.MANY: 2.0}
Checks = Mapping[Kind, Sequence[Checked]]
"""Checks by the kinds that they read, each in the order of time."""
SMELLS = {Smell.EARTHY: 0.0, Smell.OTHER: 1.0}
"""A smell that wants something done is drawn as 2."""


@dataclass(frozen=True, slots=True)
class Point:
    """One reading in time."""

    at: datetime
    kind: Kind
    value: Value

    @property
    def by_feel(self) -> bool:
        """Whether it is a squeeze test, which stands for a rough percentage."""
        return isinstance(self.value, Feel)

    @property
    def number(self) -> float:
        """The reading as a number, to be drawn: a grade by its rank, pests by how many kinds there were."""
        value = self.value
        if isinstance(value, Feel):
            return FEEL_PCT[value]
        if isinstance(value, Amount):
            return AMOUNTS[value]
        if isinstance(value, tuple):
            return float(len(value))
        return SMELLS.get(smell_of(value), 2.0) if isinstance(value, str) else value


def checks_of(profile: Profile) -> Checks:
    """Every check that stands, by what it read, in the order of time. Keep it as long as the profile."""
    found = [entry for _, entry in standing(profile.journal) if isinstance(entry, Checked)]
    found.sort(key=lambda check: check.at)
    return {kind: [check for check in found if value_of(check, kind) is not None] for kind in Kind}


def history(
    checks: Checks, kind: Kind, stack: Stack, tray: TrayState | None, most: int = MOST
) -> tuple[Point, ...]:
    """The latest readings of a kind up to the stack's moment, oldest first.

    Of a tray they begin with its fresh bedding: what it held before is gone.
    """
    points: list[Point] = []
    for check in reversed(checks.get(kind, ())):
        value = value_of(check, kind)
        if value is not None and check.at <= stack.as_of and _tells_of(check, kind, tray):
            points.append(Point(check.at, kind, value))
            if len(points) == most:
                break
    return tuple(reversed(points))


def _tells_of(check: Checked, kind: Kind, tray: TrayState | None) -> bool:
    if kind in OF_THE_BIN:
        return True
    if tray is None:
        return kind not in OF_THE_TRAY or check.tray is None
    whose = check.tray == tray.id or (check.tray is None and kind not in OF_THE_TRAY)
    return whose and check.at >= tray.started_at
