"""One step of the model: breakdown, worms, evaporation, and water that runs down.

Within a step every class of solids decays, and a tray dries, exactly at the pace of the step's middle, which
half a step at the pace of its beginning finds: the midpoint rule in exponential form. Nothing goes below
nothing, and what leaves one place arrives in another.
"""

from __future__ import annotations

from dataclasses import dataclass

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
    total,
)
from trayturn.science.process.events import Build
from trayturn.science.process.rates import Array, Rates
from trayturn.science.water import METABOLIC

FOOD, CONTENTS = slice(QUICK, RESISTANT + 1), slice(QUICK, WATER + 1)
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


@dataclass(frozen=True, slots=True)
class Pace:
    """How fast things go at a moment, at 20 C: breakdown and drying by tray, worms of the bin; and the share
    of the worms that is in each tray."""

    breakdown: Array
    drying: Array
    worms: Array
    share: Array


class Stepper:
    """Takes a bin through time with its draws' rates."""

    def __init__(self, rates: Rates, build: Build) -> None:
        self.rates, self.area, self.sump = rates, build.area_m2, build.sump_l
        self.per_d = np.stack([rates.quick_per_d, rates.slow_per_d, rates.resistant_per_d])[:, None]
        self.evaporates = rates.evaporates * build.area_m2
        self.cells = np.maximum(rates.holds, CELLS)

    def step(self, state: BinState, days: float, warmth: float, hatch_days: float) -> None:
        """The bin some days on. `warmth` is the speed of life against 20 C, `hatch_days` days for cocoons."""
        now, worms = state.stack[CONTENTS], state.worms
        half, half_worms, *_ = self._advance(now, worms, self.pace(now, worms), days / 2, warmth)
        pace = self.pace(half, half_worms)
        later, state.worms, gas, dried = self._advance(now, worms, pace, days, warmth)
        state.held[CONTENTS, : state.standing] = later
        self.drain(state)
        _book(state, gas, dried)
        self._lay(state, pace.share * (half_worms * (warmth * days)), hatch_days)

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
        drying = self.evaporates / (self._most(held) + NONE)
        drying[1:] *= SIDES
        return Pace(damp * busy, drying, growth, share)

    def _advance(
        self, held: Array, worms: Array, pace: Pace, days: float, warmth: float
    ) -> tuple[Array, Array, Array, Array]:
        """What is held after some days at one pace, worms, and solids gone as gas and water dried off."""
        later = np.empty_like(held)
        later[FOOD] = held[FOOD] * np.exp(self.per_d * (pace.breakdown * (-warmth * days)))
        gone = held[FOOD] - later[FOOD]
        broken = gone[QUICK] + gone[SLOW] + gone[RESISTANT]
        castings = self.rates.castings_share * broken
        later[CASTINGS] = held[CASTINGS] + castings
        gas = broken - castings
        released = METABOLIC * gas
        stays = np.exp(pace.drying * -days)
        # What is released in the course of the step dries for half of it.
        later[WATER] = held[WATER] * stays + released * (0.5 + 0.5 * stays)
        dried = held[WATER] + released - later[WATER]
        return later, worms * np.exp(pace.worms * (warmth * days)), gas, dried

    def _most(self, held: Array) -> Array:
        """The water that each tray holds before it drips, kg."""
        rest = held[SLOW] + held[RESISTANT] + held[CASTINGS]
        most: Array = self.rates.holds * rest + self.cells * held[QUICK]
        return most

    def drain(self, state: BinState) -> None:
        """Water above what a tray holds runs into the next below, and from the lowest into the sump."""
        running = np.zeros_like(state.sump)
        for water, most in zip(state.stack[WATER], self._most(state.stack), strict=True):
            water += running
            running = np.maximum(water - most, 0.0)
            water -= running
        state.flows["drained_kg"] += running
        state.sump = np.minimum(state.sump + running, self.sump)

    def _lay(self, state: BinState, worm_days: Array, hatch_days: float) -> None:
        laid = self.rates.laid * worm_days
        state.stack[LAID] += laid
        state.nursery.day(dict(zip(state.trays[: state.standing], laid, strict=True)), hatch_days)


def comfort(moist: Array) -> Array:
    """From 0 where it is too dry or drowned to 1 between."""
    dry = (moist - STALLED) * (1 / (DAMP - STALLED))
    wet = (DROWNED - moist) * (1 / (DROWNED - WET))
    return np.minimum(np.maximum(np.minimum(dry, wet), 0.0), 1.0)


def _book(state: BinState, gas: Array, dried: Array) -> None:
    lost = gas.sum(axis=0)
    state.flows["gas_kg"] += lost
    state.flows["released_kg"] += METABOLIC * lost
    state.flows["evaporated_kg"] += dried.sum(axis=0)
