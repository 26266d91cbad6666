"""What comes next for a lot of castings, and when."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.castings.cocoons import hatching_times
from trayturn.advice.castings.drying import SIEVES_BELOW_PCT, mesh_words, moisture_now
from trayturn.advice.due.hatching import BAIT, warmth_words
from trayturn.advice.pages import Page
from trayturn.domain.entries import LotStage
from trayturn.domain.lots import LEAST_KG, Jar, Lot
from trayturn.domain.stack import Stack
from trayturn.domain.words import day
from trayturn.domain.words import due as in_days

LIFT_EVERY = timedelta(days=7)
"""Between two looks at the bait. Common practice, no source."""
DRY_FOR = timedelta(days=14)
"""Too wet to sieve: wait two weeks or more (grower guidance)."""
READ_AGAIN = timedelta(days=7)
"""Until castings that dry are read or weighed again. Our choice."""
CURE_FOR = timedelta(days=14)
"""How long castings stand after sieving. No source was found; our choice."""
KEEPS_FOR = timedelta(days=60)
"""Castings kept their properties for so long (Harit et al. 2014)."""
USE_AHEAD = timedelta(days=14)
"""How long before that day it is told of. Our choice."""


@dataclass(frozen=True, slots=True)
class Next:
    """The next thing for one lot: a code, what to do, since when it can be done, and why."""

    code: str
    what: str
    due: datetime | None
    why: tuple[str, ...]
    page: Page


def next_for(lot: Lot, stack: Stack) -> Next | None:
    """What comes next for a lot; None once nothing of it is left."""
    if lot.closed_at is not None:
        return None
    if lot.left_kg is not None and lot.left_kg < LEAST_KG:
        done = ("By what was weighed and used nothing is left of it.",)
        return Next("close", f"Lot {lot.code} is used up: close it.", lot.begun_at, done, Page.CASTINGS)
    return {
        LotStage.HATCHING: _hatching,
        LotStage.DRYING: _drying,
        LotStage.CURING: _curing,
        LotStage.READY: _ready,
    }[lot.stage](lot, stack)


def _hatching(lot: Lot, stack: Stack) -> Next:
    times = hatching_times(stack)
    if times is None:
        cold = (f"{warmth_words(stack)} By what is published no cocoon hatches at that.",)
        return Next("warmth", f"Keep lot {lot.code} at room warmth: cocoons wait.", None, cold, Page.HATCHING)
    lure, half, most = (
        lot.begun_at + timedelta(days=days)
        for days in (math.floor(times.half[0]), math.ceil(times.half[1]), math.floor(times.most[1]))
    )
    why = (
        f"Of the cocoons laid last, half of those that hatch have done so {_days(times.half)} days after, "
        f"and most (95 %) {_days(times.most)} days after.",
        warmth_words(stack),
        times.why,
    )
    seen = [*(one.at for one in lot.lures), *(one.at for one in lot.hatchlings)]
    look = max(seen) + LIFT_EVERY if seen else None
    if stack.as_of >= half and _none_come(lot):
        none = "None came to the bait at the last two looks; a few cocoons may hatch later still."
        return Next("dry", f"Let lot {lot.code} dry.", lot.hatchlings[-1].at, (none, *why), Page.CASTINGS)
    if look is None and stack.as_of < most:
        return Next("lure", f"Lay a bait on lot {lot.code}.", lure, (BAIT, *why), Page.HATCHING)
    if look is not None and look < most:
        return Next("look", f"Lift hatchlings out of lot {lot.code}.", look, (BAIT, *why), Page.HATCHING)
    over = f"Lot {lot.code} has hatched out: let it dry."
    return Next("dry", over if most <= stack.as_of else f"Let lot {lot.code} dry.", most, why, Page.CASTINGS)


def _none_come(lot: Lot) -> bool:
    """Whether the last two looks found none: counted, and not merely left open."""
    last = lot.hatchlings[-2:]
    return len(last) == 2 and all(one.counted == 0 and not one.worms_kg for one in last)


def _days(band: tuple[float, float]) -> str:
    return f"{math.floor(band[0])} to {math.ceil(band[1])}"


def _drying(lot: Lot, stack: Stack) -> Next:
    now = moisture_now(lot)
    why = (
        f"In a trial a drum sieved 80 to 95 % of castings at 40 to {SIEVES_BELOW_PCT:.0f} % moisture "
        "(Manyuchi & Phiri 2013). Too wet to sieve: let it stand two weeks or more (grower guidance).",
        mesh_words(stack.setup.units),
        "Spread thin, in the shade, turned now and then (common practice, no source). Dry castings dust: "
        "sprinkle gently, let air move, wear a mask.",
    )
    read = [at for at in (lot.moisture_at, lot.weighed_at) if at is not None]
    since = max((*read, lot.stage_since))
    if now is None:
        return Next("sieve", f"Sieve lot {lot.code}.", lot.stage_since + DRY_FOR, why, Page.SEPARATING)
    if now <= SIEVES_BELOW_PCT:
        dry = f"At {now:.0f} % lot {lot.code} is dry enough: sieve it."
        return Next("sieve", dry, since, why, Page.SEPARATING)
    wet = f"Weigh lot {lot.code} or read its moisture again."
    return Next("weigh", wet, since + READ_AGAIN, why, Page.CASTINGS)


def _curing(lot: Lot, stack: Stack) -> Next:
    why = (
        "How long to cure: no source was found. Two weeks is our choice; a smell of earth is the sign "
        "(common practice, no source).",
    )
    return Next("ready", f"Lot {lot.code} is ready to use.", lot.stage_since + CURE_FOR, why, Page.CASTINGS)


def _ready(lot: Lot, stack: Stack) -> Next:
    why = (
        "Castings held their properties for 60 days; later their water-holding fell by 82 % and their "
        "nitrogen by 49 % (Harit et al. 2014, castings of Eudrilus eugeniae).",
        "So 60 days is by when they are best used, not when they spoil. Keep them damp, in what lets air in.",
    )
    if not lot.jars and (lot.kg is None or lot.kg > 0):
        return Next("pack", f"Fill lot {lot.code} into jars or use it.", lot.stage_since, why, Page.CASTINGS)
    first = first_use_by(lot)
    if first is None:
        return Next("use", f"Use lot {lot.code}.", None, why, Page.CASTINGS)
    what = f"Use lot {lot.code} by {day(first, stack.as_of)}, {in_days(first, stack.as_of)}."
    return Next("use", what, first - USE_AHEAD, why, Page.CASTINGS)


def use_by(lot: Lot) -> datetime | None:
    """By when a lot is best used: 60 days from being ready; None as long as it is not."""
    return lot.stage_since + KEEPS_FOR if lot.stage is LotStage.READY else None


def filled_use_by(lot: Lot, at: datetime) -> datetime:
    """By when jars filled from it then are best used: as the lot itself, or 60 days where it is not ready."""
    return use_by(lot) or at + KEEPS_FOR


def jar_use_by(jar: Jar) -> datetime:
    """By when a jar is best used: as it was packed."""
    return jar.use_by or jar.packed_at + KEEPS_FOR


def first_use_by(lot: Lot) -> datetime | None:
    """The earliest of those days, of jars that hold something and of what is loose once that is ready."""
    days = [jar_use_by(jar) for jar in lot.jars.values() if jar.left_kg > 0]
    loose = use_by(lot) if lot.kg is None or lot.kg >= LEAST_KG else None
    return min([*days, *([loose] if loose is not None else [])], default=None)


def open_lots(stack: Stack) -> tuple[Lot, ...]:
    """The lots of which something is left: the ready ones, to be used first on top; then the oldest."""
    return tuple(sorted((lot for lot in stack.lots if lot.closed_at is None), key=_order))


def _order(lot: Lot) -> tuple[bool, datetime, str]:
    first = first_use_by(lot) if lot.stage is LotStage.READY else None
    return lot.stage is not LotStage.READY, first or lot.begun_at, lot.code


def nexts(stack: Stack) -> Iterator[tuple[Lot, Next]]:
    """Every open lot with what comes next."""
    for lot in open_lots(stack):
        if (coming := next_for(lot, stack)) is not None:
            yield lot, coming
