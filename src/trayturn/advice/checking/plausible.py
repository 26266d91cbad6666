"""Readings that cannot be, and readings that hardly can: what is wrong, and what was meant perhaps.

What cannot be is refused. What hardly can be is asked about once, and kept where the keeper says so.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from trayturn.advice.checking.kinds import Kind, Readings, Value, value_of
from trayturn.advice.checking.scene import Scene
from trayturn.advice.pantry import shipped_pantry
from trayturn.domain.entries import Checked
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.units import show_mass, show_temperature, show_volume, three_figures

HEAVIEST_KG = 1000.0
DENSEST_KG_L, DENSE_KG_L = 2.0, 1.2
"""Denser than wet sand cannot be; castings are 0.7 to 0.9 kg/l as India's Fertiliser (Control) Order 1985 is
quoted, and wetter ones no more than this. The two are our choice."""
FAR_OFF = 2.0
"""How many times the estimate a weight may be, or the estimate the weight, before it is asked about."""
DRIEST_PCT, WETTEST_PCT = 8.0, 95.0
"""Shredded cardboard as bought holds about 8 % water; above 95 % a tray is soup. Our choice."""
WARMEST_C, COLDEST_C = 40.0, -2.0
"""Hotter or colder than worms can have lived in for long. Our choice, outside any published limit."""
LIVED_IN_C = (0.0, 40.0)
"""What a reading in the other scale has to come to for that to be the likelier meaning."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """What is wrong with a reading. `instead` is what was meant perhaps, in the reading's own unit."""

    kind: Kind
    impossible: bool
    what: str
    instead: float | None = None


def doubt(kind: Kind, value: Value, scene: Scene) -> Doubt | None:
    """What is wrong with that reading of this bin; None where it is believable."""
    if isinstance(value, str | tuple) or kind not in ASKED:
        return None
    return ASKED[kind](value, scene)


def doubts_of(readings: Readings, scene: Scene) -> list[Doubt]:
    """What is wrong with each of these readings, those that cannot be first."""
    found = [one for kind, value in readings.items() if (one := doubt(kind, value, scene)) is not None]
    return sorted(found, key=lambda one: not one.impossible)


def of_entry(check: Checked, stack: Stack) -> list[Doubt]:
    """What is wrong with the readings of a check that is about to be written down."""
    tray = stack.tray(check.tray) if check.tray else None
    read = {kind: value for kind in Kind if (value := value_of(check, kind)) is not None}
    return doubts_of(read, Scene(stack, tray, {}, shipped_pantry()))


def cannot_be(check: Checked, stack: Stack) -> str | None:
    """The first reading of a check that is refused, in a sentence."""
    return next((one.what for one in of_entry(check, stack) if one.impossible), None)


def _moisture(percent: float, scene: Scene) -> Doubt | None:
    if not 0 <= percent <= 100:
        return Doubt(Kind.MOISTURE, True, f"{three_figures(percent)} % cannot be: it is from 0 to 100.")
    shown = f"{three_figures(percent)} %"
    if percent < 1 and DRIEST_PCT <= 100 * percent <= WETTEST_PCT:
        meant = f"{three_figures(100 * percent)} %"
        return Doubt(Kind.MOISTURE, False, f"{shown} is as good as none. Was it {meant}?", 100 * percent)
    if percent < DRIEST_PCT:
        what = f"{shown} is drier than dry cardboard (8 %). A meter's own scale to 10 is not percent."
        return Doubt(Kind.MOISTURE, False, what)
    if percent > WETTEST_PCT:
        return Doubt(Kind.MOISTURE, False, f"{shown} would be more soup than bedding.")
    return None


def _temperature(celsius: float, scene: Scene) -> Doubt | None:
    shown = show_temperature(celsius, scene.units)
    if not -40 <= celsius <= 80:
        limits = f"{show_temperature(-40, scene.units)} to {show_temperature(80, scene.units)}"
        return Doubt(Kind.TEMPERATURE, True, f"{shown} cannot be: {limits}.", _other_scale(celsius, scene))
    if COLDEST_C <= celsius <= WARMEST_C:
        return None
    meant = _other_scale(celsius, scene)
    what = f"{shown}: no worm lives in that." if celsius > 0 else f"At {shown} the bin would be frozen."
    if meant is None:
        return Doubt(Kind.TEMPERATURE, False, what)
    ask = f"Was it {_as_typed(celsius, scene)}, {show_temperature(meant, scene.units)}?"
    return Doubt(Kind.TEMPERATURE, False, f"{what} {ask}", meant)


def _other_scale(celsius: float, scene: Scene) -> float | None:
    """The same number read in the other scale, where that is a temperature worms can live in."""
    us = scene.units is Units.US
    meant = celsius * 1.8 + 32 if us else (celsius - 32) / 1.8
    return meant if LIVED_IN_C[0] <= meant <= LIVED_IN_C[1] else None


def _as_typed(celsius: float, scene: Scene) -> str:
    """The number with the other scale's sign: what was meant perhaps."""
    us = scene.units is Units.US
    return f"{round(celsius * 1.8 + 32)} °C" if us else f"{round(celsius)} °F"


def _ph(value: float, scene: Scene) -> Doubt | None:
    shown = three_figures(value)
    if not 0 <= value <= 14:
        meant = value / 10 if 30 <= value <= 110 else None
        ask = f" Was it {three_figures(meant)}?" if meant is not None else ""
        return Doubt(Kind.PH, True, f"pH {shown} cannot be: it is from 0 to 14.{ask}", meant)
    if 3 <= value <= 11:
        return None
    like = "vinegar" if value < 3 else "soap or lime"
    return Doubt(Kind.PH, False, f"pH {shown} is like {like}: hardly a bin with worms in it.")


def _sump(litres: float, scene: Scene) -> Doubt | None:
    holds, units = scene.stack.setup.sump_capacity_l, scene.units
    if litres <= holds * (1 + 1e-9):
        return None
    meant = litres / 1000 if units is Units.METRIC and litres >= 50 and litres / 1000 <= holds else None
    ask = f" Was it {show_volume(meant, units)}?" if meant is not None else ""
    what = f"{show_volume(litres, units)} cannot be: the sump holds {show_volume(holds, units)}.{ask}"
    return Doubt(Kind.SUMP, True, what, meant)


def _weight(kg: float, scene: Scene) -> Doubt | None:
    shown, tray = show_mass(kg, scene.units), scene.tray
    if tray is None:
        return Doubt(Kind.WEIGHT, True, "A weight is of one tray, not of the whole bin.")
    empty = show_mass(tray.empty_kg, scene.units)
    if kg <= 0 or kg < tray.empty_kg:
        return Doubt(Kind.WEIGHT, True, f"{shown} cannot be: the empty tray alone weighs {empty}.")
    per_litre = (kg - tray.empty_kg) / _holds_l(scene)
    meant = _tenth_or_thousandth(kg, tray, scene)
    ask = f" Was it {show_mass(meant, scene.units)}?" if meant is not None else ""
    if per_litre > DENSEST_KG_L or kg > HEAVIEST_KG:
        return Doubt(Kind.WEIGHT, True, f"{shown} cannot be: that is heavier than wet sand.{ask}", meant)
    if per_litre > DENSE_KG_L:
        return Doubt(Kind.WEIGHT, False, f"{shown} would be heavier than wet castings.{ask}", meant)
    return _against_estimate(kg, tray, scene, ask, meant)


def _holds_l(scene: Scene) -> float:
    setup = scene.stack.setup
    return 1000 * setup.tray_area_m2 * setup.tray_depth_m


def _tenth_or_thousandth(kg: float, tray: TrayState, scene: Scene) -> float | None:
    """A slip of the point, or grams typed for kilograms: the first that comes near the estimate."""
    reckoned = scene.reckoned(scene.stack.as_of)
    if reckoned is None or reckoned.wet_kg.mid <= 0:
        return None
    near = (gross for gross in (kg / 10, kg / 1000, kg * 10) if gross > tray.empty_kg)
    held = reckoned.wet_kg.mid
    return next((g for g in near if held / FAR_OFF <= g - tray.empty_kg <= held * FAR_OFF), None)


def _against_estimate(
    kg: float, tray: TrayState, scene: Scene, ask: str, meant: float | None
) -> Doubt | None:
    """A weight far from what was put in wants a second look: something was not noted, or mistyped."""
    reckoned = scene.reckoned(scene.stack.as_of)
    if reckoned is None or reckoned.wet_kg.mid <= 0:
        return None
    held, low, high = kg - tray.empty_kg, reckoned.wet_kg.low / FAR_OFF, reckoned.wet_kg.high * FAR_OFF
    if low <= held <= high:
        return None
    far = "more than twice" if held > high else "less than half"
    what = f"{show_mass(kg, scene.units)} is {far} what was reckoned of what went in.{ask}"
    return Doubt(Kind.WEIGHT, False, what, meant)


ASKED: Mapping[Kind, Callable[[float, Scene], Doubt | None]] = {
    Kind.MOISTURE: _moisture,
    Kind.TEMPERATURE: _temperature,
    Kind.PH: _ph,
    Kind.SUMP: _sump,
    Kind.WEIGHT: _weight,
}
