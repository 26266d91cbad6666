"""`stack`: how one bin stands, the text twin of the stack screen."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterator

from trayturn.advice.feeding import FeedNext, feed_next
from trayturn.advice.story import move_line, stack_sentence, tray_line
from trayturn.advice.turning import Move, NextTurn, next_turn
from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_bin, readable, stack_asked
from trayturn.clock import Clock
from trayturn.domain.problems import Severity
from trayturn.domain.stack import Stack
from trayturn.domain.units import show_volume
from trayturn.domain.words import day, listed, masses
from trayturn.storage.reading import Loaded


def stack(options: Namespace, clock: Clock) -> int:
    """Print the trays, the next feeding, the next turn, and what in the journal does not add up."""
    loaded = open_bin(options)
    profile = readable(loaded)
    now = stack_asked(options, profile, clock())
    if options.json:
        as_json.print_json(_data(now, loaded))
    else:
        _print(now, Page(options.ascii))
    return int(any(finding.severity is Severity.ERROR for finding in now.findings))


def _data(now: Stack, loaded: Loaded) -> as_json.Data:
    return {
        "bin": now.key,
        "name": now.setup.name,
        "path": str(loaded.path),
        "as_of": as_json.moment(now.as_of),
        "pattern": str(now.setup.pattern),
        "trays": [as_json.tray(tray) for tray in now.trays],
        "off_stack": [as_json.tray(tray) for tray in now.off_stack],
        "sump": as_json.sump(now),
        "temperature_c": now.temperature_c,
        "worms_kg": as_json.amount(now.worms_kg),
        "supplies_kg": as_json.amounts(now.supplies_kg),
        "feed_next": _feed_data(feed_next(now)),
        "next_turn": _turn_data(next_turn(now)),
        "last_turn_at": as_json.moment(now.last_turn_at),
        "separations": [as_json.separation(one, now.as_of) for one in now.separations],
        "findings": as_json.findings(now.findings),
    }


def _feed_data(advice: FeedNext) -> as_json.Data:
    return {
        "tray": advice.tray,
        "due": as_json.moment(advice.due),
        "ready": advice.ready,
        "what": advice.what,
        "why": list(advice.why),
    }


def _turn_data(advice: NextTurn) -> as_json.Data:
    return {
        "due": as_json.moment(advice.due),
        "ready": advice.ready,
        "what": advice.what,
        "why": list(advice.why),
        "moves": [_move_data(move) for move in advice.moves],
    }


def _move_data(move: Move) -> as_json.Data:
    return {
        "tray": move.tray,
        "from_level": move.from_level,
        "to_level": move.to_level,
        "from_stage": str(move.from_stage) if move.from_stage else None,
        "to_stage": str(move.to_stage),
    }


def _print(now: Stack, page: Page) -> None:
    as_of = now.as_of
    page.title(now.setup.name, f"{as_of:%a} {as_of.day} {as_of:%b} {as_of.year}, {as_of:%H:%M}")
    page.line(stack_sentence(now))
    page.line()
    page.lines((tray_line(tray, now) for tray in reversed(now.trays)), 2, 2)
    page.lines(_around(now), 2, 2)
    _print_advice("Feed", feed_next(now), page)
    _print_advice("Turn", next_turn(now), page)
    if moves := next_turn(now).moves:
        page.line("What every tray becomes:", 8)
        page.lines((move_line(move) for move in moves), 10, 2)
    if now.findings:
        page.line()
        page.line("What does not add up")
        page.lines((f"{finding.severity}: {finding}" for finding in now.findings), 2, 2)


def _print_advice(label: str, advice: FeedNext | NextTurn, page: Page) -> None:
    page.line()
    page.row(label, advice.what, 6)
    page.lines(advice.why, 8)


def _around(now: Stack) -> Iterator[str]:
    """What belongs to the bin and is not a tray on its stack."""
    if now.sump.volume_l is None or now.sump.checked_at is None:
        yield "Nobody has looked into the sump yet."
    else:
        held = f"held {show_volume(now.sump.volume_l, now.setup.units)}" if now.sump.volume_l else "was empty"
        yield f"The sump {held} when last looked at, {day(now.sump.checked_at, now.as_of)}."
    if now.off_stack:
        yield f"Off the stack: {listed(tray.id for tray in now.off_stack)}."
    if now.supplies_kg:
        kept = {name: kg for name, kg in now.supplies_kg.items() if kg > 0}
        yield f"Supplies: {masses(kept, now.setup.units, len(kept)) or 'none left'}."
