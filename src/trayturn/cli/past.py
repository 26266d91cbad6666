"""`past`: a year of weeks and what came of it, in one bin or in all: the text twin of its screen."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence
from dataclasses import asdict

from trayturn.advice.past import Gap, Past, Week, past_of, tally
from trayturn.advice.past.tally import Sums
from trayturn.advice.past.words import gap_line, headings, totals, week_line
from trayturn.advice.past.year import Bin, yields
from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_all, open_bin, readable, stack_asked
from trayturn.cli.parsing import moment_asked
from trayturn.cli.standing import NO_BINS
from trayturn.clock import Clock
from trayturn.domain.profile import Profile
from trayturn.domain.replay import standing
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.words import count

NOTHING = "Nothing was fed, checked or turned by then. A year will stand here, week by week."


def past(options: Namespace, clock: Clock) -> int:
    """Print the weeks of a year in which something was done, and the sums of the year and of all time."""
    now = clock()
    loaded = [open_bin(options)] if options.bin else open_all(options)
    if options.bin:
        readable(loaded[0])
    profiles = [one.profile for one in loaded if one.profile is not None and not one.problems]
    broken = [one.key for one in loaded if one.profile is None or one.problems]
    bins = [_bin(stack_asked(options, profile, now), profile) for profile in profiles]
    told = past_of(bins) if bins else None
    if options.json:
        as_of = as_json.moment(told.as_of if told else moment_asked(options, now))
        keys = [stack.key for stack, _ in bins]
        as_json.print_json({"as_of": as_of, "bins": keys, **_data(told), "broken": broken})
    else:
        _print(told, [stack for stack, _ in bins], broken, Page(options.ascii))
    return int(bool(broken))


def _bin(stack: Stack, profile: Profile) -> Bin:
    """The bin at its moment, and what its journal adds up to by then."""
    return stack, tally(entry for _, entry in standing(profile.journal) if entry.at <= stack.as_of)


def _data(told: Past | None) -> as_json.Data:
    if told is None:
        return {"weeks": [], "year": None, "ever": None}
    return {
        "weeks": [_week_data(week) for week in told.weeks],
        "year": _sums_data(told.year, told.year_gap),
        "ever": _sums_data(told.ever, told.ever_gap) | {"began_at": as_json.moment(told.began_at)},
    }


def _week_data(week: Week) -> as_json.Data:
    year, number = week.iso
    return {"week": f"{year}-W{number:02}", "monday": week.monday.isoformat(), **_amounts(week.sums)}


def _amounts(sums: Sums) -> as_json.Data:
    return {name: as_json.amount(value) for name, value in asdict(sums).items()}


def _sums_data(sums: Sums, gap: Gap | None) -> as_json.Data:
    return {
        **_amounts(sums),
        "castings_per_kg_of_scraps": as_json.amount(yields(sums)),
        "longest_without_check": None if gap is None else _gap_data(gap),
    }


def _gap_data(gap: Gap) -> as_json.Data:
    since, until = as_json.moment(gap.since), as_json.moment(gap.until)
    return {"days": as_json.days(gap.days), "since": since, "until": until, "bin": gap.bin}


def _print(told: Past | None, stacks: Sequence[Stack], broken: Sequence[str], page: Page) -> None:
    if told is None:
        page.lines([] if broken else [NO_BINS])
    elif told.empty:
        page.line(NOTHING)
    else:
        units = Units.US if all(stack.setup.units is Units.US for stack in stacks) else Units.METRIC
        name = stacks[0].setup.name if len(stacks) == 1 else count(len(stacks), "bin")
        page.title(f"The past year of {name}", f"{told.as_of:%a} {told.as_of.day} {told.as_of:%b %Y}")
        _print_sums(told, units, page)
        _print_weeks(told, units, page)
    page.lines((f"{key} cannot be read. See why with: trayturn verify {key}" for key in broken), 0, 2)


def _print_sums(told: Past, units: Units, page: Page) -> None:
    year, ever = headings(told)
    parts = [(year, told.year, told.year_gap), (ever, told.ever, told.ever_gap)]
    for heading, sums, gap in parts[:1] if year == ever else parts:
        page.line()
        page.line(f"{heading[:1].upper()}{heading[1:]}")
        for what, said in totals(sums, gap, units):
            page.row(what, said, 17)
    page.lines([line for line in (gap_line(told),) if line])


def _print_weeks(told: Past, units: Units, page: Page) -> None:
    """The weeks in which something was done, the newest first."""
    page.line()
    for week in reversed(told.weeks):
        if week.lived and not week.sums.empty:
            page.line(week_line(week, told.as_of, units), hanging=2)
