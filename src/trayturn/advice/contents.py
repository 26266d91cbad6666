"""What a tray holds by now, reckoned from what went in, and its readings."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.bands import Band
from trayturn.advice.feeding import feed_next
from trayturn.advice.pantry import Pantry
from trayturn.advice.reading import FEEL_BAND_PCT, moisture_of
from trayturn.domain.stack import Stack, TrayState, days_between
from trayturn.science.blend import Blend, Part, Stuff
from trayturn.science.contents import Leftover, PutIn, leftover
from trayturn.science.water import SOLIDS_LOST

ASSUMED = Band(0.65, 0.75, 0.85)
"""The moisture of a tray nobody looked at: 75 % is the household figure (Solomon, Organic Gardener's
Composting, 1993); the ends are our choice, within the published 60 to 90 % (Edwards 1988)."""
READING_OFF = FEEL_BAND_PCT / 100
"""How far a reading may be off, as a fraction: by feel so much. A meter is not trusted further."""
ROOM_C = 20.0
"""The temperature reckoned with where none was read. Our choice."""
LOST = Band(0.40, SOLIDS_LOST, 0.60)
"""The share of worked solids that leaves as gas: 50 +- 10 % (Pondicherry University)."""
SHREDS = Stuff("bedding", 0.08)
"""Bedding that is not in the table: dry, and nothing more is known of it."""


@dataclass(frozen=True, slots=True)
class Contents:
    """What is in a tray now. `uneaten_kg` is fresh scraps still there, `wet_kg` all of it, both with bands.

    `moisture` is a fraction, `basis` what it rests on. `stuff` is the whole as one thing to blend with;
    `stand_ins` are the names reckoned as something else. `c_to_n` is None where a part of it is not known.
    """

    uneaten_kg: Band
    wet_kg: Band
    moisture: Band
    basis: str
    stuff: Stuff
    stand_ins: tuple[str, ...]
    celsius: float
    celsius_read: bool
    c_to_n: Band | None = None

    @property
    def blend(self) -> Blend:
        """The tray's contents, to mix a meal into. Empty where nothing is in it."""
        return Blend((Part(self.stuff, self.wet_kg.mid),) if self.wet_kg.mid > 0 else ())


def tray_contents(tray: TrayState, stack: Stack, pantry: Pantry) -> Contents:
    """What a tray on the stack holds as of the stack's moment."""
    celsius = ROOM_C if stack.temperature_c is None else stack.temperature_c
    scraps = list(_scraps(tray, stack.as_of, pantry))
    all_in = [*scraps, *_bedding(tray, stack.as_of, pantry)]
    everything = leftover(all_in, celsius)
    uneaten = Band(*leftover(scraps, celsius).uneaten)
    moisture, basis = _moisture(tray, everything)
    stuff = _as_one(tray, everything, moisture.mid)
    wet = _wet(tray, everything, moisture)
    return Contents(
        uneaten,
        wet,
        moisture,
        basis,
        stuff,
        _stand_ins(tray, pantry),
        celsius,
        stack.temperature_c is not None,
        _ratio(all_in, everything),
    )


def uneaten_kg(stack: Stack, pantry: Pantry) -> Band | None:
    """The scraps of the tray to be fed that are still there, as reckoned; None where no tray is fed."""
    tray = stack.tray(feed_next(stack).tray or "")
    return tray_contents(tray, stack, pantry).uneaten_kg if tray is not None and tray.meals else None


def _ratio(all_in: list[PutIn], everything: Leftover) -> Band | None:
    """Carbon to nitrogen: the more of the solids is lost, the lower. The carbon lost goes in step."""
    put_in = Blend(tuple(one.part for one in all_in)).c_kg
    if put_in is None or everything.carbon is None or not everything.nitrogen:
        return None
    gone = (put_in - everything.carbon) / LOST.mid
    return Band(*((put_in - gone * lost) / everything.nitrogen for lost in reversed(LOST)))


def _scraps(tray: TrayState, now: datetime, pantry: Pantry) -> Iterator[PutIn]:
    for meal in tray.meals:
        for name, kg in meal.items_kg.items():
            row, _ = pantry.scraps(name)
            yield PutIn(Part(row.stuff, kg), row.breakdown, max(0.0, days_between(meal.at, now)))


def _bedding(tray: TrayState, now: datetime, pantry: Pantry) -> Iterator[PutIn]:
    """Bedding lies untouched until the tray is fed: it is its worms that work it."""
    fed_since = tray.meals[0].at if tray.meals else now
    from_meals: dict[str, float] = {}
    for meal in tray.meals:
        for name, kg in meal.bedding_kg.items():
            from_meals[name] = from_meals.get(name, 0.0) + kg
            yield _shreds(name, kg, meal.at, now, pantry)
    for name, kg in tray.bedding_kg.items():
        at_start = kg - from_meals.get(name, 0.0)
        if at_start > 1e-9:
            yield _shreds(name, at_start, fed_since, now, pantry)


def _shreds(name: str, kg: float, since: datetime, now: datetime, pantry: Pantry) -> PutIn:
    row = pantry.meant(name)
    known = row is not None and row.moisture is not None and row.breakdown
    stuff, breakdown = (row.stuff, row.breakdown) if row is not None and known else (SHREDS, "slow")
    return PutIn(Part(stuff, kg), breakdown, max(0.0, days_between(since, now)))


def _moisture(tray: TrayState, everything: Leftover) -> tuple[Band, str]:
    """By the last reading, which what was fed since may have raised; otherwise assumed."""
    read = moisture_of(tray)
    if read.percent is None or read.at is None:
        return ASSUMED, "assumed: nobody has read its moisture"
    fraction = read.percent / 100
    fed_since = [meal for meal in tray.meals if meal.at > read.at]
    low, high = fraction - READING_OFF, fraction + READING_OFF
    if not fed_since:
        return _bounded(low, fraction, high), f"its reading of {read.at:%Y-%m-%d}"
    # None of the new water lost is the upper end; the lower is that it has dried back to what was read.
    water = everything.water_in + math.fsum(meal.water_kg or 0.0 for meal in fed_since)
    wettest = water / max(1e-9, water + everything.solids)
    high = max(high, min(wettest, high + 0.05 * len(fed_since)))
    return _bounded(low, (fraction + high) / 2, high), f"its reading of {read.at:%Y-%m-%d}, and meals since"


def _bounded(low: float, mid: float, high: float) -> Band:
    return Band(max(0.05, low), min(0.95, max(0.05, mid)), min(0.95, high))


def _wet(tray: TrayState, everything: Leftover, moisture: Band) -> Band:
    """Weighed since it was last fed, the weight counts; otherwise the solids and their moisture."""
    weighed = tray.gross_kg is not None and tray.weighed_at is not None
    if weighed and (tray.last_fed_at is None or tray.last_fed_at <= (tray.weighed_at or tray.started_at)):
        kg = max(0.0, (tray.gross_kg or 0.0) - tray.empty_kg)
        return Band(kg, kg, kg)
    return Band(*(everything.solids / (1 - share) for share in moisture))


def _as_one(tray: TrayState, everything: Leftover, moisture: float) -> Stuff:
    solids = everything.solids
    if solids <= 0:
        return Stuff(f"tray {tray.id}", moisture)
    wet = solids / (1 - moisture)
    return Stuff(
        f"tray {tray.id}",
        moisture,
        None if everything.nitrogen is None else everything.nitrogen / solids,
        None if everything.carbon is None else everything.carbon / solids,
        min(1.0, everything.salt / wet),
    )


def _stand_ins(tray: TrayState, pantry: Pantry) -> tuple[str, ...]:
    names = dict.fromkeys(name for meal in tray.meals for name in meal.items_kg)
    return tuple(name for name in names if not pantry.scraps(name)[1])
