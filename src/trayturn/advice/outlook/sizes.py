"""One what-if after another, and each larger or smaller: what a key can choose among."""

from __future__ import annotations

from dataclasses import replace

from trayturn.advice.outlook.what_if import COLD, HEAT, HOLIDAY_DAYS, KINDS, TIMES, WhatIf

LENGTHS = (3.0, 7.0, 14.0, 21.0, 28.0, 42.0, 56.0)
"""Days that a holiday or a spell of weather lasts. Our choices, as are those below."""
SIZES = {
    "double-scraps": (1.25, 1.5, 2.0, 3.0),
    "half-worms": (0.25, 0.5, 0.75),
    "double-bedding": (1.5, 2.0, 3.0, 4.0),
}


def usual(kind: str) -> WhatIf:
    """That kind, as long and as large as it is where nobody says."""
    celsius, days = {"cold": COLD, "heat": HEAT}.get(kind, (0.0, HOLIDAY_DAYS if kind == "holiday" else 0.0))
    return WhatIf(kind, days, celsius, TIMES.get(kind, 0.0))


def next_kind(what: WhatIf | None) -> WhatIf | None:
    """The kind after that one; none after the last, and the first after none."""
    place = KINDS.index(what.kind) + 1 if what is not None else 0
    return usual(KINDS[place]) if place < len(KINDS) else None


def resized(what: WhatIf, by: int) -> WhatIf:
    """Longer or larger by so many steps, shorter or smaller below nothing; the same at the ends."""
    if what.kind in SIZES:
        return replace(what, times=_step(SIZES[what.kind], what.factor, by))
    return replace(what, days=_step(LENGTHS, what.days, by))


def _step(steps: tuple[float, ...], now: float, by: int) -> float:
    place = min(range(len(steps)), key=lambda n: abs(steps[n] - now))
    return steps[max(0, min(place + by, len(steps) - 1))]
