"""A bin at a moment, for many draws at once."""

from __future__ import annotations

from collections.abc import Iterable
from copy import deepcopy
from dataclasses import dataclass

import numpy as np

from trayturn.science.process.cocoons import Nursery
from trayturn.science.process.rates import Array

QUICK, SLOW, RESISTANT, CASTINGS, WATER, WAITING, FED, LAID = range(8)
"""What a tray holds: solids by class, castings solids and water, kg; worms that wait in it off the stack, kg;
its quick solids just after the last feeding, kg; and cocoons laid in it since it was last emptied."""
SOLIDS = slice(QUICK, WATER)
FLOWS = (
    *("solids_in_kg", "water_in_kg", "solids_out_kg", "water_out_kg"),
    *("gas_kg", "evaporated_kg", "drained_kg"),
)
"""What has come and gone since the start. `gas_kg` is solids lost, of which `METABOLIC` became water."""
NONE = 1e-12
"""Added to what is divided by, kg."""


@dataclass(frozen=True, slots=True)
class Pace:
    """How fast things go at 20 C: breakdown by tray against the rates, worms of the bin, per day.

    `share` is that of the worms that is in each tray.
    """

    breakdown: Array
    worms: Array
    share: Array

    def middle(self, before: Pace | None) -> Pace:
        """What it will be half a step on, when it was `before` a step ago."""
        if before is None:
            return self
        breakdown = np.maximum(1.5 * self.breakdown - 0.5 * before.breakdown, 0.0)
        return Pace(breakdown, 1.5 * self.worms - 0.5 * before.worms, self.share)


class BinState:
    """`held` has the shape (what, trays, draws): the trays on the stack first, from the top down.

    `before` is the pace of the last step, and `most` the water that trays held at most after it: None where
    something happened since.
    """

    def __init__(self, trays: Iterable[str], draws: int) -> None:
        self.trays = list(trays)
        self.standing = 0
        self.held: Array = np.zeros((LAID + 1, len(self.trays), draws))
        self.worms: Array = np.zeros(draws)
        self.sump: Array = np.zeros(draws)
        self.flows: dict[str, Array] = {name: np.zeros(draws) for name in FLOWS}
        self.started: dict[str, float] = {}
        self.nursery = Nursery()
        self.before: Pace | None = None
        self.most: Array | None = None

    def copy(self) -> BinState:
        return deepcopy(self)

    def row(self, tray: str) -> int:
        return self.trays.index(tray)

    def on_stack(self, tray: str) -> bool:
        return self.row(tray) < self.standing

    @property
    def stack(self) -> Array:
        """What the trays on the stack hold, the top tray first."""
        return self.held[:, : self.standing]

    def add_trays(self, trays: Iterable[str]) -> None:
        """Trays not met before, empty and off the stack."""
        new = [tray for tray in trays if tray not in self.trays]
        what, _, draws = self.held.shape
        self.trays += new
        self.held = np.concatenate([self.held, np.zeros((what, len(new), draws))], axis=1)

    def restack(self, top_down: list[str]) -> None:
        """The trays in that order on the stack and no others."""
        order = top_down + [tray for tray in self.trays if tray not in top_down]
        self.held = self.held[:, [self.row(tray) for tray in order]]
        self.trays, self.standing = order, len(top_down)

    def solids(self, tray: str) -> Array:
        solids: Array = self.held[SOLIDS, self.row(tray)].sum(axis=0)
        return solids

    def mass(self, tray: str) -> Array:
        return total(self.held[:, self.row(tray)])

    def moisture(self) -> Array:
        """Of every tray, 0 to 1; nothing for an empty one."""
        share: Array = self.held[WATER] / (total(self.held) + NONE)
        return share


def total(held: Array) -> Array:
    """All that trays hold, solids and water."""
    both: Array = held[QUICK] + held[SLOW] + held[RESISTANT] + held[CASTINGS] + held[WATER]
    return both
