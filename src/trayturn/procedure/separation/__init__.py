"""A separation as a state machine: what each move writes to the journal, and what going back takes out."""

from trayturn.advice.passes import advised_to_stop, share_left
from trayturn.procedure.separation.going_back import (
    answered_before,
    answered_with,
    back,
    last_move,
    take_out,
    why_not_back,
)
from trayturn.procedure.separation.moves import (
    again,
    begin,
    finish,
    loosened,
    move_deadline,
    put_back,
    ready,
    restart_rest,
    rested,
    settle,
    skimmed,
    stop,
)
from trayturn.procedure.separation.told import NewLot, Settling, Skim, Thing
from trayturn.procedure.separation.worms_away import settle_between

__all__ = [
    "NewLot",
    "Settling",
    "Skim",
    "Thing",
    "advised_to_stop",
    "again",
    "answered_before",
    "answered_with",
    "back",
    "begin",
    "finish",
    "last_move",
    "loosened",
    "move_deadline",
    "put_back",
    "ready",
    "restart_rest",
    "rested",
    "settle",
    "settle_between",
    "share_left",
    "skimmed",
    "stop",
    "take_out",
    "why_not_back",
]
