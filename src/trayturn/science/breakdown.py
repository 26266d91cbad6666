"""How long scraps last under worms: first-order decay by class, with temperature and moisture.

No rate for single kitchen scraps under worms is published. The rates are an engineering choice, anchored on
derived rates of food waste (0.010 to 0.033 a day, whole mass: Kumar 2010; Karnchanawong & Suriyanon 2011) and
on common practice: a banana peel goes in about three weeks, cobs and stones outlast several months.
"""

from __future__ import annotations

import math
from functools import lru_cache

from trayturn.science.errors import OutOfRange, within
from trayturn.science.temperature import correction_band

RATES = {"fast": (0.20, 0.55), "medium": (0.08, 0.20), "slow": (0.03, 0.08), "very slow": (0.004, 0.012)}
"""The rate of decay of the soft part at 20 C, per day, as a band: a tenth is left after 4 to 12 days, 12 to
29 days, 1 to 2.5 months, and 6 to 19 months. Engineering choice."""
GONE = 0.10
"""What is left when a thing counts as gone. Engineering choice."""
REFERENCE_C = 20.0
DAMP, STALLED = 0.55, 0.30


def moisture_factor(moisture: float) -> float:
    """From 0 at 30 % and below to 1 from 55 % up, in a straight line: a fraction of the rate when damp.

    Engineering choice. Haug's curve (Practical Handbook of Compost Engineering 1993, from memory) runs close
    by, with 0.15 at 30 %, 0.50 at 40 %, 0.86 at 50 % and 0.97 at 60 %.
    """
    within(moisture, "The moisture", 0, 1)
    return min(1.0, max(0.0, (moisture - STALLED) / (DAMP - STALLED)))


@lru_cache(maxsize=256)
def rate(breakdown: str, celsius: float, moisture: float = 0.75) -> tuple[float, float]:
    """The rate of a class of material per day, as a band; nothing at 0 C and below, nor from 35 C.

    Raises `OutOfRange` for an unknown class.
    """
    if breakdown not in RATES:
        raise OutOfRange(f"{breakdown!r} is not a class of breakdown; use one of {', '.join(RATES)}.")
    slow, quick = correction_band(celsius, REFERENCE_C)
    low, high = RATES[breakdown]
    return low * slow * moisture_factor(moisture), high * quick * moisture_factor(moisture)


def left(days: float, per_day: float) -> float:
    """The share of a soft part that is left after some days: exp(-k t)."""
    return math.exp(-within(per_day, "The rate", 0, 10) * within(days, "The days", 0, 1e5))


def days_until_gone(breakdown: str, celsius: float, moisture: float = 0.75) -> tuple[float, float] | None:
    """Days until a tenth of the soft part is left, as a band; None where nothing breaks down."""
    slow, quick = rate(breakdown, celsius, moisture)
    if slow <= 0:
        return None
    return -math.log(GONE) / quick, -math.log(GONE) / slow
