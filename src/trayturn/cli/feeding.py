"""`feed`: a meal for the tray that is due, seen through before it is fed. The feeding screen's text twin."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from trayturn.advice.composing.composed import Composed, compose
from trayturn.advice.composing.draft import Draft, Line, Part
from trayturn.advice.composing.ground import Goals, Ground, ground_of, tray_to_feed
from trayturn.advice.composing.larder import part_named
from trayturn.advice.composing.offers import Offer, offers
from trayturn.advice.composing.rationing import Rationed, ration_out
from trayturn.advice.composing.recent import History
from trayturn.advice.composing.writing import entries
from trayturn.advice.pantry import Pantry, pantry_of
from trayturn.cli import amounts, as_json, feeding_told
from trayturn.cli.desk import Desk
from trayturn.cli.layout import Page
from trayturn.cli.mix import inline_row
from trayturn.cli.opening import open_bin, readable, stack_asked
from trayturn.cli.parsing import Refused, moment_asked
from trayturn.cli.writing import refuse_impossible
from trayturn.clock import Clock
from trayturn.domain.entries import Entry
from trayturn.domain.profile import Profile
from trayturn.domain.replay import present
from trayturn.domain.stack import Stack
from trayturn.domain.units import UnitError
from trayturn.domain.words import clean
from trayturn.storage.reading import Loaded
from trayturn.storage.saving import append

MOISTURE, RATIO = (40, 95), (5, 200)
"""The goals that can be asked for: percent, and carbon to nitrogen."""
NOT_KEPT = "Figures given here are not kept. Under [[ingredients]] in the file they are reckoned with later."
EXAMPLE = 'Name something to feed, such as "cabbage=500 g"; nothing waits in the caddy.'


def feed(options: Namespace, clock: Clock) -> int:
    """Print what comes of the meal; with --record write it down. Exit 1 where a goal asked for is missed."""
    _sort_words(options)
    loaded, now = open_bin(options), clock()
    profile = readable(loaded)
    stack = stack_asked(options, profile, now)
    ground = _ground(options, profile, stack)
    made = compose(_draft(options, ground), ground)
    shared = ration_out(made.draft, ground)
    if options.share:
        made = compose(shared.draft, ground)
    at = moment_asked(options, now)
    written = _record(loaded, made, at, now) if options.record else None
    _tell(options, made, shared, loaded, written)
    asked = options.goal_moisture is not None or options.goal_cn is not None
    return int(asked and bool(made.proposal.missed))


def _sort_words(options: Namespace) -> None:
    """The first word is an item where it has an amount, and then no tray was named."""
    if options.tray is not None and "=" in options.tray:
        options.items, options.tray = [options.tray, *options.items], None


def _ground(options: Namespace, profile: Profile, stack: Stack) -> Ground:
    desk = Desk(profile, stack, stack.as_of, options)
    tray = desk.tray(options.tray) if options.tray else tray_to_feed(stack, None)
    ground = ground_of(stack, tray, _pantry(options, profile), _goals(options)) if tray else None
    if ground is None:
        what = f"Tray {tray} is not on the stack" if tray else "There is no tray on the stack"
        raise Refused(f"{what}, so it cannot be fed.")
    return ground


def _pantry(options: Namespace, profile: Profile) -> Pantry:
    """The bin's pantry, and before it what was given figures of its own on the command line."""
    pantry = pantry_of(profile)
    rows = [row for text in options.items if (row := inline_row(text)) is not None]
    return Pantry(pantry.table.with_own(rows)) if rows else pantry


def _goals(options: Namespace) -> Goals:
    usual = Goals()
    moisture = _within(options.goal_moisture, "--goal-moisture", MOISTURE)
    ratio = _within(options.goal_cn, "--goal-cn", RATIO)
    return Goals(usual.moisture if moisture is None else moisture / 100, ratio or usual.c_to_n)


def _within(value: float | None, option: str, within: tuple[int, int]) -> float | None:
    low, high = within
    if value is not None and not low <= value <= high:
        raise Refused(f"{option} needs a number from {low} to {high}.")
    return value


def _draft(options: Namespace, ground: Ground) -> Draft:
    """The meal as it was typed; without items what waits in the caddy."""
    caddy = ground.stack.caddy_kg
    draft = Draft(ground.tray.id, note=options.note).with_caddy({}, caddy)
    for text in options.items:
        draft = draft.plus(_line(text.partition(";")[0], ground))
    if not options.items and caddy:
        draft = replace(_from_caddy(ground).draft, note=options.note)
    for part, pairs in ((Part.BEDDING, options.bedding), (Part.COVER, options.cover)):
        for pair in pairs:
            draft = draft.plus(replace(_line(pair, ground), part=part))
    grit = amounts.mass(options.grit, "--grit", ground.units)
    water = amounts.water(options.water, "--water", ground.units)
    for part, kg in ((Part.GRIT, grit), (Part.WATER, water)):
        draft = draft.plus(Line(part, str(part), kg)) if kg else draft
    if draft.empty and not draft.waits:
        raise Refused(EXAMPLE)
    return replace(draft, follows=options.propose)


def _from_caddy(ground: Ground) -> Offer:
    return offers(ground, History())[0]


def _line(text: str, ground: Ground) -> Line:
    """`cabbage=500 g`, `apple=2 handfuls`."""
    name, sign, amount = (piece.strip() for piece in text.rpartition("="))
    if not sign or not name or not amount:
        raise Refused(
            f'{clean(text, 40)!r} needs a name and an amount in quotes, such as "cabbage=500 g" or '
            '"apple=2 handfuls".'
        )
    try:
        read = ground.measures.read(amount, name, ground.most_kg)
    except UnitError as slip:
        raise Refused(f"{clean(name, 40)}: {slip}") from None
    return Line(part_named(name, ground.pantry), name, read.kg, read.measure)


def _record(loaded: Loaded, made: Composed, at: datetime, now: datetime) -> Sequence[Entry]:
    """Write the meal down, once it is sure that it can have happened."""
    profile = readable(loaded)
    if at > present(profile, now):
        raise Refused(f"--at has not come yet: it is {now:%Y-%m-%d %H:%M}. Record it once it has happened.")
    written = entries(made.draft, made.ground.stack.caddy_kg, at)
    if not written:
        raise Refused("There is nothing in this meal to write down.")
    refuse_impossible(profile, written, now)
    append(loaded, written)
    return written


def _tell(
    options: Namespace, made: Composed, shared: Rationed, loaded: Loaded, written: Sequence[Entry] | None
) -> None:
    if options.json:
        as_json.print_json(feeding_told.data(made, shared, loaded, written))
        return
    page = Page(options.ascii)
    feeding_told.show(made, shared, page, applied=options.share)
    if written is None:
        page.line("Nothing is written down. With --record it is.")
    else:
        feeding_told.show_written(made, written, page)
        page.path("In", loaded.path)
        page.lines([NOT_KEPT] if any(";" in text for text in options.items) else [])
