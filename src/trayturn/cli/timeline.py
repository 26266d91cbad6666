"""`timeline`: the order of work for all separations under way."""

from __future__ import annotations

from argparse import Namespace
from typing import Any

from trayturn.advice.side_by_side import Planned, SideBySide, side_by_side
from trayturn.advice.side_by_side.words import lines, what
from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import find_path, open_all, readable, stack_asked
from trayturn.cli.parsing import read_moment
from trayturn.clock import Clock
from trayturn.domain.stack import Stack
from trayturn.domain.words import clock as at
from trayturn.storage.reading import load

NOTHING = "Nothing is being separated. s on a bin's screen begins one; several go side by side."


def timeline(options: Namespace, clock: Clock) -> int:
    """Print where hands are needed now and next, in every bin or in those named."""
    now = read_moment(options.at) if options.at else clock()
    plan = side_by_side(_stacks(options, now), now)
    if options.json:
        as_json.print_json(_data(plan, now))
        return 0
    page = Page(options.ascii)
    if plan is None:
        page.line(NOTHING)
        return 0
    page.lines(lines(plan))
    for slot in plan.slots:
        rest = f", then it rests until {at(slot.rest_until, now)}" if slot.rest_until > slot.end else ""
        page.line(f"{at(slot.start, now)} to {at(slot.end, now)}  {what(slot)}{rest}", 2)
    return 0


def _stacks(options: Namespace, now: Any) -> list[Stack]:
    """The bins named, or all that can be read."""
    if options.bins:
        loaded = [load(find_path(options, words)) for words in options.bins]
        return [stack_asked(options, readable(one), now) for one in loaded]
    found = [one.profile for one in open_all(options) if one.profile is not None and not one.problems]
    return [stack_asked(options, profile, now) for profile in found]


def _data(plan: SideBySide | None, now: Any) -> dict[str, Any]:
    if plan is None:
        return {"as_of": as_json.moment(now), "work": [], "done_at": None, "waits": []}
    low, mid, high = (as_json.moment(moment) for moment in plan.done)
    return {
        "as_of": as_json.moment(now),
        "work": [_slot(slot) for slot in plan.slots],
        "done_at": {"low": low, "mid": mid, "high": high},
        "waits": [{"bin": one.bin, "tray": one.tray, "minutes": one.minutes} for one in plan.waits],
        "hands_minutes": plan.hands_min,
        "proved": plan.proved,
    }


def _slot(slot: Planned) -> dict[str, Any]:
    return {
        "bin": slot.bin,
        "tray": slot.tray,
        "task": slot.what,
        "starts": as_json.moment(slot.start),
        "ends": as_json.moment(slot.end),
        "rest_until": as_json.moment(slot.rest_until),
    }
