"""Which measurement would narrow the band of the next harvest most."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from trayturn.advice.outlook.coming import Coming
from trayturn.advice.outlook.fitted import Known
from trayturn.advice.outlook.measured import BATHROOM, FOOD_LEFT, MOISTURE, SHOWN, WORMS, sump_sd
from trayturn.advice.outlook.result import NarrowMost
from trayturn.domain.entries import Stage
from trayturn.science.process.events import Measured, Put

TONIGHT = 0.45
"""Days: after all that happened today, before tomorrow."""
LEAST = 0.05
"""What narrows the band by less than this is not worth the trouble. Our choice."""
HOW = {
    "tray": "Weigh tray {tray}",
    "moisture": "Read the moisture of tray {tray}",
    "food left": "See how much of the food in tray {tray} is left",
    "worms": "Count the worms",
    "sump": "Read the sump",
}


def narrow_most(coming: Coming, known: Known) -> NarrowMost | None:
    """The best of what can be measured today; None without a harvest ahead, or where nothing would help."""
    from trayturn.science.process.telling import most_telling

    day = coming.today + TONIGHT
    ahead = [(on, tray) for on, tray, _ in coming.weighed if on > day]
    if not ahead:
        return None
    until = round(ahead[0][0]) + 0.4
    drive = coming.drive
    events = tuple(event for event in drive.events if event.day <= until)
    found = most_telling(
        replace(drive, events=events, end=until),
        known.rates,
        tuple(_candidates(coming, day)),
        ahead[0][1],
    )
    best = found[0]
    if best.narrows < LEAST:
        return None
    kind = SHOWN[best.what.kind]
    share = round(100 * best.narrows)
    said = f"{HOW[kind].format(tray=best.what.tray)}: the band of the harvest of tray {ahead[0][1]} would be "
    return NarrowMost(kind, best.what.tray, best.narrows, f"{said}about {share} % narrower.")


def _candidates(coming: Coming, day: float) -> Iterator[Measured]:
    yield Measured(day, "worms_kg", 1.0, WORMS)
    yield Measured(day, "sump_l", 1.0, sump_sd(1.0))
    for tray in coming.stack.trays:
        if tray.stage in (Stage.FEEDING, Stage.FINISHING):
            yield Measured(day, "tray_kg", 1.0, BATHROOM, tray.id)
            yield Measured(day, "moisture", 0.7, MOISTURE, tray.id)
            fed = [
                e for e in coming.history.events if isinstance(e, Put) and e.tray == tray.id and e.quick_kg
            ]
            if fed and tray.stage is Stage.FEEDING:
                yield Measured(day, "food_left", 0.5, FOOD_LEFT, tray.id)
