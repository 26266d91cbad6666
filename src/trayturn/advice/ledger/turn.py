"""One tray that was separated and emptied: what went in, what came out, and what that makes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.bands import Band
from trayturn.advice.contents import ASSUMED, READING_OFF, SHREDS
from trayturn.advice.ledger.castings import Castings
from trayturn.advice.pantry import Pantry
from trayturn.advice.reading import moisture_read
from trayturn.domain.lives import TrayLife
from trayturn.domain.stack import days_between

READ_WITHIN = timedelta(days=30)
"""A moisture read so long before its separation, and after the last meal, is that of the castings. Ours."""


@dataclass(frozen=True, slots=True)
class Water:
    """The share of the castings that is water: a fraction, as read at a moment, or assumed without one."""

    share: Band
    read_at: datetime | None = None
    by_feel: bool = False


@dataclass(frozen=True, slots=True)
class Turn:
    """One row of the ledger. Masses in kg.

    `solids_kg` are the dry solids of scraps and bedding by the table of ingredients, in which `stand_ins`
    are the names reckoned as something else. `forecast_kg` is what an outlook had led to expect; None where
    none was made.
    """

    bin: str
    life: TrayLife
    castings: Castings
    solids_kg: float
    stand_ins: tuple[str, ...]
    water: Water
    forecast_kg: Band | None = None

    @property
    def scraps_kg(self) -> float:
        """All scraps fed to it, kg."""
        return sum(self.life.scraps_kg.values())

    @property
    def bedding_kg(self) -> float:
        """All bedding laid into it, kg."""
        return sum(self.life.bedding_kg.values())

    @property
    def days(self) -> float:
        """From its start to the beginning of its separation."""
        return days_between(self.life.started_at, self.life.separated_at)

    @property
    def counts(self) -> bool:
        """Whether it tells of the bin's yield: all of the castings weighed, and all that went in known."""
        return self.castings.whole and self.life.whole and self.solids_kg > 0

    @property
    def per_scraps(self) -> float | None:
        """kg of castings, wet, for each kg of scraps; None where either is not known in full."""
        return self._per(self.scraps_kg)

    @property
    def per_solids(self) -> float | None:
        """kg of castings, wet, for each kg of dry solids that went in; None likewise."""
        return self._per(self.solids_kg)

    @property
    def kept(self) -> Band | None:
        """The share of the dry solids that came out again as castings; None likewise."""
        return self.dry_kg.times(1 / self.solids_kg) if self.counts and self.dry_kg is not None else None

    @property
    def dry_kg(self) -> Band | None:
        """The solids of the castings, by the moisture read or assumed; None where nothing was weighed."""
        if self.castings.kg is None:
            return None
        low, mid, high = self.water.share
        return Band(1 - high, 1 - mid, 1 - low).times(self.castings.kg)

    @property
    def held(self) -> bool | None:
        """Whether what came lies in the band of its forecast; None where either is not known."""
        band, kg = self.forecast_kg, self.castings.kg
        if band is None or kg is None or not self.castings.whole:
            return None
        return band.low <= kg <= band.high

    def _per(self, kg: float) -> float | None:
        return self.castings.kg / kg if self.counts and kg > 0 and self.castings.kg is not None else None


def turn_of(
    stack_key: str, life: TrayLife, castings: Castings, pantry: Pantry, forecast: Band | None = None
) -> Turn:
    """The row of one life."""
    solids, stand_ins = _solids(life, pantry)
    return Turn(stack_key, life, castings, solids, stand_ins, _water(life), forecast)


def _solids(life: TrayLife, pantry: Pantry) -> tuple[float, tuple[str, ...]]:
    """Dry solids of scraps and bedding, kg, and the scraps reckoned as mixed ones."""
    solids, stand_ins = 0.0, []
    for name, kg in life.scraps_kg.items():
        row, known = pantry.scraps(name)
        solids += kg * (1 - (row.moisture or 0.0))
        if not known:
            stand_ins.append(name)
    for name, kg in life.bedding_kg.items():
        meant = pantry.meant(name)
        moisture = meant.moisture if meant is not None else None
        solids += kg * (1 - ((SHREDS.moisture or 0.0) if moisture is None else moisture))
    return solids, tuple(stand_ins)


def _water(life: TrayLife) -> Water:
    """As last read once nothing more was fed and near the separation; a reading may be off by some points."""
    read = moisture_read(life.last_moisture)
    if read.percent is None or read.at is None:
        return Water(ASSUMED)
    fed_after = any(meal.at > read.at for meal in life.meals)
    if fed_after or life.ended_at - read.at > READ_WITHIN:
        return Water(ASSUMED)
    share = read.percent / 100
    band = Band(max(0.0, share - READING_OFF), share, min(1.0, share + READING_OFF))
    return Water(band, read.at, read.by_feel)
