"""What is told about all bins at once: `bins` and `today`."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.due import Due, due_list
from trayturn.cli import as_json
from trayturn.cli.layout import Page, column
from trayturn.cli.opening import open_all, stack_asked
from trayturn.cli.parsing import moment_asked
from trayturn.clock import Clock
from trayturn.domain.problems import Finding, Severity
from trayturn.domain.stack import Stack
from trayturn.domain.words import clock as clock_time
from trayturn.domain.words import count
from trayturn.domain.words import due as in_days
from trayturn.storage.home import home_dir
from trayturn.storage.reading import Loaded

NO_BINS = "There are no bins here yet. Make one with: trayturn new NAME, or look around with: trayturn demo"


@dataclass(frozen=True)
class Standing:
    """One bin of the home folder as it stands. A file that cannot be read has no stack and nothing due."""

    loaded: Loaded
    stack: Stack | None
    due: tuple[Due, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        return self.stack.findings if self.stack else ()

    @property
    def errors(self) -> list[str]:
        """What is wrong with the file, or cannot have happened in its journal."""
        impossible = [finding for finding in self.findings if finding.severity is Severity.ERROR]
        return [*map(str, self.loaded.problems), *map(str, impossible)]

    @property
    def ahead(self) -> list[str]:
        """That entries are dated ahead of the clock, which puts every age here in doubt."""
        return [str(finding) for finding in self.findings if finding.code == "dated-ahead"]


def bins(options: Namespace, clock: Clock) -> int:
    """Every bin with the next thing to do in it."""
    now = clock()
    all_bins = _stand(options, now)
    if options.json:
        as_of = as_json.moment(moment_asked(options, now))
        as_json.print_json({"as_of": as_of, "bins": [_bin_data(one) for one in all_bins]})
    else:
        page = Page(options.ascii)
        _print_bins(all_bins, page)
        page.path("Their files are in", home_dir(options.home))
    return _status(all_bins)


def today(options: Namespace, clock: Clock) -> int:
    """What is due across all bins, the most pressing bin first."""
    now = clock()
    all_bins = _stand(options, now)
    if options.json:
        as_json.print_json(
            {
                "as_of": as_json.moment(moment_asked(options, now)),
                "due": [_due_data(item) for one in all_bins for item in one.due],
                "broken": [_broken_data(one.loaded) for one in all_bins if one.loaded.problems],
            }
        )
    else:
        _print_today(all_bins, Page(options.ascii))
    return _status(all_bins)


def _stand(options: Namespace, now: datetime) -> list[Standing]:
    """Every bin as of the moment asked about, the most pressing first and the unreadable ones last."""
    found = [_standing(loaded, options, now) for loaded in open_all(options)]
    readable = sorted((one for one in found if one.due), key=lambda one: one.due[0].order)
    return readable + [one for one in found if not one.due]


def _standing(loaded: Loaded, options: Namespace, now: datetime) -> Standing:
    if loaded.profile is None or loaded.problems:
        return Standing(loaded, None, ())
    stack = stack_asked(options, loaded.profile, now)
    return Standing(loaded, stack, tuple(due_list(stack)))


def _status(all_bins: Sequence[Standing]) -> int:
    return int(any(one.errors for one in all_bins))


def _bin_data(one: Standing) -> as_json.Data:
    stack, profile = one.stack, one.loaded.profile
    return {
        "bin": one.loaded.key,
        "name": profile.bin.name if profile else None,
        "path": str(one.loaded.path),
        "trays": len(stack.trays) if stack else None,
        "next": _due_data(one.due[0]) if one.due else None,
        "problems": as_json.problems(one.loaded.problems),
        "findings": as_json.findings(one.findings),
    }


def _due_data(item: Due) -> as_json.Data:
    return {
        "bin": item.bin,
        "name": item.name,
        "kind": item.kind,
        "due": as_json.moment(item.due),
        "late": item.late,
        "what": item.what,
        "why": list(item.why),
        "tray": item.tray,
        "page": item.page,
    }


def _broken_data(loaded: Loaded) -> as_json.Data:
    return {"bin": loaded.key, "path": str(loaded.path), "problems": as_json.problems(loaded.problems)}


def _print_bins(all_bins: Sequence[Standing], page: Page) -> None:
    if not all_bins:
        page.line(NO_BINS)
    width = column([one.loaded.key for one in all_bins])
    for one in all_bins:
        page.row(one.loaded.key, _bin_line(one), width, 0)
        page.lines((item.what for item in one.due[:1]), width)
        _print_trouble(one, page, width)


def _bin_line(one: Standing) -> str:
    if one.stack is None:
        return "cannot be read."
    setup = one.stack.setup
    where = f" ({setup.place})" if setup.place else ""
    return f"{setup.name}, {count(len(one.stack.trays), 'tray')} on the stack{where}"


def _print_today(all_bins: Sequence[Standing], page: Page) -> None:
    if not all_bins:
        page.line(NO_BINS)
    for number, one in enumerate(all_bins):
        if number:
            page.line()
        page.line(one.stack.setup.name if one.stack else f"{one.loaded.key} cannot be read.")
        for item in one.due:
            page.row(_when(item, one), item.what, 14)
            page.lines(item.why if item.late or item.kind == "rest" else (), 16)
        _print_trouble(one, page, 2)


def _when(item: Due, one: Standing) -> str:
    """A rest by the clock, all else by the day."""
    if item.due is None or one.stack is None:
        return "now"
    now = one.stack.as_of
    return clock_time(item.due, now) if item.kind == "rest" else in_days(item.due, now)


def _print_trouble(one: Standing, page: Page, indent: int) -> None:
    """The first thing that is wrong, and where to read the rest; and a clock or date that is off."""
    for error in one.errors[:1]:
        page.line(f"{error} See it all with: trayturn verify {one.loaded.key}", indent, 2)
    page.lines(one.ahead, indent, 2)
