"""What can be watched in a run, and what a measurement would have read."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from trayturn.science.errors import OutOfRange
from trayturn.science.process.bin_state import (
    CASTINGS,
    FED,
    FLOWS,
    NONE,
    QUICK,
    RESISTANT,
    SLOW,
    WATER,
    BinState,
    total,
)
from trayturn.science.process.events import Measured
from trayturn.science.process.happening import worms_inside
from trayturn.science.process.outcome import Harvest
from trayturn.science.process.rates import Array
from trayturn.science.process.stepping import Stepper

Watched = Callable[[BinState, Stepper], Array]
OF_TRAYS: dict[str, Watched] = {
    "tray_kg": lambda state, _: total(state.held),
    "moisture": lambda state, _: state.moisture(),
    "quick_kg": lambda state, _: state.held[QUICK],
    "slow_kg": lambda state, _: state.held[SLOW],
    "resistant_kg": lambda state, _: state.held[RESISTANT],
    "castings_kg": lambda state, _: state.held[CASTINGS],
    "water_kg": lambda state, _: state.held[WATER],
    "tray_worms_kg": worms_inside,
}
"""By tray: (days, trays, draws). Solids by class, castings solids, water, worms; all of it together."""
OF_BIN: dict[str, Watched] = {
    "worms_kg": lambda state, _: state.worms,
    "sump_l": lambda state, _: state.sump,
    **{name: lambda state, _, name=name: state.flows[name] for name in FLOWS},  # type: ignore[misc]
}
"""Of the bin: (days, draws). Worms on the stack, what has run into the sump since it was last emptied, and
what has come and gone since the start (`FLOWS`)."""


class Watch:
    """Keeps what is watched, step by step."""

    def __init__(self, names: Sequence[str], trays: Sequence[str], steps: int, draws: int) -> None:
        for name in names:
            if name not in OF_TRAYS and name not in OF_BIN:
                raise OutOfRange(f"{name!r} cannot be watched; use one of {', '.join((*OF_TRAYS, *OF_BIN))}.")
        self.trays = tuple(trays)
        self.series = {
            name: np.zeros((steps + 1, len(trays), draws) if name in OF_TRAYS else (steps + 1, draws))
            for name in names
        }

    def look(self, step: int, state: BinState, stepper: Stepper) -> None:
        rows = [self.trays.index(tray) for tray in state.trays]
        for name, kept in self.series.items():
            if name in OF_TRAYS:
                kept[step][rows] = OF_TRAYS[name](state, stepper)
            else:
                kept[step] = OF_BIN[name](state, stepper)


def reading(what: Measured, state: BinState) -> Array:
    """What the keeper would have read at that moment. A harvest is read afterwards."""
    if what.kind == "worms_kg":
        return state.worms.copy()
    if what.kind == "sump_l":
        return state.sump.copy()
    row = state.row(what.tray or "")
    if what.kind == "moisture":
        share: Array = state.moisture()[row].copy()
        return share
    if what.kind == "food_left":
        left: Array = state.held[QUICK, row] / (state.held[FED, row] + NONE)
        return left
    return state.mass(what.tray or "")


def harvested(what: Measured, harvests: Sequence[Harvest]) -> Array:
    """The castings of the separation of that tray nearest in time. Raises `OutOfRange` without one."""
    of_tray = [harvest for harvest in harvests if harvest.tray == what.tray]
    if not of_tray:
        raise OutOfRange(f"Tray {what.tray} has castings weighed and was never separated.")
    return min(of_tray, key=lambda harvest: abs(harvest.day - what.day)).kg
