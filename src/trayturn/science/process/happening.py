"""What events do to a bin."""

from __future__ import annotations

from functools import singledispatch

import numpy as np

from trayturn.science.process.bin_state import (
    CASTINGS,
    FED,
    LAID,
    NONE,
    QUICK,
    RESISTANT,
    SLOW,
    SOLIDS,
    WAITING,
    WATER,
    BinState,
)
from trayturn.science.process.events import (
    Emptied,
    Event,
    Put,
    Separate,
    SumpEmptied,
    TrayOn,
    Turn,
    WormsPut,
    WormsTaken,
)
from trayturn.science.process.outcome import Harvest
from trayturn.science.process.rates import Array
from trayturn.science.process.stepping import Stepper


def named(event: Event) -> tuple[str, ...]:
    """The trays that an event names."""
    if isinstance(event, Turn):
        return event.order
    tray = getattr(event, "tray", None)
    overs_to = getattr(event, "overs_to", None)
    return tuple(name for name in (tray, overs_to) if name is not None)


@singledispatch
def happen(event: Event, state: BinState, stepper: Stepper) -> Harvest | None:
    """The event changes the bin; a separation gives its harvest."""
    raise TypeError(f"{event!r} is no event.")


@happen.register
def _tray_on(event: TrayOn, state: BinState, stepper: Stepper) -> None:
    others = [tray for tray in state.trays[: state.standing] if tray != event.tray]
    place = max(0, len(others) - (event.level - 1))
    _restack(state, [*others[:place], event.tray, *others[place:]], event.day, stepper)


@happen.register
def _turn(event: Turn, state: BinState, stepper: Stepper) -> None:
    _restack(state, list(dict.fromkeys(reversed(event.order))), event.day, stepper)


def _restack(state: BinState, top_down: list[str], day: float, stepper: Stepper) -> None:
    """Trays that leave take their worms along; those that come bring theirs back."""
    inside = worms_inside(state, stepper)
    for row, tray in enumerate(state.trays):
        if tray in top_down:
            state.worms += state.held[WAITING, row]
            state.held[WAITING, row] = 0.0
            state.started.setdefault(tray, day)
        elif row < state.standing:
            state.worms -= inside[row]
            state.held[WAITING, row] = inside[row]
    # Shares that add up to one may by their last digit take one worm too many.
    state.worms = np.maximum(state.worms, 0.0)
    state.restack(top_down)


def worms_inside(state: BinState, stepper: Stepper) -> Array:
    """The worms in each tray, kg: where the food is, or those that wait off the stack."""
    inside: Array = state.held[WAITING].copy()
    inside[: state.standing] = stepper.pace(state.stack, state.worms).share * state.worms
    return inside


@happen.register
def _put(event: Put, state: BinState, stepper: Stepper) -> None:
    held = state.held[:, state.row(event.tray)]
    coming = {
        QUICK: event.quick_kg,
        SLOW: event.slow_kg,
        RESISTANT: event.resistant_kg,
        CASTINGS: event.castings_kg,
        WATER: event.water_kg,
    }
    for what, kg in coming.items():
        held[what] += kg
        state.flows["water_in_kg" if what == WATER else "solids_in_kg"] += kg
    if event.quick_kg > 0:
        held[FED] = held[QUICK]
    stepper.drain(state)


@happen.register
def _separate(event: Separate, state: BinState, stepper: Stepper) -> Harvest:
    row = state.row(event.tray)
    held, inside = state.held[:, row], worms_inside(state, stepper)[row]
    lost = (1 - event.worms_back) * inside
    state.worms += held[WAITING] - lost
    solids = held[CASTINGS].copy()
    water = held[WATER] * (solids / (state.solids(event.tray) + NONE))
    still, laid = state.nursery.unhatched(event.tray, len(lost)), held[LAID].copy()
    _leave(state, solids, water)
    held[CASTINGS] = 0.0
    held[WATER] -= water
    _forget(state, event)
    kg = solids + water
    hatched = 1 - np.divide(still, laid, out=np.zeros_like(laid), where=laid > 0)
    age = event.day - state.started.get(event.tray, event.day)
    _anew(state, event.tray, event.day)
    return Harvest(event.day, event.tray, age, kg, solids, water / (kg + NONE), still, hatched, lost)


def _forget(state: BinState, event: Separate) -> None:
    """The tray begins anew: its cocoons are gone, and its overs go where they are put."""
    held = state.held[:, state.row(event.tray)]
    state.nursery.emptied(event.tray)
    held[[WAITING, FED, LAID]] = 0.0
    if event.overs_to is not None and event.overs_to != event.tray:
        state.held[QUICK : WATER + 1, state.row(event.overs_to)] += held[QUICK : WATER + 1]
        held[QUICK : WATER + 1] = 0.0


@happen.register
def _emptied(event: Emptied, state: BinState, stepper: Stepper) -> None:
    row = state.row(event.tray)
    inside = worms_inside(state, stepper)[row] - state.held[WAITING, row]
    state.worms -= inside
    _leave(state, state.held[SOLIDS, row].sum(axis=0), state.held[WATER, row].copy())
    state.held[:, row] = 0.0
    state.nursery.emptied(event.tray)
    _anew(state, event.tray, event.day)


def _anew(state: BinState, tray: str, day: float) -> None:
    """A tray's age runs from when it was emptied on the stack, or next comes onto it."""
    state.started.pop(tray, None)
    if state.on_stack(tray):
        state.started[tray] = day


def _leave(state: BinState, solids: Array, water: Array) -> None:
    state.flows["solids_out_kg"] += solids
    state.flows["water_out_kg"] += water


@happen.register
def _worms_put(event: WormsPut, state: BinState, stepper: Stepper) -> None:
    state.worms += event.kg


@happen.register
def _worms_taken(event: WormsTaken, state: BinState, stepper: Stepper) -> None:
    state.worms = np.maximum(state.worms - event.kg, 0.0)


@happen.register
def _sump_emptied(event: SumpEmptied, state: BinState, stepper: Stepper) -> None:
    state.sump = np.zeros_like(state.sump)
