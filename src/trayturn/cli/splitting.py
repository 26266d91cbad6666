"""`split`: worms moved from one bin to another, written in both journals or in neither."""

from __future__ import annotations

from argparse import Namespace
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.splitting import SplitAdvice, half_of, split_advice, weight_of, why_no_weight
from trayturn.cli import amounts, as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import find_path, open_bin, readable
from trayturn.cli.parsing import Refused, moment_asked
from trayturn.clock import Clock
from trayturn.domain.entries import Entry
from trayturn.domain.profile import Profile
from trayturn.domain.replay import present, replay
from trayturn.domain.units import show_mass
from trayturn.procedure.splitting import CannotSplit, Split, split_between, split_off
from trayturn.science.errors import OutOfRange
from trayturn.storage.managing import checked_name
from trayturn.storage.pair import Fresh, append_and_create, append_both
from trayturn.storage.reading import Loaded, load

MOST = 1_000_000


@dataclass(frozen=True)
class Moved:
    """What was written: both bins as they stand now, and the entries of each."""

    one: Loaded
    other: Loaded
    out: list[Entry]
    into: list[Entry]


def split(options: Namespace, clock: Clock) -> int:
    """Move the worms, and say how both bins stand after it."""
    now = clock()
    loaded = open_bin(options)
    profile = readable(loaded)
    if (options.other is None) == (options.new is None):
        raise Refused("Name the bin they go to, or a new one with --new NAME.")
    what = _asked(options, profile, now)
    other = load(find_path(options, options.other)) if options.other is not None else None
    advice = _advice(profile, other, options, what)
    try:
        moved = _to(loaded, other, what, now) if other else _to_a_new_bin(loaded, options.new, what, now)
    except CannotSplit as refused:
        raise Refused(f"Nothing was saved. {refused}") from None
    if options.json:
        as_json.print_json(_data(moved, advice))
    else:
        _print(moved, advice, what, Page(options.ascii))
    return 0


def _asked(options: Namespace, profile: Profile, now: datetime) -> Split:
    """What was typed. Raises `Refused`."""
    at = moment_asked(options, now)
    if at > present(profile, now):
        raise Refused(f"--at {options.at} has not come yet: it is {now:%Y-%m-%d %H:%M}.")
    kg = _kilograms(options, profile, at)
    return Split(at, kg, options.count, _tray(options.tray, profile), note=options.note)


def _kilograms(options: Namespace, profile: Profile, at: datetime) -> float:
    units, half = profile.bin.units, half_of(replay(profile, at))
    if (options.worms is None) == (options.count is None):
        hint = f" Half by weight would be about {show_mass(half, units)}." if half else ""
        raise Refused(f"Say how many worms go, by --worms MASS or by --count N.{hint}")
    if options.count is None:
        kg = amounts.mass(options.worms, "--worms", units) or 0.0
        if not 0 < kg <= 1000:
            raise Refused(
                f"--worms needs more than nothing and at most 1000 kg, and {options.worms!r} is not."
            )
        return kg
    if not 1 <= options.count <= MOST:
        raise Refused(f"--count needs to be from 1 to {MOST:,}, and {options.count} is not.")
    band = weight_of(options.count, profile.bin.species)
    if band is None:
        raise Refused(f"--count: {why_no_weight(profile.bin.species)}")
    return band.mid


def _tray(text: str | None, profile: Profile) -> str | None:
    """The tray as the profile writes it, whatever the case it was typed in."""
    return next((t.id for t in profile.trays if text and t.id.casefold() == text.casefold()), text)


def _advice(profile: Profile, other: Loaded | None, options: Namespace, what: Split) -> SplitAdvice:
    stack = replay(profile, what.at)
    there = replay(readable(other), what.at) if other is not None else None
    name = there.setup.name if there is not None else options.new
    try:
        return split_advice(stack, there, name, what.worms_kg, what.counted)
    except OutOfRange as slip:
        raise Refused(str(slip)) from None


def _to(loaded: Loaded, other: Loaded, what: Split, now: datetime) -> Moved:
    written: list[list[Entry]] = []

    def choose(one: Profile, two: Profile) -> tuple[list[Entry], list[Entry]]:
        written[:] = split_between(one, two, what, now)
        return written[0], written[1]

    one, two = append_both(loaded, other, choose)
    return Moved(one, two, *written)


def _to_a_new_bin(loaded: Loaded, name: str, what: Split, now: datetime) -> Moved:
    written: list[list[Entry]] = []
    wanted = checked_name(name)

    def choose(one: Profile) -> tuple[list[Entry], Fresh]:
        out, setup, trays, into = split_off(one, wanted, what, now)
        written[:] = [out, into]
        return out, Fresh(setup, trays, tuple(into))

    one, made = append_and_create(loaded, choose)
    return Moved(one, made, *written)


def _data(moved: Moved, advice: SplitAdvice) -> as_json.Data:
    one, other = readable(moved.one), readable(moved.other)
    return {
        "bin": moved.one.key,
        "name": one.bin.name,
        "path": str(moved.one.path),
        "entries": [as_json.entry(entry) for entry in moved.out],
        "other": moved.other.key,
        "other_name": other.bin.name,
        "other_path": str(moved.other.path),
        "other_entries": [as_json.entry(entry) for entry in moved.into],
        "worms_kg": as_json.amount(advice.worms_kg),
        "worms_number": advice.number and {"low": round(advice.number[0]), "high": round(advice.number[1])},
        "worms_left_kg": as_json.amount(advice.one.worms_kg) if advice.one else None,
        "left_against_best": as_json.amount(advice.one.times) if advice.one else None,
        "worms_there_kg": as_json.amount(advice.other.worms_kg),
        "there_against_best": as_json.amount(advice.other.times),
        "why": list(advice.lines),
    }


def _print(moved: Moved, advice: SplitAdvice, what: Split, page: Page) -> None:
    one, other = readable(moved.one).bin, readable(moved.other).bin
    mass = show_mass(advice.worms_kg, one.units)
    along = f" with tray {what.along}" if what.along else ""
    page.line(f"Moved {mass} of worms{along} from {one.name} to {other.name}, {what.at:%Y-%m-%d %H:%M}.")
    page.path("In", moved.one.path)
    page.path("In", moved.other.path)
    page.lines(advice.lines, 2, 2)
    if not replay(readable(moved.other), what.at).trays:
        page.line(f"{other.name} has no tray yet; what it begins with: trayturn begin {moved.other.key}")
    page.line("To take it back in both:")
    page.command(f"trayturn log {moved.one.key} undo")
