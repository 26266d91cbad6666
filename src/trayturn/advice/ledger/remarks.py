"""Rows that cannot be: more came out of a tray than went in, or than it held. Where to look for the slip."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.bands import rough_mass
from trayturn.advice.ledger.castings import How
from trayturn.advice.ledger.turn import Turn
from trayturn.advice.reading import WETTEST_PCT
from trayturn.domain.setup import Units
from trayturn.domain.stack import Separation
from trayturn.domain.units import show_mass

SCALES_OFF = 0.05
"""By so much of the load two weighings of one thing may differ. Our choice."""
WETTEST = WETTEST_PCT / 100
"""Castings are not taken to be wetter than the worms in them bear."""


@dataclass(frozen=True, slots=True)
class Remark:
    """One row that does not add up: what, and which entry to look at first, which is of the moment `at`.

    The row is told by its tray and the moment that its life began.
    """

    code: str
    tray: str
    life_began_at: datetime
    what: str
    look: str
    at: datetime | None


def remarks(turn: Turn, empty_kg: float, units: Units) -> tuple[Remark, ...]:
    """What does not add up about a row. `empty_kg` is what its tray weighs empty."""
    return (*_more_than_went_in(turn, units), *_more_than_it_held(turn, empty_kg, units))


def _more_than_went_in(turn: Turn, units: Units) -> Iterator[Remark]:
    """Grit stays as it is, and solids only ever grow less: nothing makes more of them."""
    castings, life = turn.castings, turn.life
    wettest = max(turn.water.share.high, WETTEST if turn.water.read_at is None else 0.0)
    least, most = (castings.kg or 0.0) * (1 - wettest), turn.solids_kg + life.grit_kg
    if not life.whole or least <= most:
        return
    what = (
        f"More came out of tray {life.tray} than went in: {show_mass(castings.kg or 0.0, units)} of castings "
        f"hold {rough_mass(least, units)} of solids or more, and {rough_mass(most, units)} went in."
    )
    look = (
        f"Look at {_weighing(turn)} first, then whether every feeding of the tray since "
        f"{life.started_at:%Y-%m-%d} is written down, and whether the rest of another tray went into it."
    )
    yield Remark("more-than-went-in", life.tray, life.started_at, what, look, castings.at)


def _more_than_it_held(turn: Turn, empty_kg: float, units: Units) -> Iterator[Remark]:
    """Of one separation, against the tray's weight before it."""
    castings, life = turn.castings, turn.life
    gross = _gross(life.separations[-1] if len(life.separations) == 1 else None)
    if gross is None or castings.kg is None or castings.kg <= (gross - empty_kg) * (1 + SCALES_OFF):
        return
    held = max(0.0, gross - empty_kg)
    what = (
        f"More came out of tray {life.tray} than it held: {show_mass(castings.kg, units)} of castings, and "
        f"the tray held {show_mass(held, units)} when it was set on top."
    )
    look = f"Look at {_weighing(turn)}, and at the weight of the full tray."
    yield Remark("more-than-it-held", life.tray, life.started_at, what, look, castings.at)


def _gross(done: Separation | None) -> float | None:
    return done.gross_kg if done is not None else None


def _weighing(turn: Turn) -> str:
    """The entry that has the weight, as a keeper finds it in the journal."""
    castings = turn.castings
    entry = {How.SETTLED: "the entry settled", How.LOT: "the entry lot begun"}.get(
        castings.how, "the entries pass done"
    )
    return f"{entry} of {castings.at:%Y-%m-%d}" if castings.at is not None else entry
