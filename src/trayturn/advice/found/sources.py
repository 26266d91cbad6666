"""What did not belong, by where it came from and by kind: how much in a year, and whether it has stopped."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from enum import StrEnum

from trayturn.domain.entries import Contaminant
from trayturn.domain.lots import Found
from trayturn.domain.stack import Stack
from trayturn.domain.supplies import fold

A_YEAR = timedelta(days=365)


class State(StrEnum):
    """How it is with a source."""

    OPEN = "open"
    STOPPED = "stopped"
    AGAIN = "came again"
    UNKNOWN = "not known"


@dataclass(frozen=True, slots=True)
class Source:
    """One source of what does not belong, by its name as last written; the empty name is not known.

    `year` and `ever` count the pieces by kind. `stopped_at` is since when it is said to be stopped, and
    `stopped_before` when it last was, where more came all the same.
    """

    name: str
    year: Mapping[Contaminant, int]
    ever: Mapping[Contaminant, int]
    first_at: datetime
    last_at: datetime
    last_tray: str | None
    stopped_at: datetime | None
    stopped_before: datetime | None

    @property
    def key(self) -> str:
        """What it is told apart by."""
        return fold(self.name)

    @property
    def state(self) -> State:
        if self.stopped_at is not None:
            return State.STOPPED
        if not self.key:
            return State.UNKNOWN
        return State.AGAIN if self.stopped_before is not None else State.OPEN

    @property
    def in_a_year(self) -> int:
        return sum(self.year.values())


@dataclass(frozen=True, slots=True)
class KindFound:
    """One kind of what does not belong, over all sources."""

    kind: Contaminant
    year: int
    ever: int
    last_at: datetime


@dataclass(frozen=True, slots=True)
class Noted:
    """What was written of a pass in words alone, and so is in no count."""

    at: datetime
    tray: str
    overs: str
    contaminants: str


@dataclass(slots=True)
class _Sum:
    """Pieces of one source or kind while they are added up."""

    year: dict[Contaminant, int] = field(default_factory=dict)
    ever: dict[Contaminant, int] = field(default_factory=dict)
    all: list[Found] = field(default_factory=list)

    def add(self, one: Found, since: datetime) -> None:
        self.all.append(one)
        self.ever[one.what] = self.ever.get(one.what, 0) + one.count
        if one.at > since:
            self.year[one.what] = self.year.get(one.what, 0) + one.count


def sources(stack: Stack) -> list[Source]:
    """Every source, those that brought the most within a year first; then the last seen."""
    sums: dict[str, _Sum] = {}
    for one in stack.found:
        sums.setdefault(fold(one.source), _Sum()).add(one, stack.as_of - A_YEAR)
    found = [_source(key, one, stack) for key, one in sums.items()]
    return sorted(found, key=lambda one: (-one.in_a_year, -one.last_at.timestamp(), one.key))


def _source(key: str, brought: _Sum, stack: Stack) -> Source:
    last = brought.all[-1]
    stops = [one.stopped_before for one in brought.all if one.stopped_before is not None]
    return Source(
        last.source,
        brought.year,
        brought.ever,
        brought.all[0].at,
        last.at,
        last.tray,
        stack.sources_stopped.get(key) if key else None,
        stops[-1] if stops else None,
    )


def kinds_found(stack: Stack) -> list[KindFound]:
    """Every kind that was found, the most within a year first."""
    sums: dict[Contaminant, _Sum] = {}
    for one in stack.found:
        sums.setdefault(one.what, _Sum()).add(one, stack.as_of - A_YEAR)
    found = [
        KindFound(kind, one.year.get(kind, 0), one.ever[kind], one.all[-1].at) for kind, one in sums.items()
    ]
    return sorted(found, key=lambda one: (-one.year, -one.last_at.timestamp(), one.kind))


def noted(stack: Stack) -> list[Noted]:
    """What was noted of passes in words, the newest first."""
    return sorted(_noted(stack), key=lambda one: one.at, reverse=True)


def _noted(stack: Stack) -> Iterator[Noted]:
    for done in (*stack.past_separations, *stack.separations):
        for one in done.passes:
            if one.overs or one.contaminants:
                yield Noted(one.at, done.tray, one.overs, one.contaminants)


def open_sources(stack: Stack) -> list[Source]:
    """Sources with a name that brought something within a year and are not stopped."""
    return [one for one in sources(stack) if one.key and one.stopped_at is None and one.year]
