"""What a tray is like: its moisture in words, what it is filled with, and how full it is drawn."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from trayturn.domain.entries import Checked, Feel, Stage
from trayturn.domain.setup import BinSetup
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.words import due as in_days

LIMITS_SOURCE = "Earthworm Ecology, 2nd ed. 2004, Table 18.3, after Edwards 1988"

DRIEST_PCT, WETTEST_PCT = 60.0, 90.0
"""Limits for Eisenia fetida, % of fresh mass, from `LIMITS_SOURCE`."""

FEEL_PCT = {Feel.DRY: 50.0, Feel.DAMP: 70.0, Feel.MOIST: 80.0, Feel.WET: 90.0}
"""Percent of fresh mass that a squeeze test stands for. Common practice, no source."""

FEEL_BAND_PCT = 5.0
"""How far a reading by feel may be off, either way, in points. Common practice, no source."""

SHREDS_KG_M3 = 20.0
"""Loose shredded bedding, dry: the middle of 16 to 24 (Solomon, Organic Gardener's Composting, 1993)."""

SCRAPS_KG_M3 = 840.0
"""Kitchen scraps: from 7 lb filling about 1 US gallon (Solomon 1993)."""

GRIT_KG_M3 = 1000.0
"""Ground shell as poured. Engineering choice."""

WEIGHED_KG_M3 = {Stage.BEDDING: 150.0, Stage.FEEDING: 450.0, Stage.FINISHING: 700.0, Stage.SEPARATING: 700.0}
"""What a tray's weighed contents are like. Engineering choices. The last two are the low end of 0.7 to 0.9
g/cm3, which pages repeat from India's Fertiliser (Control) Order 1985 for drier, saleable castings."""

SOAKED_AFTER_DAYS = 14.0
"""When bedding below a working stack is drawn as half soaked if nobody looked. Engineering choice."""


@dataclass(frozen=True, slots=True)
class Moisture:
    """A tray's last moisture reading with its band, % of fresh mass. All None where nobody looked."""

    word: str = ""
    percent: float | None = None
    low: float | None = None
    high: float | None = None
    by_feel: bool = False
    at: datetime | None = None

    @property
    def comfortable(self) -> bool | None:
        """Within the published limits; None when unknown."""
        return None if self.percent is None else DRIEST_PCT <= self.percent <= WETTEST_PCT


class Texture(StrEnum):
    """What the inside of a tray looks like."""

    DRY_SHREDS = "dry shreds"
    SOAKED = "half-soaked bedding"
    FOOD = "food and bedding"
    CASTINGS = "dark castings"
    EMPTY = "empty"


@dataclass(frozen=True, slots=True)
class Fill:
    """How full a tray is drawn: `fraction` of its depth, 0 to 1, and what that rests on."""

    fraction: float
    basis: str


def moisture_of(tray: TrayState) -> Moisture:
    """The tray's last reading."""
    return moisture_read(tray.last_moisture)


def moisture_read(check: Checked | None) -> Moisture:
    """What a check tells: a percentage as it was read, a squeeze test as a rough one, 5 points either way."""
    if check is None:
        return Moisture()
    if check.moisture_pct is not None:
        percent = check.moisture_pct
        return Moisture(_word(percent), percent, percent, percent, False, check.at)
    if check.feel is None:
        return Moisture()
    percent = FEEL_PCT[check.feel]
    low, high = percent - FEEL_BAND_PCT, percent + FEEL_BAND_PCT
    return Moisture(str(check.feel), percent, low, high, True, check.at)


def _word(percent: float) -> str:
    """The feel grade whose percentage is nearest."""
    return str(min(FEEL_PCT, key=lambda feel: abs(FEEL_PCT[feel] - percent)))


def moisture_words(tray: TrayState, stack: Stack) -> str:
    """`damp, about 70 %, checked 3 days ago`, or `moisture not checked`."""
    moisture = moisture_of(tray)
    if moisture.percent is None or moisture.at is None:
        return "moisture not checked"
    about = "about " if moisture.by_feel else ""
    return f"{moisture.word}, {about}{moisture.percent:.0f} %, checked {in_days(moisture.at, stack.as_of)}"


def moisture_caution(tray: TrayState, do: str = "") -> str:
    """When the reading is outside the published limits, that and what to do; nothing otherwise.

    `do` is what to do where it is known how much.
    """
    moisture = moisture_of(tray)
    if moisture.percent is None or moisture.comfortable:
        return ""
    dry = moisture.percent < DRIEST_PCT
    limit = f"below the {DRIEST_PCT:.0f} %" if dry else f"above the {WETTEST_PCT:.0f} %"
    roughly = f"{'Add water' if dry else 'Mix in dry bedding'} a little at a time; a check tells how much."
    do = do or roughly
    return f"That is {limit} published as a limit for Eisenia fetida ({LIMITS_SOURCE}). {do}"


def texture(tray: TrayState) -> Texture:
    """What the tray is drawn as: by its stage, and for bedding by how wet it is or must be by now."""
    if tray.stage is Stage.SPARE:
        return Texture.EMPTY
    if tray.stage in (Stage.FINISHING, Stage.SEPARATING):
        return Texture.CASTINGS
    if tray.feedings:
        return Texture.FOOD
    percent = moisture_of(tray).percent
    if percent is not None:
        return Texture.SOAKED if percent >= DRIEST_PCT else Texture.DRY_SHREDS
    return Texture.SOAKED if tray.water_kg or tray.days_on_stack >= SOAKED_AFTER_DAYS else Texture.DRY_SHREDS


def fill(tray: TrayState, setup: BinSetup) -> Fill:
    """How full the tray is, for the drawing only: from a weight, or from what was put in and its age.

    A weight counts while nothing was put in since. How bedding settles and food shrinks is an engineering
    choice, made so that a tray of shreds sinks to about two fifths and a finished one to about a third.
    """
    if tray.stage is Stage.SPARE:
        return Fill(0.0, "empty")
    depth_m3 = setup.tray_area_m2 * setup.tray_depth_m
    if tray.gross_kg is not None and _weight_counts(tray):
        held_kg = max(0.0, tray.gross_kg - tray.empty_kg)
        return Fill(_share(held_kg / WEIGHED_KG_M3[tray.stage], depth_m3), "weighed")
    if not (tray.bedding_kg or tray.scraps_kg or tray.grit_kg):
        return Fill(0.8 * _settled(tray.days_on_stack) * _worked(_days_worked(tray, setup)), "assumed")
    return Fill(_share(_reckoned_m3(tray, setup), depth_m3), "reckoned")


def _weight_counts(tray: TrayState) -> bool:
    return tray.weighed_at is not None and (tray.last_fed_at is None or tray.last_fed_at <= tray.weighed_at)


def _share(volume_m3: float, depth_m3: float) -> float:
    return min(1.0, volume_m3 / depth_m3)


def _reckoned_m3(tray: TrayState, setup: BinSetup) -> float:
    worked = _days_worked(tray, setup)
    bedding = sum(tray.bedding_kg.values()) / SHREDS_KG_M3 * _settled(tray.days_on_stack) * _worked(worked)
    scraps = tray.fed_kg / SCRAPS_KG_M3 * _eaten(worked / 2)
    return bedding + scraps + tray.grit_kg / GRIT_KG_M3


def _days_worked(tray: TrayState, setup: BinSetup) -> float:
    """Days since the tray began to be fed; once it finishes, its feeding is taken to have lasted one turn."""
    if tray.stage is Stage.BEDDING:
        return 0.0
    return tray.days_in_stage + (0.0 if tray.stage is Stage.FEEDING else setup.days_between_turns)


def _settled(days: float) -> float:
    """The share of its height that loose bedding keeps as it soaks."""
    return 0.4 + 0.6 * math.exp(-days / 20)


def _worked(days: float) -> float:
    """The share of its height that bedding keeps as worms work it."""
    return 0.25 + 0.75 * math.exp(-days / 60)


def _eaten(days: float) -> float:
    """The share of their volume that scraps keep."""
    return 0.2 + 0.8 * math.exp(-days / 20)
