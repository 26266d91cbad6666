"""The tables of the revised NIOSH lifting equation.

Source: T. R. Waters, V. Putz-Anderson, A. Garg, Applications Manual for the Revised NIOSH Lifting Equation,
DHHS (NIOSH) Publication 94-110, 1994, revised 2021: table 5 (frequency, p. 15) and table 7 (coupling, p. 18),
read in a transcription.
"""

from __future__ import annotations

from enum import StrEnum


class Duration(StrEnum):
    """How long the lifting goes on, with its recovery: at most 1, 2 or 8 hours."""

    SHORT = "short"
    MODERATE = "moderate"
    LONG = "long"


class Grip(StrEnum):
    """How well the hands hold the load. Gloves, a wet tray or unstable contents make it poor (p. 17)."""

    GOOD = "good"
    FAIR = "fair"
    POOR = "poor"


RATES = (0.2, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15)
"""Lifts a minute, one for each row of `FREQUENCY`."""

FREQUENCY: dict[tuple[Duration, bool], tuple[float, ...]] = {
    (Duration.SHORT, False): (
        *(1.00, 0.97, 0.94, 0.91, 0.88, 0.84, 0.80, 0.75, 0.70, 0.60, 0.52, 0.45, 0.41, 0.37),
        *(0.00, 0.00, 0.00),
    ),
    (Duration.SHORT, True): (
        *(1.00, 0.97, 0.94, 0.91, 0.88, 0.84, 0.80, 0.75, 0.70, 0.60, 0.52, 0.45, 0.41, 0.37),
        *(0.34, 0.31, 0.28),
    ),
    (Duration.MODERATE, False): (
        *(0.95, 0.92, 0.88, 0.84, 0.79, 0.72, 0.60, 0.50, 0.42, 0.35, 0.30, 0.26, 0.00, 0.00),
        *(0.00, 0.00, 0.00),
    ),
    (Duration.MODERATE, True): (
        *(0.95, 0.92, 0.88, 0.84, 0.79, 0.72, 0.60, 0.50, 0.42, 0.35, 0.30, 0.26, 0.23, 0.21),
        *(0.00, 0.00, 0.00),
    ),
    (Duration.LONG, False): (
        *(0.85, 0.81, 0.75, 0.65, 0.55, 0.45, 0.35, 0.27, 0.22, 0.18, 0.00, 0.00, 0.00, 0.00),
        *(0.00, 0.00, 0.00),
    ),
    (Duration.LONG, True): (
        *(0.85, 0.81, 0.75, 0.65, 0.55, 0.45, 0.35, 0.27, 0.22, 0.18, 0.15, 0.13, 0.00, 0.00),
        *(0.00, 0.00, 0.00),
    ),
}
"""The frequency multiplier by duration and whether the hands start at 75 cm (30 in) or higher."""

COUPLING = {Grip.GOOD: (1.00, 1.00), Grip.FAIR: (0.95, 1.00), Grip.POOR: (0.90, 0.90)}
"""The coupling multiplier by grip: hands below 75 cm (30 in), and from there up."""
