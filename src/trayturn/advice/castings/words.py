"""A lot of castings in words."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.bands import Band, rough_mass
from trayturn.advice.castings.cocoons import expected, recovered
from trayturn.advice.castings.stages import Next, jar_use_by, next_for, use_by
from trayturn.advice.phrases import aged, when
from trayturn.domain.entries import LotStage
from trayturn.domain.lots import Lot
from trayturn.domain.stack import Stack, days_between
from trayturn.domain.units import show_mass, two_figures
from trayturn.domain.words import clean, count
from trayturn.domain.words import due as in_days

NOTHING_YET = (
    "No castings are kept here yet.",
    "Settling a separation begins a lot: its castings go to the hatch tub first. a begins one by hand.",
)
SHARES = "10 to 20 % of a mix by volume is usual; above 30 % is too much, and never more than half."


def lot_line(lot: Lot, stack: Stack) -> str:
    """`C1  hatching 12 days  2.5 kg`."""
    age = aged(days_between(lot.stage_since, stack.as_of))
    mass = show_mass(lot.left_kg, stack.setup.units) if lot.left_kg is not None else "not weighed"
    return f"{lot.code}: {lot.stage}, {age}; {mass}"


def next_line(coming: Next | None, stack: Stack) -> str:
    """What comes next, and when."""
    if coming is None:
        return "Nothing of it is left."
    if coming.due is None:
        return coming.what
    now = coming.due <= stack.as_of
    return f"{coming.what} {'Now.' if now else f'{in_days(coming.due, stack.as_of).capitalize()}.'}"


def lot_story(lot: Lot, stack: Stack) -> list[str]:
    """All that is known of a lot, the next thing first."""
    return [next_line(next_for(lot, stack), stack), *_story(lot, stack)]


def _story(lot: Lot, stack: Stack) -> Iterator[str]:
    units, now = stack.setup.units, stack.as_of
    began = f"Taken {when(lot.begun_at, now)}"
    weight = f", {show_mass(lot.begun_kg, units)} wet" if lot.begun_kg else ""
    tray = f" from tray {lot.tray}" if lot.tray else ""
    place = f" It stands in {clean(lot.place, 60)}." if lot.place else ""
    yield f"{began}{tray}{weight}.{place}"
    if lot.moisture_pct is not None and lot.moisture_at is not None:
        yield f"Moisture {lot.moisture_pct:.0f} %, read {when(lot.moisture_at, now)}."
    yield from _young(lot, stack)
    for one in lot.sieved:
        passed = f", {show_mass(one.passed_kg, units)} fell through" if one.passed_kg is not None else ""
        stayed = f", {show_mass(one.oversize_kg, units)} stayed on it" if one.oversize_kg is not None else ""
        yield f"Sieved at {one.mesh_mm:g} mm {when(one.at, now)}{passed}{stayed}."
    yield from _kept(lot, stack)
    yield from _gone(lot, stack)


def _young(lot: Lot, stack: Stack) -> Iterator[str]:
    if lot.stage is LotStage.HATCHING and (found := expected(lot, stack)) is not None:
        young = f", and {_number(found.young)} young in all" if found.young is not None else ""
        yield f"Cocoons in it when taken: {_number(found.cocoons)}{young} ({found.basis})."
    for lure in lot.lures[-1:]:
        bait = f" ({clean(lure.bait, 40)})" if lure.bait else ""
        yield f"Bait{bait} laid {when(lure.at, stack.as_of)}."
    if lot.hatchlings:
        yield f"{count(recovered(lot), 'hatchling')} lifted out in {count(len(lot.hatchlings), 'time')}."


def _number(band: Band) -> str:
    """A band of counts to two figures: `120 to 900`."""
    return f"{two_figures(band.low):,.0f} to {two_figures(band.high):,.0f}"


def _kept(lot: Lot, stack: Stack) -> Iterator[str]:
    units = stack.setup.units
    for jar in sorted(lot.jars.values(), key=jar_use_by):
        if jar.left_kg > 0:
            yield (
                f"{count(jar.count, 'jar')} {clean(jar.label, 30)}: {show_mass(jar.left_kg, units)} left of "
                f"{show_mass(jar.kg, units)}, use by {jar_use_by(jar):%Y-%m-%d}."
            )
    if lot.stage is LotStage.READY and not lot.jars:
        yield f"Use by {use_by(lot):%Y-%m-%d} (60 days; Harit et al. 2014). Keep it damp, with air."


def _gone(lot: Lot, stack: Stack) -> Iterator[str]:
    units, now = stack.setup.units, stack.as_of
    for used in lot.used:
        what = rough_mass(used.kg, units) if used.kg else "some"
        share = f" at {used.share_pct:g} % of the mix" if used.share_pct is not None else ""
        place = f" for {clean(used.where, 40)}" if used.where else ""
        yield f"Used {when(used.at, now)}: {what}{place}{share}."
    for given in lot.given:
        what = rough_mass(given.kg, units) if given.kg else "some"
        to = f" to {clean(given.to, 40)}" if given.to else ""
        yield f"{'Sold' if given.sold else 'Given away'} {when(given.at, now)}: {what}{to}."
