"""`next`: which bin, which tray, what next; and which bins rest until when."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence

from trayturn.advice.next import Next
from trayturn.cli import as_json
from trayturn.cli.due_data import next_data
from trayturn.cli.layout import Page, column
from trayturn.cli.parsing import moment_asked
from trayturn.cli.standing import NO_BINS, Standing, print_trouble, ranked, stand, status
from trayturn.clock import Clock


def next_bin(options: Namespace, clock: Clock) -> int:
    """Print the bins in the order in which to feed them, each with its reason and its next thing."""
    now = clock()
    all_bins = stand(options, now)
    found = ranked(all_bins)
    if options.json:
        as_of = as_json.moment(moment_asked(options, now))
        as_json.print_json({"as_of": as_of, "next": next_data(found)})
    else:
        _print(found, all_bins, Page(options.ascii))
    return status(all_bins)


def _print(found: Sequence[Next], all_bins: Sequence[Standing], page: Page) -> None:
    if not all_bins:
        page.line(NO_BINS)
    for number, (place, one) in enumerate(zip(places(found), found, strict=True)):
        if number:
            page.line()
        page.row(place, one.name, 4, 0)
        page.line(one.line, 4)
        page.lines(one.why, 6)
        if one.first is not one.feed:
            page.line(f"First there: {one.first.what}", 4)
    for broken in all_bins:
        if broken.errors or broken.ahead:
            page.line()
            page.line(broken.stack.setup.name if broken.stack else f"{broken.loaded.key} cannot be read.")
            print_trouble(broken, page, 2)


def places(found: Sequence[Next]) -> list[str]:
    """The places of those that may be fed, 1 and up; a dash for those that rest."""
    return ["-" if one.resting else str(place) for place, one in enumerate(found, 1)]


def print_ranking(found: Sequence[Next], page: Page) -> None:
    """One line a bin, the reasons in a few words."""
    width = column([one.name for one in found])
    for place, one in zip(places(found), found, strict=True):
        page.row(f"{place:4}{one.name}", one.line, width + 4)
