"""`castings`: the lots of one bin with what comes next, and what so much potting mix takes."""

from __future__ import annotations

from argparse import Namespace

from trayturn.advice.castings.cocoons import expected, recovered
from trayturn.advice.castings.stages import jar_use_by, next_for, open_lots, use_by
from trayturn.advice.castings.use import Verdict, castings_for, judge
from trayturn.advice.castings.words import NOTHING_YET, lot_line, lot_story
from trayturn.cli import amounts, as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_bin, readable, stack_asked
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.lots import Jar, Lot
from trayturn.domain.stack import Stack
from trayturn.domain.units import parse_volume, show_mass, show_volume


def castings(options: Namespace, clock: Clock) -> int:
    """Print each lot, or with `--mix` the castings for so much potting mix."""
    profile = readable(open_bin(options))
    stack = stack_asked(options, profile, clock())
    if options.mix:
        return _mix(options, stack)
    if options.json:
        as_json.print_json({"bin": stack.key, "lots": [_data(lot, stack) for lot in open_lots(stack)]})
        return 0
    page = Page(options.ascii)
    lots = open_lots(stack)
    page.lines(NOTHING_YET if not lots else ())
    for lot in lots:
        page.line(lot_line(lot, stack))
        page.lines(lot_story(lot, stack), 2)
    return 0


def _data(lot: Lot, stack: Stack) -> as_json.Data:
    coming, found = next_for(lot, stack), expected(lot, stack)
    return {
        "lot": lot.code,
        "tray": lot.tray,
        "stage": str(lot.stage),
        "since": as_json.moment(lot.stage_since),
        "begun": as_json.moment(lot.begun_at),
        "begun_kg": lot.begun_kg,
        "kg": lot.kg,
        "left_kg": lot.left_kg,
        "moisture_pct": lot.moisture_pct,
        "cocoons": found.cocoons._asdict() if found is not None else None,
        "young": found.young._asdict() if found is not None and found.young is not None else None,
        "rests_on": found.basis if found is not None else None,
        "hatchlings": recovered(lot),
        "use_by": as_json.moment(use_by(lot)),
        "jars": [_jar(jar) for jar in lot.jars.values()],
        "next": coming.code if coming is not None else None,
        "what": coming.what if coming is not None else None,
        "due": as_json.moment(coming.due) if coming is not None and coming.due is not None else None,
        "why": list(coming.why) if coming is not None else [],
    }


def _jar(jar: Jar) -> as_json.Data:
    by = as_json.moment(jar_use_by(jar))
    return {"label": jar.label, "count": jar.count, "kg": jar.kg, "left_kg": jar.left_kg, "use_by": by}


def _mix(options: Namespace, stack: Stack) -> int:
    """Castings for so many litres of mix. Raises `Refused`."""
    units = stack.setup.units
    litres = amounts.read(parse_volume, options.mix, "--mix", units) or 0.0
    share = amounts.plain_number(options.share, "--share", "%")
    percent = 15.0 if share is None else share
    if not 0 < percent <= 100:
        raise Refused("--share needs a percentage from 1 to 100, such as 15.")
    told = judge(percent)
    if told.verdict is Verdict.REFUSED and not options.despite:
        raise Refused(f"{told.words} --despite reckons it all the same.")
    volume, kg = castings_for(litres, percent)
    if options.json:
        band = {"castings_l": volume, "castings_kg": kg._asdict(), "share_pct": percent, "said": told.words}
        as_json.print_json(band)
        return 0
    page = Page(options.ascii)
    mass = f"about {show_mass(kg.low, units)} to {show_mass(kg.high, units)}"
    mix = show_volume(litres, units)
    page.line(f"For {mix} of mix at {percent:g} %: {show_volume(volume, units)} of castings, {mass}.")
    page.line(told.words)
    return 0
