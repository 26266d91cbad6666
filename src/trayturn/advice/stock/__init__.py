"""Supplies: what is in stock, how it is used, how long it lasts, and whether it fills the next fresh tray."""

from trayturn.advice.stock.outlook import Lasts, Outlook, outlooks
from trayturn.advice.stock.turn_words import support_lines
from trayturn.advice.stock.turns import TurnSupport, bedding_at_hand, turn_supported
from trayturn.advice.stock.words import gather_line, reasons, story

__all__ = [
    "Lasts",
    "Outlook",
    "TurnSupport",
    "bedding_at_hand",
    "gather_line",
    "outlooks",
    "reasons",
    "story",
    "support_lines",
    "turn_supported",
]
