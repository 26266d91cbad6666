"""`supplies`: what is in stock in one bin or in all, how long it lasts, and what to gather by when."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime

from trayturn.advice.bands import Band, rough_mass
from trayturn.advice.stock import (
    Outlook,
    TurnSupport,
    outlooks,
    reasons,
    story,
    support_lines,
    turn_supported,
)
from trayturn.advice.stock.words import state_word
from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_all, open_bin, readable, stack_asked
from trayturn.cli.parsing import moment_asked
from trayturn.cli.standing import NO_BINS
from trayturn.clock import Clock
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.supplies import fold
from trayturn.domain.words import listed

NOTHING = (
    "Nothing is in stock by the journal yet. Write down what there is, such as: "
    'trayturn log {} supplies-counted "shredded cardboard=2 kg"'
)


def supplies(options: Namespace, clock: Clock) -> int:
    """Print the supplies of one bin; without one those of every bin, and their sums."""
    if options.bin is None:
        return _across(options, clock())
    profile = readable(open_bin(options))
    stack = stack_asked(options, profile, clock())
    if options.json:
        as_json.print_json(_data(stack))
    else:
        _print(stack, Page(options.ascii))
    return 0


def _across(options: Namespace, now: datetime) -> int:
    loaded = open_all(options)
    read = [one.profile for one in loaded if one.profile is not None and not one.problems]
    broken = [one.key for one in loaded if one.profile is None or one.problems]
    stacks = sorted((stack_asked(options, one, now) for one in read), key=lambda s: s.setup.name.casefold())
    sums = _sums(stacks)
    if options.json:
        as_json.print_json(
            {
                "as_of": as_json.moment(moment_asked(options, now)),
                "bins": [_data(stack) for stack in stacks],
                "in_all": [_sum_data(one) for one in sums],
                "broken": broken,
            }
        )
    else:
        _print_all(stacks, sums, broken, Page(options.ascii))
    return int(bool(broken))


@dataclass
class Sum:
    """One supply over all bins, kg: what is known to be there, the bins where it is not, what to gather."""

    name: str
    kg: float = 0.0
    known: bool = False
    unknown_in: list[str] = field(default_factory=list)
    gather_kg: float = 0.0


def _sums(stacks: Sequence[Stack]) -> list[Sum]:
    sums: dict[str, Sum] = {}
    for stack in stacks:
        for one in outlooks(stack):
            total = sums.setdefault(fold(one.name), Sum(one.name))
            total.gather_kg += one.gather_kg or 0.0
            if one.supply.kg is None:
                total.unknown_in.append(stack.key)
            else:
                total.kg, total.known = total.kg + one.supply.kg, True
    return list(sums.values())


def _data(stack: Stack) -> as_json.Data:
    support = turn_supported(stack)
    return {
        "bin": stack.key,
        "name": stack.setup.name,
        "as_of": as_json.moment(stack.as_of),
        "supplies": [_supply_data(one, stack, support is not None) for one in outlooks(stack)],
        "turn": _turn_data(support) if support is not None else None,
    }


def _supply_data(one: Outlook, stack: Stack, brings: bool) -> as_json.Data:
    """One supply. Where the next turn `brings` no tray in, the next fresh tray comes with a later one."""
    return {
        "name": one.name,
        "code": one.code,
        "stock_kg": as_json.amount(one.supply.kg),
        "counted_at": as_json.moment(one.supply.counted_at),
        "came_in_at": as_json.moment(one.supply.came_in_at),
        "used_kg_per_week": _band(one.record.per_week),
        "by_own_record": one.record.own,
        "next_turn_needs_kg": _band(one.turn) if brings else None,
        "next_tray_at": as_json.moment(one.turn_at if one.turn is not None else None),
        "next_tray_needs_kg": _band(one.turn),
        "month_needs_kg": _band(one.month),
        "runs_out_on": None if one.lasts is None else _days(one),
        "gather_kg": as_json.amount(one.gather_kg),
        "gather_by": as_json.moment(one.gather_by),
        "rests_on": [line for line in reasons(one, stack) if line],
    }


def _band(band: Band | None) -> as_json.Data | None:
    if band is None:
        return None
    low, mid, high = map(as_json.amount, band)
    return {"low": low, "mid": mid, "high": high}


def _days(one: Outlook) -> as_json.Data | None:
    """Null at an end that is more than a year away."""
    if one.lasts is None:
        return None
    early, mid, late = map(as_json.moment, (one.lasts.early, one.lasts.mid, one.lasts.late))
    return {"early": early, "mid": mid, "late": late}


def _turn_data(support: TurnSupport) -> as_json.Data:
    return {
        "tray": support.tray,
        "bedding": support.bedding,
        "needs_kg": _band(support.need.one),
        "stock_kg": as_json.amount(support.stock_kg),
        "short_kg": None if support.stock_kg is None else as_json.amount(support.short_kg),
        "least_kg": as_json.amount(support.least_kg),
        "at": as_json.moment(support.at),
        "instead": list(support_lines(support)[1:]),
    }


def _sum_data(one: Sum) -> as_json.Data:
    return {
        "name": one.name,
        "stock_kg": as_json.amount(one.kg) if one.known else None,
        "unknown_in": one.unknown_in,
        "gather_kg": as_json.amount(one.gather_kg) or None,
    }


def _print(stack: Stack, page: Page) -> None:
    page.title(stack.setup.name, f"{stack.as_of:%a} {stack.as_of.day} {stack.as_of:%b %Y}")
    found = outlooks(stack)
    if not found:
        page.line(NOTHING.format(stack.key))
    for one in found:
        page.line()
        page.line(f"{one.name}: {state_word(one)}")
        page.lines(story(one, stack), 2, 2)


def _print_all(stacks: Sequence[Stack], sums: Sequence[Sum], broken: Sequence[str], page: Page) -> None:
    if not stacks and not broken:
        page.line(NO_BINS)
    for number, stack in enumerate(stacks):
        if number:
            page.line()
        _print(stack, page)
    page.lines((f"{key} cannot be read. See why with: trayturn verify {key}" for key in broken), 0, 2)
    if len(stacks) > 1 and sums:
        units = Units.US if all(one.setup.units is Units.US for one in stacks) else Units.METRIC
        page.line()
        page.line(f"In all bins: {listed(_sum_words(one, units) for one in sums)}.", hanging=2)


def _sum_words(one: Sum, units: Units) -> str:
    held = f"{one.name} {rough_mass(one.kg, units) if one.kg else 'none'}" if one.known else one.name
    unknown = f"not known in {listed(one.unknown_in)}" if one.unknown_in else ""
    gather = f"{rough_mass(one.gather_kg, units)} to gather" if one.gather_kg else ""
    more = ", ".join(part for part in (unknown, gather) if part)
    return f"{held} ({more})" if more else held
