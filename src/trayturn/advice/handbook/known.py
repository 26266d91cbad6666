"""The figures that the program reckons with, by the names under which the pages ask for them.

So a page and the code cannot say two things. Fractions are 0 to 1, the rest is SI; lifts are kg, and with
`.us` the pounds of the equation's own US form.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from trayturn.advice import contents, reading, starting
from trayturn.advice.castings import drying, use
from trayturn.advice.stock import thumb
from trayturn.domain.setup import BinSetup
from trayturn.science import (
    bodies,
    breakdown,
    growth,
    hatching,
    laying,
    lifting,
    limits,
    materials,
    ration,
    removal,
    temperature,
    water,
)
from trayturn.science.process import rate_table

SAMPLE_KG, SAMPLE_MOISTURE, KEPT = 1.0, 0.85, 0.70
"""The worked example of water: scraps of that moisture, and castings of that."""
PICKS = (79, 28)
HATCH_C = (15.0, 20.0, 25.0)
GONE_C = (10.0, 20.0)
SPEED_C = (5.0, 10.0, 15.0, 25.0)
LIFTS = {
    "close": (25, 75, 75, 0),
    "stack": (40, 60, 75, 0),
    "far": (60, 75, 75, 0),
    "floor": (40, 20, 75, 0),
    "high": (40, 75, 150, 0),
    "twist": (40, 75, 75, 45),
}
"""Lifts told of: reach, hands at first and at the end in cm, and twist in degrees; all with a poor grip."""
LIFTS_US = {
    "close": (10, 30, 30, 0),
    "stack": (16, 24, 30, 0),
    "far": (24, 30, 30, 0),
    "floor": (16, 8, 30, 0),
    "high": (16, 30, 60, 0),
    "twist": (16, 30, 30, 45),
}
"""The same in inches, as round as they are in cm."""


@cache
def known() -> dict[str, float]:
    """Every figure by its name."""
    return dict(_all())


def _all() -> Iterator[tuple[str, float]]:
    yield from _limits()
    yield from _feeding()
    yield from _water()
    yield from _counting()
    yield from _bin()
    yield from _times()
    yield from _lifts()
    yield from _rates()


def _limits() -> Iterator[tuple[str, float]]:
    yield "coldest", temperature.COLDEST
    yield "warmest", temperature.WARMEST
    yield "cooked", temperature.COOKED
    yield "driest", limits.DRIEST
    yield "wettest", limits.WETTEST
    yield "saltiest", limits.SALTIEST
    yield "least_cn", limits.LEAST_C_TO_N
    yield "best_cn", limits.BEST_C_TO_N
    yield "deepest", limits.DEEPEST_M
    yield "feel.band", reading.FEEL_BAND_PCT
    for feel, percent in reading.FEEL_PCT.items():
        yield f"feel.{feel}", percent / 100
    for row in materials.load_materials().rows:
        if row.salt is not None:
            yield f"salt.{row.id}", row.salt
            if row.id == "bread_white":
                yield "bread.parts", row.salt / limits.SALTIEST - 1


def _feeding() -> Iterator[tuple[str, float]]:
    yield "norm.low", ration.NORM[0]
    yield "norm.high", ration.NORM[1]
    yield "optimum", ration.OPTIMUM
    yield "ceiling", ration.CEILING
    yield "stocking", ration.STOCKING_KG_M2
    yield "area_rule", ration.AREA_KG_M2_WEEK
    yield "mature.20", growth.days_to_mature(20.0) or 0.0
    body = bodies.KNOWN["eisenia_fetida"]
    yield "body.low", body.grams[0]
    yield "body.high", body.grams[1]


def _water() -> Iterator[tuple[str, float]]:
    over = water.surplus(SAMPLE_KG, SAMPLE_MOISTURE, KEPT)
    yield "surplus", over
    yield "surplus.paper", water.bedding_for(over, water.HOLDS["newspaper"].low)
    yield "soaked", water.SOAKED
    yield "solids_lost", water.SOLIDS_LOST
    yield "sieves", drying.SIEVES_BELOW_PCT / 100
    yield "castings.low", 1000 * use.KG_L.low
    yield "castings.high", 1000 * use.KG_L.high
    yield "stays.low", 1 - contents.LOST.high
    yield "stays.high", 1 - contents.LOST.low
    for name, holding in water.HOLDS.items():
        yield f"holds.{name}.low", holding.low
        yield f"holds.{name}.high", holding.high


def _counting() -> Iterator[tuple[str, float]]:
    """Seber 2002, example 7.4."""
    found = removal.two_pass(PICKS)
    yield from (("pick.n", found.n), ("pick.low", found.low), ("pick.high", found.high))


def _bin() -> Iterator[tuple[str, float]]:
    area, depth = _usual("tray_area_m2"), _usual("tray_depth_m")
    yield "tray.area", area
    yield "tray.depth", depth
    yield "tray.litres", 1000 * area * depth
    for end, kg_m3 in (("low", thumb.LOOSE_KG_M3.low), ("high", thumb.LOOSE_KG_M3.high)):
        yield f"tray.bedding.{end}", area * depth * kg_m3
        yield f"tray.water.{end}", area * depth * kg_m3 * water.SOAKED
        yield f"tray.cover.{end}", area * thumb.COVER_M * kg_m3
        yield f"loose.{end}", kg_m3
    worms_kg = area * ration.STOCKING_KG_M2
    yield "tray.worms", worms_kg
    number = bodies.number_in(worms_kg, "eisenia_fetida") or ()
    yield from zip(("tray.count.low", "tray.count.high"), number, strict=True)
    yield "tray.norm.low", worms_kg * ration.NORM[0]
    yield "tray.norm.high", worms_kg * ration.NORM[1]
    yield "tray.area_rule", ration.area_rule(area)
    for name in ("turns", "feedings", "checks"):
        yield f"every.{name}", _usual(f"days_between_{name}")
    yield "loosen", _usual("loosen_minutes")
    yield "rest", _usual("rest_minutes")
    yield "grit.low", thumb.GRIT_KG.low
    yield "grit.high", thumb.GRIT_KG.high
    yield "meal.first", starting.SHARES[0]
    yield "meal.second", starting.SHARES[1]


def _usual(setting: str) -> float:
    """What a new bin is set to."""
    return float(BinSetup.model_fields[setting].default)


def _times() -> Iterator[tuple[str, float]]:
    for species in hatching.KNOWN:
        for celsius in HATCH_C:
            if (hatch := hatching.hatch(celsius, species)) is not None:
                for name, band in (("half", hatch.half), ("most", hatch.most)):
                    yield f"hatch.{species}.{celsius:g}.{name}.low", band[0]
                    yield f"hatch.{species}.{celsius:g}.{name}.high", band[1]
    for name, laid in laying.KNOWN.items():
        yield f"laid.{name}.low", laid.low
        yield f"laid.{name}.high", laid.high
    for speed in breakdown.RATES:
        for celsius in GONE_C:
            if (gone := breakdown.days_until_gone(speed, celsius)) is not None:
                yield f"gone.{speed}.{celsius:g}.low", gone[0]
                yield f"gone.{speed}.{celsius:g}.high", gone[1]
    for celsius in SPEED_C:
        low, high = temperature.speed_band(celsius, ration.REFERENCE_C)
        yield f"speed.{celsius:g}.low", low
        yield f"speed.{celsius:g}.high", high


def _lifts() -> Iterator[tuple[str, float]]:
    for form, lifts, unit in ((lifting.METRIC, LIFTS, ""), (lifting.US, LIFTS_US, ".us")):
        for name, (reach, start, end, twist) in lifts.items():
            both = lifting.lift(0, reach, start, end, twist_deg=twist, form=form)
            yield f"lift.{name}{unit}", min(one.rwl for one in both)
        yield f"lift.most{unit}", form.load


def _rates() -> Iterator[tuple[str, float]]:
    """Of the outlook: each rate's middle, and by what it is multiplied or divided."""
    for rate in rate_table.RATES:
        yield f"rate.{rate.name}", rate.median
        yield f"spread.{rate.name}", rate.spread
