"""A journal added up by weeks. Worked out once for a profile; linear in its entries."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import date, datetime
from operator import itemgetter
from typing import Any

from trayturn.domain.entries import Checked, Entry, Fed, SuppliesUsed, TrayStarted, Turned
from trayturn.domain.profile import Profile
from trayturn.domain.replay import standing


@dataclass(slots=True)
class Sums:
    """What one week or many hold. Masses in kg; bedding is that of feedings and fresh trays."""

    feedings: int = 0
    checks: int = 0
    turns: int = 0
    scraps_kg: float = 0.0
    bedding_kg: float = 0.0
    grit_kg: float = 0.0
    other_kg: float = 0.0
    castings_kg: float = 0.0

    def add(self, other: Sums) -> None:
        """Count the other's too."""
        for name in self.__slots__:
            setattr(self, name, getattr(self, name) + getattr(other, name))

    @property
    def empty(self) -> bool:
        return not any(getattr(self, name) for name in self.__slots__)


@dataclass(slots=True)
class Tally:
    """Sums by week and all that was written in each, a week by its number; and the moments of all checks.

    Those are in order, in seconds since 1970 and as they were written.
    """

    weeks: dict[int, Sums] = field(default_factory=dict)
    written: dict[int, list[Entry]] = field(default_factory=dict)
    checks: list[tuple[float, datetime]] = field(default_factory=list)


def week_number(day: date) -> int:
    """The week of a date, counted from the first Monday of the calendar: 1 January of the year 1 was one.

    A moment counts by the date that its own offset shows.
    """
    return (day.toordinal() - 1) // 7


def monday_of(week: int) -> date:
    """The Monday with which a week of that number begins."""
    return date.fromordinal(7 * week + 1)


def tally_of(profile: Profile) -> Tally:
    """All that counts of a profile's journal."""
    return tally(entry for _, entry in standing(profile.journal))


def tally(entries: Iterable[Entry]) -> Tally:
    """Entries added up by weeks. Those undone are to be left out before."""
    found = Tally()
    for entry in entries:
        number = week_number(entry.at)
        written = found.written.get(number)
        if written is None:
            written = found.written[number] = []
        written.append(entry)
    for number, written in found.written.items():
        _add_up(found, number, written)
    found.checks.sort(key=itemgetter(0))
    return found


def _add_up(found: Tally, number: int, written: Iterable[Entry]) -> None:
    sums = Sums()
    for entry in written:
        if (count := COUNTS.get(type(entry))) is not None:
            count(sums, entry)
            if isinstance(entry, Checked):
                found.checks.append((entry.at.timestamp(), entry.at))
    if not sums.empty:
        found.weeks[number] = sums


def _fed(sums: Sums, entry: Fed) -> None:
    sums.feedings += 1
    sums.scraps_kg += sum(entry.items_kg.values())
    sums.bedding_kg += sum(entry.bedding_kg.values())
    sums.grit_kg += entry.grit_kg or 0.0


def _checked(sums: Sums, entry: Checked) -> None:
    sums.checks += 1


def _turned(sums: Sums, entry: Turned) -> None:
    sums.turns += 1


def _started(sums: Sums, entry: TrayStarted) -> None:
    # A tray that came from another bin brought bedding that was used there.
    if not entry.came_from:
        sums.bedding_kg += sum(entry.bedding_kg.values())


def _used(sums: Sums, entry: SuppliesUsed) -> None:
    sums.other_kg += sum(entry.supplies_kg.values())


COUNTS: dict[type, Callable[[Sums, Any], None]] = {
    Fed: _fed,
    Checked: _checked,
    Turned: _turned,
    TrayStarted: _started,
    SuppliesUsed: _used,
}
