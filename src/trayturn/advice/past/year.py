"""A year of weeks up to a moment, and what came of it all."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from itertools import pairwise
from operator import itemgetter

from trayturn.advice.ledger.castings import How, castings_book
from trayturn.advice.past.tally import Sums, Tally, monday_of, week_number
from trayturn.domain.stack import Stack, days_between

WEEKS = 53
"""So many weeks, the present one the last, hold a whole year whatever its days."""


@dataclass(frozen=True, slots=True)
class Week:
    """One week, Monday first. `lived` is False before the bin began."""

    monday: date
    sums: Sums
    lived: bool = True

    @property
    def iso(self) -> tuple[int, int]:
        """The year and number of the week by ISO 8601: week 1 holds the year's first Thursday."""
        year, number, _ = self.monday.isocalendar()
        return year, number


@dataclass(frozen=True, slots=True)
class Gap:
    """The longest time that nobody looked: from the beginning or a check to a check or to now."""

    since: datetime
    until: datetime
    bin: str

    @property
    def days(self) -> float:
        return days_between(self.since, self.until)


@dataclass(frozen=True, slots=True)
class Past:
    """A bin's past, or that of several: the weeks of a year, their sums, and those since it all began."""

    as_of: datetime
    began_at: datetime | None
    weeks: tuple[Week, ...]
    year: Sums
    ever: Sums
    year_gap: Gap | None
    ever_gap: Gap | None

    @property
    def empty(self) -> bool:
        """Whether nothing that is counted here was ever written down."""
        return self.ever.empty


def yields(sums: Sums) -> float | None:
    """Castings for each kg of scraps; None unless both are known."""
    return sums.castings_kg / sums.scraps_kg if sums.castings_kg and sums.scraps_kg else None


Bin = tuple[Stack, Tally]
"""A bin as it stands, and what its journal adds up to by then."""


def past_of(bins: Sequence[Bin]) -> Past:
    """The past of one bin or of several as one, as of the first. Raises `ValueError` for none."""
    if not bins:
        raise ValueError("There is no bin whose past could be told.")
    weeks = _weeks(bins)
    as_of = bins[0][0].as_of
    # Who travels east may have written something on a Monday that is still to come where the clock is read.
    last = max([week_number(as_of), *weeks])
    began = min((stack.began_at for stack, _ in bins if stack.began_at), default=None)
    lived = min([*weeks, *([week_number(began)] if began else [])], default=last)
    year = tuple(
        Week(monday_of(number), weeks.get(number, Sums()), number >= lived)
        for number in range(last - WEEKS + 1, last + 1)
    )
    year_began = datetime.combine(year[0].monday, time(), as_of.tzinfo)
    return Past(
        as_of=as_of,
        began_at=began,
        weeks=year,
        year=added(week.sums for week in year),
        ever=added(weeks.values()),
        year_gap=_longest(bins, year_began),
        ever_gap=_longest(bins, None),
    )


def _weeks(bins: Iterable[Bin]) -> dict[int, Sums]:
    """The sums of each week over all bins, castings with them."""
    weeks: dict[int, Sums] = {}
    for stack, tallied in bins:
        for number, sums in tallied.weeks.items():
            weeks.setdefault(number, Sums()).add(sums)
        for at, kg in castings(stack):
            weeks.setdefault(week_number(at), Sums()).castings_kg += kg
    return weeks


def castings(stack: Stack) -> Iterator[tuple[datetime, float]]:
    """The castings of each separation, kg, as the ledger has them; skims only once it is over."""
    for done, found in castings_book(stack).items():
        by_skims = found.how in (How.SKIMS, How.IN_PART)
        if found.kg and found.at is not None and (done.ended_at is not None or not by_skims):
            yield found.at, found.kg


def added(parts: Iterable[Sums]) -> Sums:
    """Sums of sums."""
    total = Sums()
    for part in parts:
        total.add(part)
    return total


def _longest(bins: Iterable[Bin], since: datetime | None) -> Gap | None:
    """The longest that any of the bins was not checked, from a moment on or from its beginning."""
    gaps = (_gap(stack, tallied, since) for stack, tallied in bins)
    return max((gap for gap in gaps if gap is not None), key=lambda gap: gap.days, default=None)


def _gap(stack: Stack, tallied: Tally, since: datetime | None) -> Gap | None:
    began = stack.began_at
    if began is None:
        return None
    start = max(began, since) if since is not None else began
    first = bisect_left(tallied.checks, start.timestamp(), key=itemgetter(0))
    looked = [(start.timestamp(), start), *tallied.checks[first:], (stack.as_of.timestamp(), stack.as_of)]
    (_, before), (_, after) = max(pairwise(looked), key=lambda pair: pair[1][0] - pair[0][0])
    return Gap(before, after, stack.key) if before < after else None
