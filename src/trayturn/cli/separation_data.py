"""Separations as data: what is left of one under way, and what came out of each. Times left in minutes."""

from __future__ import annotations

from trayturn.advice.bands import Band
from trayturn.advice.came_out import CameOutTold, came_out
from trayturn.advice.passes import Ahead, ahead
from trayturn.cli import as_json
from trayturn.domain.entries import Piece
from trayturn.domain.lots import Over
from trayturn.domain.stack import Separation, Stack


def separation_data(stack: Stack, one: Separation) -> as_json.Data:
    """One separation, under way or past. What is left is null once it is over."""
    told = came_out(stack, one)
    return {
        **as_json.separation(one, stack.as_of),
        **_left(stack, one),
        "overs": _overs(told),
        "contaminants": [as_json.entry(entry) for entry in told.found],
        "worms_moved": [as_json.entry(entry) for entry in told.worms],
        "lots": [entry.lot for entry in told.lots],
    }


def _left(stack: Stack, one: Separation) -> as_json.Data:
    if one.ended_at is not None:
        return dict.fromkeys(("passes_left", "minutes_left", "rest_advised", "rests_on"))
    return ahead_data(ahead(stack, one))


def ahead_data(told: Ahead) -> as_json.Data:
    """Passes and minutes left, the rest that would do, and what that rests on."""
    return {
        "passes_left": _band(told.passes),
        "minutes_left": _band(told.minutes),
        "rest_advised": {**_band(told.rest), "advised": told.rest_advised, "as_set": told.rest_as_set},
        "rests_on": told.rests_on,
    }


def _band(band: Band) -> as_json.Data:
    return {end: as_json.amount(value) for end, value in zip(band._fields, band, strict=True)}


def _overs(told: CameOutTold) -> as_json.Data:
    """Pieces: those known to lie in the tray, picked out, carried on and to where, and gone."""
    return {
        "known": [_over(over) for over in told.still],
        "picked": [_piece(piece) for piece in told.picked],
        "carried": [{**_piece(piece), "to": entry.to} for entry in told.carried for piece in entry.pieces],
        "gone": [_over(over) for over in told.gone],
        "left_out": [_piece(piece) for piece in told.left_out],
    }


def _piece(piece: Piece) -> as_json.Data:
    return {"what": piece.what, "count": piece.count, "size_cm": as_json.amount(piece.size_cm)}


def _over(over: Over) -> as_json.Data:
    return {
        "what": over.what,
        "count": over.count,
        "size_cm": as_json.amount(over.size_cm),
        "turns": over.turns,
        "first_at": as_json.moment(over.first_at),
        "gone_at": as_json.moment(over.gone_at),
    }
