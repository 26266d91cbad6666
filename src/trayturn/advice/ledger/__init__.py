"""The castings ledger: what came out of each tray against what went in, by bin, by year and in all."""

from trayturn.advice.ledger.books import Ledger, Totals, in_all, ledger_of
from trayturn.advice.ledger.castings import Castings, How
from trayturn.advice.ledger.turn import Turn

__all__ = ["Castings", "How", "Ledger", "Totals", "Turn", "in_all", "ledger_of"]
