"""A figure with the band around it, and how it is said."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from trayturn.domain.setup import Units
from trayturn.domain.units import QUART_L, round_mass, show_mass, show_volume, two_figures


class Band(NamedTuple):
    """An estimate: its low end, its middle and its high end, all in one unit."""

    low: float
    mid: float
    high: float

    def times(self, factor: float) -> Band:
        """The band of so many times the figure; a factor below nothing turns it around."""
        low, high = sorted((self.low * factor, self.high * factor))
        return Band(low, self.mid * factor, high)

    def plus(self, other: Band) -> Band:
        """The band of a sum, both ends taken at their worst."""
        return Band(self.low + other.low, self.mid + other.mid, self.high + other.high)


def exactly(value: float) -> Band:
    """A figure that is known."""
    return Band(value, value, value)


def said(band: Band, show: Callable[[float], str]) -> str:
    """`0.8 kg to 1.2 kg`, or `about 1 kg` where both ends are said alike."""
    low, high = show(band.low), show(band.high)
    return f"about {show(band.mid)}" if low == high else f"{low} to {high}"


def mass_band(band: Band, units: Units) -> str:
    """A band of masses in kg, its ends to two figures in the keeper's units."""
    return said(band, lambda kg: rough_mass(kg, units))


def volume_band(band: Band, units: Units) -> str:
    """A band of volumes in litres, its ends to two figures in the keeper's units."""
    return said(band, lambda litres: rough_volume(litres, units))


def percent_band(band: Band) -> str:
    """A band of fractions, as whole percent: `65 to 85 %`."""
    low, high = round(100 * band.low), round(100 * band.high)
    return f"about {round(100 * band.mid)} %" if low == high else f"{low} to {high} %"


def day_band(band: Band) -> str:
    """A band of days, whole: `12 to 15 days`."""
    low, high = round(band.low), round(band.high)
    return f"about {high} days" if low == high else f"{low} to {high} days"


def rough_mass(kg: float, units: Units) -> str:
    """A mass to two figures in the keeper's units: an estimate is not known to a gram."""
    return show_mass(round_mass(kg, units), units)


def rough_volume(litres: float, units: Units) -> str:
    """A volume to two figures in the keeper's units."""
    unit = QUART_L if units is Units.US else 1.0
    return show_volume(two_figures(litres / unit) * unit, units)
