"""What castings a separation gave, by what was weighed of them, and nothing that was not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from trayturn.domain.lots import Lot
from trayturn.domain.stack import Separation, Stack


class How(StrEnum):
    """How the mass is known."""

    SETTLED = "weighed when all was settled"
    LOT = "weighed as a lot"
    SKIMS = "the skims added up"
    IN_PART = "weighed in part"
    NOT = "not weighed"


@dataclass(frozen=True, slots=True)
class Castings:
    """The castings of one separation or of several, wet, kg. `kg` is None where nothing was weighed.

    Weighed `IN_PART` it is the least there was: `skims` passes were weighed of `passes`.
    """

    kg: float | None = None
    how: How = How.NOT
    at: datetime | None = None
    passes: int = 0
    skims: int = 0

    @property
    def whole(self) -> bool:
        """Whether all of them were weighed."""
        return self.how not in (How.IN_PART, How.NOT)


def castings_book(stack: Stack) -> dict[Separation, Castings]:
    """The castings of every separation, under way or over. A lot belongs to the last one begun before it."""
    book: dict[Separation, Castings] = {}
    lots: dict[str, list[Lot]] = {}
    for lot in stack.lots:
        if lot.tray is not None:
            lots.setdefault(lot.tray, []).append(lot)
    until: dict[str, datetime] = {}
    for done in reversed((*stack.past_separations, *stack.separations)):
        end = until.get(done.tray)
        own = [lot for lot in lots.get(done.tray, []) if done.begun_at <= lot.begun_at]
        book[done] = taken(done, [lot for lot in own if end is None or lot.begun_at < end])
        until[done.tray] = done.begun_at
    return book


def taken(done: Separation, lots: Sequence[Lot] = ()) -> Castings:
    """What one separation gave: as settled, else as the lots it was put by in, else what was skimmed."""
    skims = [one.skimmed_kg for one in done.passes if one.skimmed_kg is not None]
    numbers = (len(done.passes), len(skims))
    if done.settled is not None and done.settled.castings_kg is not None:
        return Castings(done.settled.castings_kg, How.SETTLED, done.settled.at, *numbers)
    weights = [lot.begun_kg for lot in lots if lot.begun_kg is not None]
    if weights and len(weights) == len(lots):
        return Castings(sum(weights), How.LOT, lots[-1].begun_at, *numbers)
    if not skims:
        return Castings(passes=len(done.passes))
    how = How.SKIMS if len(skims) == len(done.passes) else How.IN_PART
    return Castings(sum(skims), how, done.ended_at or done.passes[-1].at, *numbers)


def together(parts: Sequence[Castings]) -> Castings:
    """The castings of a tray that was put back and separated again. A separation without a pass gave none.

    What the last one gave counts as not weighed where nothing tells of it.
    """
    told = [one for one in parts[:-1] if one.passes or one.kg is not None] + list(parts[-1:])
    if len(told) < 2:
        return told[0] if told else Castings()
    weights = [one.kg for one in told if one.kg is not None]
    numbers = (sum(one.passes for one in told), sum(one.skims for one in told))
    if not weights:
        return Castings(passes=numbers[0])
    whole = all(one.whole for one in told)
    how = told[-1].how if whole else How.IN_PART
    return Castings(sum(weights), how, max(one.at for one in told if one.at is not None), *numbers)
