"""Rules of thumb for bedding and grit, for a bin whose own record is still too short to tell by."""

from __future__ import annotations

from trayturn.advice.bands import Band
from trayturn.advice.reading import SHREDS_KG_M3
from trayturn.domain.setup import BinSetup, Units

LOOSE_KG_M3 = Band(16.0, SHREDS_KG_M3, 24.0)
"""Loose shredded bedding, dry: 1 to 1.5 lb a cubic foot (Solomon, Organic Gardener's Composting, 1993)."""
COVER_M = 0.025
"""How deep a feeding is covered with bedding: about an inch (Solomon 1993)."""
A_FIFTH = 0.2
"""How far one's own trays are taken to differ while few are known: as far as loose shreds do in weight."""
GRIT_KG = Band(0.005, 0.01, 0.02)
"""Grit at a feeding: a teaspoon or two. Common practice, no source."""
LEAST_SHARE = 0.5
"""The least of its usual bedding that a fresh tray is worth putting in with. Our choice: half a tray deep."""


def tray_fill(setup: BinSetup) -> Band:
    """The dry bedding that fills one tray loosely to the brim, kg: its inside times the weight of shreds."""
    return LOOSE_KG_M3.times(setup.tray_area_m2 * setup.tray_depth_m)


def cover(setup: BinSetup) -> Band:
    """The dry bedding that covers one feeding all over the tray, kg."""
    return LOOSE_KG_M3.times(setup.tray_area_m2 * COVER_M)


def shreds_words(units: Units) -> str:
    """What loose shreds weigh, with the source, in the keeper's units."""
    weight = "1 to 1.5 lb a cubic foot" if units is Units.US else "16 to 24 kg a cubic metre"
    return f"loose shreds weigh {weight} (Solomon, Organic Gardener's Composting, 1993)"


def cover_words(units: Units) -> str:
    """How deep a feeding is covered, in the keeper's units."""
    return f"a cover {'1 in' if units is Units.US else '2.5 cm'} deep"
