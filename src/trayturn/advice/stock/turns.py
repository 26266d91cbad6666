"""Whether the stock can fill the fresh tray of the next turn, and what to do where it cannot."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.stock.ahead import coming
from trayturn.advice.stock.habits import BEDDING_WORDS, Spread, a_tray, habit_of, main_bedding
from trayturn.advice.stock.thumb import LEAST_SHARE
from trayturn.advice.turning import NextTurn, next_turn
from trayturn.domain.entries import Stage
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.supplies import GRIT, SMALLEST_KG, Supply, fold


@dataclass(frozen=True, slots=True)
class TurnSupport:
    """What the fresh tray of the next turn takes, and what will be in stock for it. Masses in kg.

    `stock_kg` is what is left by the turn once the feedings before it have had theirs, None where the stock
    is not known; `others` is other bedding in stock. `without` is the turn without a fresh tray, in which so
    many trays stand (`stands`); None where only the fresh one could be fed after it, so that the tray fed now
    `goes_on`. A tray that `comes_back` is itself the one that leaves, and is filled after its separation.
    """

    tray: str
    bedding: str
    need: Spread
    stock_kg: float | None
    others: tuple[Supply, ...]
    at: datetime
    now: datetime
    units: Units
    stands: int
    without: NextTurn | None
    goes_on: str | None
    comes_back: bool

    @property
    def others_kg(self) -> float:
        return sum(one.kg or 0.0 for one in self.others)

    @property
    def short_kg(self) -> float:
        """What is lacking, with all other bedding used too; nothing where the stock is not known."""
        if self.stock_kg is None:
            return 0.0
        return max(0.0, self.need.one.mid - self.stock_kg - self.others_kg)

    @property
    def short(self) -> bool:
        return self.short_kg > SMALLEST_KG

    @property
    def least_kg(self) -> float:
        """The least a fresh tray is worth putting in with."""
        return LEAST_SHARE * self.need.one.mid

    @property
    def thin_kg(self) -> float | None:
        """What a thinner tray could be filled with: all there is of its bedding, where that is enough."""
        if not self.short or self.stock_kg is None or self.stock_kg < self.least_kg:
            return None
        return self.stock_kg


def turn_supported(stack: Stack, at: datetime | None = None) -> TurnSupport | None:
    """The stock against the next turn, on its day or at another moment; None where it brings no tray in."""
    turn = next_turn(stack)
    if turn.fresh is None:
        return None
    at = at or max(turn.due or stack.as_of, stack.as_of)
    bedding = main_bedding(stack)
    without = next_turn(stack, bring=False)
    return TurnSupport(
        tray=turn.fresh,
        bedding=bedding,
        need=a_tray(stack, fold(bedding), True),
        stock_kg=_stock_by(stack, bedding, at),
        others=tuple(_other_bedding(stack, bedding)),
        at=at,
        now=stack.as_of,
        units=stack.setup.units,
        stands=sum(1 for move in without.moves if move.to_level is not None),
        without=without if without.fed is not None and turn.fed != turn.fresh else None,
        goes_on=next((move.tray for move in turn.moves if move.from_stage is Stage.FEEDING), None),
        comes_back=turn.fresh in [move.tray for move in turn.moves if move.to_level is None],
    )


def _stock_by(stack: Stack, bedding: str, at: datetime) -> float | None:
    """What is left of the bedding by then: the feedings and other uses before the turn draw on it too."""
    held = next((one.kg for one in stack.supplies if fold(one.name) == fold(bedding)), None)
    if not held or at <= stack.as_of:
        return held
    before = [step for step in coming(stack) if step.at < at]
    if not before:
        return held
    need = habit_of(stack, fold(bedding)).need(before[-1].feedings, 0, before[-1].days)
    return max(0.0, held - need.mid)


def _other_bedding(stack: Stack, bedding: str) -> Iterator[Supply]:
    """Other supplies in stock that have been bedding, or are called like it."""
    given = {fold(name) for start in stack.last_starts for name in start.bedding_kg}
    given |= {fold(name) for meal in stack.last_feedings for name in meal.bedding_kg}
    for one in stack.supplies:
        name = fold(one.name)
        like = name in given or any(word in name for word in BEDDING_WORDS)
        if one.kg and like and name not in (fold(bedding), GRIT):
            yield one


def bedding_at_hand(stack: Stack) -> bool:
    """Whether a fresh tray can be filled, as far as is known: at least thinly, with any bedding in stock.

    Where the stock is not known it can, unless the last turn left a tray out and nothing came in since.
    """
    bedding = main_bedding(stack)
    supply = next((one for one in stack.supplies if fold(one.name) == fold(bedding)), None)
    others_kg = sum(one.kg or 0.0 for one in _other_bedding(stack, bedding))
    least_kg = LEAST_SHARE * a_tray(stack, fold(bedding), True).one.mid
    if others_kg >= least_kg:
        return True
    if supply is None or supply.kg is None:
        return stack.left_out_at is None
    return supply.kg + others_kg >= least_kg
