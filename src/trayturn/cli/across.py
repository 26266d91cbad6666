"""What is told about all bins at once: `bins` and `today`."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence
from datetime import datetime

from trayturn.advice.next import Next
from trayturn.cli import as_json
from trayturn.cli.due_data import due_data, next_data, resting_data
from trayturn.cli.layout import Page, column
from trayturn.cli.next_bin import print_ranking
from trayturn.cli.parsing import moment_asked
from trayturn.cli.standing import (
    NO_BINS,
    Standing,
    all_due,
    print_trouble,
    ranked,
    ranked_at_once,
    stand,
    status,
)
from trayturn.clock import Clock
from trayturn.domain.words import count
from trayturn.storage.home import home_dir
from trayturn.storage.reading import Loaded

REASONS = 4
"""How many lines of the reason are printed of each thing; `--json` and the screens have all."""


def bins(options: Namespace, clock: Clock) -> int:
    """Every bin with the next thing to do in it, and whether it should rest."""
    now = clock()
    all_bins = stand(options, now)
    feeding = {one.bin: one for one in ranked_at_once(all_bins)}
    if options.json:
        as_of = as_json.moment(moment_asked(options, now))
        told = [_bin_data(one, feeding.get(one.loaded.key)) for one in all_bins]
        as_json.print_json({"as_of": as_of, "bins": told})
    else:
        page = Page(options.ascii)
        _print_bins(all_bins, feeding, page)
        page.path("Their files are in", home_dir(options.home))
    return status(all_bins)


def today(options: Namespace, clock: Clock) -> int:
    """What is due across all bins, most pressing first, and which bin is next."""
    now = clock()
    all_bins = stand(options, now)
    if options.json:
        as_json.print_json(
            {
                "as_of": as_json.moment(moment_asked(options, now)),
                "due": [due_data(item) for item in all_due(all_bins)],
                "next": next_data(ranked(all_bins)),
                "broken": [_broken_data(one.loaded) for one in all_bins if one.loaded.problems],
            }
        )
    else:
        _print_today(all_bins, ranked_at_once(all_bins), moment_asked(options, now), Page(options.ascii))
    return status(all_bins)


def _bin_data(one: Standing, feeding: Next | None) -> as_json.Data:
    stack, profile = one.stack, one.loaded.profile
    return {
        "bin": one.loaded.key,
        "name": profile.bin.name if profile else None,
        "path": str(one.loaded.path),
        "trays": len(stack.trays) if stack else None,
        "next": due_data(one.due[0]) if one.due else None,
        **(resting_data(feeding) if feeding else {"resting": None, "rests_until": None, "rests": []}),
        "problems": as_json.problems(one.loaded.problems),
        "findings": as_json.findings(one.findings),
    }


def _broken_data(loaded: Loaded) -> as_json.Data:
    return {"bin": loaded.key, "path": str(loaded.path), "problems": as_json.problems(loaded.problems)}


def _print_bins(all_bins: Sequence[Standing], feeding: dict[str, Next], page: Page) -> None:
    if not all_bins:
        page.line(NO_BINS)
    width = column([one.loaded.key for one in all_bins])
    for one in all_bins:
        page.row(one.loaded.key, _bin_line(one), width, 0)
        page.lines((item.what for item in one.due[:1]), width)
        resting = feeding.get(one.loaded.key)
        page.lines([resting.line] if resting and resting.resting else [], width)
        print_trouble(one, page, width)


def _bin_line(one: Standing) -> str:
    if one.stack is None:
        return "cannot be read."
    setup = one.stack.setup
    where = f" ({setup.place})" if setup.place else ""
    return f"{setup.name}, {count(len(one.stack.trays), 'tray')} on the stack{where}"


def _print_today(all_bins: Sequence[Standing], found: Sequence[Next], now: datetime, page: Page) -> None:
    """One list of all that is due, in order; then which bin is next, and what cannot be read."""
    page.line("Due" if found else NO_BINS if not all_bins else "Nothing can be read.")
    for item in all_due(all_bins):
        page.row(item.when(now), f"{item.name}: {item.what}" if len(all_bins) > 1 else item.what, 14)
        page.lines(item.why[:REASONS] if item.late or item.kind == "rest" else (), 16)
    if found:
        page.line()
        page.line("Which bin next")
        print_ranking(found, page)
    for one in all_bins:
        if one.errors or one.ahead:
            page.line()
            page.line(one.stack.setup.name if one.stack else f"{one.loaded.key} cannot be read.")
            print_trouble(one, page, 2)
