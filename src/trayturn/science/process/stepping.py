"""One step of the model: breakdown, worms, evaporation, and water that runs down.

Within a step every class of solids decays, and a tray dries, exactly at the pace of the step's middle. Where
that lies, the pace now and a step ago tell (Adams and Bashforth's second order, in exponential form); just
after something happened, the pace now alone. Nothing goes below nothing, and what leaves one place arrives in
another.
"""

from __future__ import annotations

import numpy as np

from trayturn.science.breakdown import DAMP, STALLED
from trayturn.science.process.bin_state import (
    CASTINGS,
    LAID,
    NONE,
    QUICK,
    RESISTANT,
    SLOW,
    WATER,
    BinState,
    Pace,
    total,
)
from trayturn.science.process.events import Build
from trayturn.science.process.rates import Array, Rates
from trayturn.science.water import METABOLIC

FOOD = slice(QUICK, RESISTANT + 1)
WITHOUT_WORMS = 0.40
"""How fast things go without worms: carbon fell 2.2 to 3 times as much with them in 100 days (P. Garg et al.
2006, Bioresource Technology 97:391-395)."""
CROWD_KG_M2 = 0.8
"""Worms over a tray's floor that bring the rest to all but 1/e: half of the best stocking of 1.6 kg/m2
(Ndegwa et al. 2000). Engineering choice."""
WET, DROWNED = 0.85, 0.95
"""Moisture from which breakdown falls off, and at which it stops. Engineering choice; worms live up to 0.90
(Edwards 1988)."""
CELLS = 5.0
"""kg of water that a kg of quick solids keeps in its own cells until it is broken down: food is 80 to 90 %
water."""
SIDES = 0.05
"""How much a tray under another dries, against the top one: through its sides only. Engineering choice."""
LINGER_PER_D = 1e-4
"""Worms spread as the food goes that could be broken down in a day, and a little as all that a tray holds:
where nothing can be eaten they stay all the same. Engineering choice."""
STARVING = 2.0
"""Worms without food dwindle at most at so many times the rate at which they would grow. Engineering
choice."""


class Stepper:
    """Takes a bin through time with its draws' rates."""

    def __init__(self, rates: Rates, build: Build) -> None:
        self.rates, self.area, self.sump = rates, build.area_m2, build.sump_l
        self.per_d = np.stack([rates.quick_per_d, rates.slow_per_d, rates.resistant_per_d])[:, None]
        self.evaporates = rates.evaporates * build.area_m2
        self.cells = np.maximum(rates.holds, CELLS)

    def step(self, state: BinState, days: float, warmth: float, hatch_days: float) -> None:
        """The bin some days on. `warmth` is the speed of life against 20 C, `hatch_days` days for cocoons."""
        now = self.pace(state.stack, state.worms)
        pace, state.before = now.middle(state.before), now
        self._lay(state, now.share * (self.rates.laid * state.worms * (warmth * days)), hatch_days)
        held_most = self._most(state.stack) if state.most is None else state.most
        gas = self._break_down(state.stack, np.exp(self.per_d * (pace.breakdown * (-warmth * days))))
        state.worms = state.worms * np.exp(pace.worms * (warmth * days))
        state.most = self._most(state.stack)
        self._dry(state, held_most + state.most, METABOLIC * gas, days)
        self._drain(state, state.most)
        state.flows["gas_kg"] += gas.sum(axis=0)

    def pace(self, held: Array, worms: Array) -> Pace:
        """How fast things go in a stack that holds this."""
        food, mass = self.per_d * held[FOOD], total(held)
        damp = comfort(held[WATER] / (mass + NONE))
        wanted = (food[QUICK] + food[SLOW] + food[RESISTANT]) * damp
        draws_in = wanted + LINGER_PER_D * mass
        share = draws_in / (draws_in.sum(axis=0) + NONE)
        busy = 1 - (1 - WITHOUT_WORMS) * np.exp(share * (worms / -(self.area * CROWD_KG_M2)))
        fed = (wanted * busy).sum(axis=0) + NONE
        growth = self.rates.growth_per_d * np.maximum(1 - self.rates.need * worms / fed, -STARVING)
        return Pace(damp * busy, growth, share)

    def _break_down(self, held: Array, stays: Array) -> Array:
        """Of each class that share stays; of the rest some becomes castings, and what is gas is returned."""
        left = held[FOOD] * stays
        gone = held[FOOD] - left
        held[FOOD] = left
        broken = gone[QUICK] + gone[SLOW] + gone[RESISTANT]
        castings = self.rates.castings_share * broken
        held[CASTINGS] += castings
        gas: Array = broken - castings
        return gas

    def _dry(self, state: BinState, twice_most: Array, released: Array, days: float) -> None:
        """Each tray dries the slower the less of the water that it could hold is left in it."""
        fade = (self.evaporates * (-2 * days)) / (twice_most + NONE)
        fade[1:] *= SIDES
        stays, water = np.exp(fade), state.stack[WATER]
        # What is released in the course of the step dries for half of it.
        later = water * stays + released * (0.5 + 0.5 * stays)
        state.flows["evaporated_kg"] += (water + released - later).sum(axis=0)
        state.stack[WATER] = later

    def _most(self, held: Array) -> Array:
        """The water that each tray holds before it drips, kg."""
        rest = held[SLOW] + held[RESISTANT] + held[CASTINGS]
        most: Array = self.rates.holds * rest + self.cells * held[QUICK]
        return most

    def drain(self, state: BinState) -> None:
        """Water above what a tray holds runs into the next below, and from the lowest into the sump."""
        self._drain(state, self._most(state.stack))

    def _drain(self, state: BinState, holds: Array) -> None:
        running = np.zeros_like(state.sump)
        for water, most in zip(state.stack[WATER], holds, strict=True):
            water += running
            running = np.maximum(water - most, 0.0)
            water -= running
        state.flows["drained_kg"] += running
        state.sump = np.minimum(state.sump + running, self.sump)

    def _lay(self, state: BinState, laid: Array, hatch_days: float) -> None:
        state.stack[LAID] += laid
        state.nursery.day(dict(zip(state.trays[: state.standing], laid, strict=True)), hatch_days)


def comfort(moist: Array) -> Array:
    """From 0 where it is too dry or drowned to 1 between."""
    dry = (moist - STALLED) * (1 / (DAMP - STALLED))
    wet = (DROWNED - moist) * (1 / (DROWNED - WET))
    return np.clip(np.minimum(dry, wet), 0.0, 1.0)
