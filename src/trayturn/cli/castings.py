"""`castings`: the lots of one bin with what comes next, and what so much potting mix takes."""

from __future__ import annotations

from argparse import Namespace

from trayturn.advice.castings.stages import open_lots
from trayturn.advice.castings.taking_up import as_lot, old_tubs, tub_line
from trayturn.advice.castings.use import Verdict, castings_for, density_words, judge
from trayturn.advice.castings.words import NOTHING_YET, lot_line, lot_story
from trayturn.advice.due.hatching import Tub
from trayturn.cli import amounts, as_json
from trayturn.cli.layout import Page
from trayturn.cli.lot_data import lot_data
from trayturn.cli.opening import open_bin, readable, stack_asked
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.units import parse_volume, show_mass, show_volume, split_quantity
from trayturn.domain.words import clean


def castings(options: Namespace, clock: Clock) -> int:
    """Print each lot, or with `--mix` the castings for so much potting mix."""
    profile = readable(open_bin(options))
    stack = stack_asked(options, profile, clock())
    if options.mix:
        return _mix(options, stack)
    lots, tubs = open_lots(stack), old_tubs(stack)
    if options.json:
        found = {"lots": [lot_data(lot, stack) for lot in lots], "tubs": [_tub(tub) for tub in tubs]}
        as_json.print_json({"bin": stack.key, **found})
        return 0
    page = Page(options.ascii)
    page.lines(() if lots or tubs else NOTHING_YET)
    for lot in lots:
        page.line(lot_line(lot, stack))
        page.lines(lot_story(lot, stack), 2)
    for tub in tubs:
        page.line(tub_line(tub, stack), hanging=2)
        page.line("To take it up:", 2)
        page.command(_take_up(tub, stack))
    return 0


def _take_up(tub: Tub, stack: Stack) -> str:
    """The command that makes a lot of it."""
    lot = as_lot(tub, stack)
    weight = f" --weight {lot.kg:.6g}kg" if lot.kg is not None else ""
    at = lot.at.isoformat(timespec="seconds")
    return f"trayturn log {stack.key} lot-begun {lot.lot} --tray {tub.tray}{weight} --at {at}"


def _tub(tub: Tub) -> as_json.Data:
    return {"tray": tub.tray, "since": as_json.moment(tub.since), "kg": as_json.amount(tub.castings_kg)}


def _mix(options: Namespace, stack: Stack) -> int:
    """Castings for so many litres of mix. Raises `Refused`."""
    units = stack.setup.units
    litres = amounts.read(parse_volume, options.mix, "--mix", units) or 0.0
    if not split_quantity(options.mix)[1]:
        unit = "qt" if units is Units.US else "l"
        raise Refused(f"--mix {clean(options.mix, 20)} needs a unit, such as --mix 20{unit}.")
    share = amounts.plain_number(options.share, "--share", "%")
    percent = 15.0 if share is None else share
    if not 0 < percent <= 100:
        raise Refused("--share needs a percentage from 1 to 100, such as 15.")
    told = judge(percent)
    if told.verdict is Verdict.REFUSED and not options.despite:
        raise Refused(f"{told.words} --despite reckons it all the same.")
    volume, kg = castings_for(litres, percent)
    if options.json:
        takes = {"castings_l": volume, "castings_kg": kg._asdict(), "rests_on": density_words(Units.METRIC)}
        as_json.print_json({"mix_l": litres, "share_pct": percent, **takes, "said": told.words})
        return 0
    page = Page(options.ascii)
    mass = f"about {show_mass(kg.low, units)} to {show_mass(kg.high, units)}"
    mix = show_volume(litres, units)
    page.line(f"For {mix} of mix at {percent:g} %: {show_volume(volume, units)} of castings, {mass}.")
    page.line(told.words)
    page.line(density_words(units))
    return 0
