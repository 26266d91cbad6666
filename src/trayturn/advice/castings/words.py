"""A lot of castings in words."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.bands import Band, rough_mass
from trayturn.advice.castings.cocoons import expected, not_told, recovered, share_recovered
from trayturn.advice.castings.coming import next_line
from trayturn.advice.castings.drying import (
    SIEVES_BELOW_PCT,
    by_weight,
    moisture_now,
    share_passed,
    sieves_at_kg,
)
from trayturn.advice.castings.stages import KEEPS_FOR, jar_use_by, next_for, use_by
from trayturn.advice.phrases import days_since, when
from trayturn.domain.entries import LotStage, Sieved
from trayturn.domain.lots import LEAST_KG, Jar, Lot
from trayturn.domain.stack import Stack
from trayturn.domain.units import show_mass, two_figures
from trayturn.domain.words import clean, count

NOTHING_YET = (
    "No castings are kept here yet.",
    "Settling a separation begins a lot: its castings go to the hatch tub first. a begins one by hand.",
)
TAKE_UP = (
    "These castings came out of a past separation, and are kept as no lot yet.",
    "Space takes them up as they were then: cocoons, drying, jars and use are followed from there.",
)
KEPT = "Harit et al. 2014"


def lot_line(lot: Lot, stack: Stack) -> str:
    """`C1: hatching, 12 days; 2.5 kg`."""
    days = days_since(lot.stage_since, stack.as_of)
    age = count(days, "day") if days else "since today"
    return f"{lot.code}: {lot.stage}, {age}; {left_words(lot, stack)}"


def left_words(lot: Lot, stack: Stack) -> str:
    """What is left of it."""
    return "not weighed" if lot.left_kg is None else show_mass(lot.left_kg, stack.setup.units)


def jars_left(lot: Lot) -> int:
    """Jars and bags that still hold something."""
    return sum(jar.count for jar in lot.jars.values() if jar.left_kg > 0)


def lot_story(lot: Lot, stack: Stack) -> list[str]:
    """All that is known of a lot, the next thing first."""
    return [next_line(next_for(lot, stack), stack), *_story(lot, stack)]


def reason(lot: Lot, stack: Stack) -> list[str]:
    """Why that comes next, and then all that is known of the lot."""
    coming = next_for(lot, stack)
    why = [*coming.why, ""] if coming is not None else []
    return [*why, *_story(lot, stack)]


def _story(lot: Lot, stack: Stack) -> Iterator[str]:
    units, now = stack.setup.units, stack.as_of
    weight = f", {show_mass(lot.begun_kg, units)} wet" if lot.begun_kg else ""
    tray = f" from tray {lot.tray}" if lot.tray else ""
    place = f" It stands in {clean(lot.place, 60)}." if lot.place else ""
    yield f"Taken {when(lot.begun_at, now)}{tray}{weight}.{place}"
    yield from _young(lot, stack)
    if lot.stage in (LotStage.HATCHING, LotStage.DRYING):
        yield from _moisture(lot, stack)
    for one in lot.sieved:
        yield _sieved(one, stack)
    yield from _kept(lot, stack)
    yield from _gone(lot, stack)


def _sieved(one: Sieved, stack: Stack) -> str:
    """`Sieved at 4 mm today, 2 kg fell through, 500 g stayed on it and went to tray D: 80 % passed.`"""
    units, to = stack.setup.units, clean(one.oversize_to, 40)
    passed = f", {show_mass(one.passed_kg, units)} fell through" if one.passed_kg is not None else ""
    stayed = f", {show_mass(one.oversize_kg, units)} stayed on it" if one.oversize_kg is not None else ""
    went = f"{' and' if stayed else ', what stayed on it'} went to {to}" if to else ""
    share = share_passed(one.passed_kg, one.oversize_kg)
    through = f": {100 * share:.0f} % passed" if share is not None else ""
    return f"Sieved at {one.mesh_mm:g} mm {when(one.at, stack.as_of)}{passed}{stayed}{went}{through}."


def _moisture(lot: Lot, stack: Stack) -> Iterator[str]:
    now = moisture_now(lot)
    if lot.moisture_pct is None or lot.moisture_at is None or now is None:
        return
    by = f"; {now:.0f} % now, by its weight" if by_weight(lot) else ""
    yield f"Moisture {lot.moisture_pct:.0f} %, read {when(lot.moisture_at, stack.as_of)}{by}."
    target = sieves_at_kg(lot)
    if target is not None:
        weighs = rough_mass(target, stack.setup.units)
        yield f"At {SIEVES_BELOW_PCT:.0f} %, dry enough to sieve, it weighs {weighs}."


def _young(lot: Lot, stack: Stack) -> Iterator[str]:
    found = expected(lot, stack)
    if lot.stage is LotStage.HATCHING and found is None:
        yield not_told(lot, stack)
    if lot.stage is LotStage.HATCHING and found is not None:
        young = f", and {numbers(found.young)} young in all" if found.young is not None else ""
        yield f"Cocoons in it when taken: {numbers(found.cocoons)}{young} ({found.basis})."
    for lure in lot.lures[-1:]:
        bait = f" ({clean(lure.bait, 40)})" if lure.bait else ""
        yield f"Bait{bait} laid {when(lure.at, stack.as_of)}."
    times = count(len(lot.hatchlings), "time")
    if lot.hatchlings and all(one.counted is None for one in lot.hatchlings):
        yield f"Hatchlings lifted out {times}, not counted."
    elif lot.hatchlings:
        yield f"{count(recovered(lot), 'hatchling')} lifted out in {times}{_of_expected(lot, stack)}."


def _of_expected(lot: Lot, stack: Stack) -> str:
    """`, 2 to 30 % of the young to be expected`."""
    share = share_recovered(lot, stack)
    if share is None:
        return ""
    low, high = (f"{two_figures(100 * one):g}" for one in share)
    return f", {low} to {high} % of the young to be expected" if low != high else ", all that were expected"


def numbers(band: Band) -> str:
    """A band of counts to two figures: `120 to 900`."""
    return f"{two_figures(band.low):,.0f} to {two_figures(band.high):,.0f}"


def _kept(lot: Lot, stack: Stack) -> Iterator[str]:
    units = stack.setup.units
    for jar in sorted(lot.jars.values(), key=jar_use_by):
        if jar.left_kg > 0:
            yield (
                f"{_labelled(jar)}: {show_mass(jar.left_kg, units)} left of "
                f"{show_mass(jar.kg, units)}, use by {jar_use_by(jar):%Y-%m-%d}, as packed."
            )
    if lot.kg is None or lot.kg >= LEAST_KG:
        yield keeping(lot)


def keeping(lot: Lot) -> str:
    """By when what is loose of a lot is best used, and what that rests on."""
    by = use_by(lot)
    if by is None:
        return f"Best used within {KEEPS_FOR.days} days of being ready ({KEPT})."
    loose = "What is loose: use" if lot.jars else "Use"
    since = f"{KEEPS_FOR.days} days from being ready ({KEPT})"
    return f"{loose} by {by:%Y-%m-%d}, {since}. Keep it damp, with air."


def _labelled(jar: Jar) -> str:
    """`tall jar`, or `3 x tall jar`."""
    label = clean(jar.label, 30)
    return label if jar.count == 1 else f"{jar.count} x {label}"


def _gone(lot: Lot, stack: Stack) -> Iterator[str]:
    units, now = stack.setup.units, stack.as_of
    for used in lot.used:
        what = rough_mass(used.kg, units) if used.kg else "some"
        share = f" at {used.share_pct:g} % of the mix" if used.share_pct is not None else ""
        more = ", more than advised" if used.despite else ""
        place = f" for {clean(used.where, 40)}" if used.where else ""
        yield f"Used {when(used.at, now)}: {what}{place}{share}{more}."
    for given in lot.given:
        what = rough_mass(given.kg, units) if given.kg else "some"
        to = f" to {clean(given.to, 40)}" if given.to else ""
        yield f"{'Sold' if given.sold else 'Given away'} {when(given.at, now)}: {what}{to}."
