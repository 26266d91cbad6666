"""`found`: pieces that go round again, and what does not belong, by source. The text twin of its screen."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterable

from trayturn.advice.found.kinds import REMEDIES
from trayturn.advice.found.overs import Going, Went, going_round, went
from trayturn.advice.found.sources import KindFound, Noted, Source, kinds_found, noted, sources
from trayturn.advice.found.words import (
    NOTHING_YET,
    kind_line,
    noted_words,
    over_story,
    remedy_line,
    source_story,
    went_words,
)
from trayturn.advice.pantry import Pantry, pantry_of
from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_all, open_bin, readable, stack_asked
from trayturn.cli.parsing import moment_asked
from trayturn.cli.standing import NO_BINS
from trayturn.clock import Clock
from trayturn.domain.lots import Over
from trayturn.domain.stack import Stack


def found(options: Namespace, clock: Clock) -> int:
    """Print what goes round and what does not belong, of one bin or bin by bin."""
    now = clock()
    loaded = [open_bin(options)] if options.bin else open_all(options)
    if options.bin:
        readable(loaded[0])
    profiles = [one.profile for one in loaded if one.profile is not None and not one.problems]
    broken = [one.key for one in loaded if one.profile is None or one.problems]
    stacks = [(stack_asked(options, one, now), pantry_of(one)) for one in profiles]
    stacks.sort(key=lambda pair: pair[0].setup.name.casefold())
    if not options.json:
        page = Page(options.ascii)
        if not stacks and not broken:
            page.line(NO_BINS)
        for number, (stack, pantry) in enumerate(stacks):
            page.lines([""] if number else [])
            _print(stack, pantry, page)
        page.lines((f"{key} cannot be read. See why with: trayturn verify {key}" for key in broken), 0, 2)
    elif options.bin:
        as_json.print_json(_data(*stacks[0]))
    else:
        as_of = as_json.moment(moment_asked(options, now))
        as_json.print_json({"as_of": as_of, "bins": [_data(*pair) for pair in stacks], "broken": broken})
    return int(bool(broken))


def _data(stack: Stack, pantry: Pantry) -> as_json.Data:
    return {
        "bin": stack.key,
        "name": stack.setup.name,
        "as_of": as_json.moment(stack.as_of),
        "overs": [_going(one) for one in going_round(stack, pantry)],
        "overs_gone": [_over(one) for one in stack.overs_gone],
        "went": [_went(one) for one in went(stack)],
        "sources": [_source(one) for one in sources(stack)],
        "kinds": [_kind(one) for one in kinds_found(stack)],
        "noted": [_noted(one) for one in noted(stack)],
    }


def _over(over: Over) -> as_json.Data:
    return {
        "what": over.what,
        "count": over.count,
        "size_cm": over.size_cm,
        "tray": over.tray,
        "turns": over.turns,
        "first_at": as_json.moment(over.first_at),
        "last_at": as_json.moment(over.last_at),
        "gone_at": as_json.moment(over.gone_at),
    }


def _going(one: Going) -> as_json.Data:
    usual = {"what": one.usual.what, "source": one.usual.source} if one.usual is not None else None
    return {**_over(one.over), "do": one.do, "usual": usual}


def _went(one: Went) -> as_json.Data:
    return {
        "what": one.what,
        "times": one.times,
        "turns": {"low": one.turns[0], "high": one.turns[1]},
        "days": {"low": as_json.days(one.days[0]), "high": as_json.days(one.days[1])},
    }


def _source(one: Source) -> as_json.Data:
    return {
        "source": one.name or None,
        "state": one.state.value,
        "year": {str(kind): number for kind, number in one.year.items()},
        "ever": {str(kind): number for kind, number in one.ever.items()},
        "first_at": as_json.moment(one.first_at),
        "last_at": as_json.moment(one.last_at),
        "last_tray": one.last_tray,
        "stopped_at": as_json.moment(one.stopped_at),
        "stopped_before": as_json.moment(one.stopped_before),
    }


def _kind(one: KindFound) -> as_json.Data:
    remedy = REMEDIES[one.kind]
    return {
        "kind": str(one.kind),
        "year": one.year,
        "ever": one.ever,
        "last_at": as_json.moment(one.last_at),
        "do": remedy.do,
        "why": remedy.why,
        "source": remedy.source,
    }


def _noted(one: Noted) -> as_json.Data:
    at = as_json.moment(one.at)
    return {"at": at, "tray": one.tray, "overs": one.overs, "contaminants": one.contaminants}


def _print(stack: Stack, pantry: Pantry, page: Page) -> None:
    page.title(f"Found in {stack.setup.name}", f"{stack.as_of:%a} {stack.as_of.day} {stack.as_of:%b %Y}")
    now, units = stack.as_of, stack.setup.units
    words = [[f"{one.at:%Y-%m-%d} tray {one.tray}: {noted_words(one)}"] for one in noted(stack)]
    parts = (
        ("Going round", [over_story(one, now, units) for one in going_round(stack, pantry)]),
        ("Gone round before", [[went_words(one)] for one in went(stack)]),
        ("What came in, and with what", [source_story(one, now)[:2] for one in sources(stack)]),
        ("What to do about it", [[kind_line(one, now), remedy_line(one.kind)] for one in kinds_found(stack)]),
        ("Noted in words", words),
    )
    if not any(told for _, told in parts):
        page.line(NOTHING_YET[0])
    for heading, told in parts:
        _print_part(heading, told, page)


def _print_part(heading: str, told: Iterable[Iterable[str]], page: Page) -> None:
    blocks = list(told)
    if not blocks:
        return
    page.line()
    page.line(heading)
    for first, *rest in map(list, blocks):
        page.line(first[:1].upper() + first[1:], 2, 2)
        page.lines(rest, 4)
