"""One move of a turn day taken back, on disk before the screen says so."""

from __future__ import annotations

from typing import TYPE_CHECKING

from trayturn.procedure import separation
from trayturn.procedure.turn_day_back import back, separated_last, why_not_back
from trayturn.storage.errors import StorageError
from trayturn.tui.moving import go_back
from trayturn.tui.screens.turn_day.words import HAS_BEGUN

if TYPE_CHECKING:
    from trayturn.domain.day import TurnDay
    from trayturn.tui.app import TrayturnApp


def one_move_back(house: TrayturnApp, key: str, day: TurnDay) -> str:
    """Take back what the last move of the day wrote. Says what is in the way; empty once it is back."""
    loaded = house.shelf.loaded.get(key)
    profile = loaded.profile if loaded is not None else None
    if profile is None:
        return ""
    if held := why_not_back(profile, day, house.now):
        return held
    if (tray := separated_last(profile, day)) is not None:
        return separation.why_not_back(profile.journal, tray) or _separation_back(house, key, tray)
    taken = back(profile, day, house.now)
    if taken:
        house.save(key, taken)
    return "" if taken else HAS_BEGUN


def _separation_back(house: TrayturnApp, key: str, tray: str) -> str:
    """Its worms may have gone to another bin: they come back in both."""
    try:
        other = go_back(house.shelf, key, tray)
    except StorageError as trouble:
        return str(trouble)
    house.written.append(key)
    house.tell(key)
    if other:
        house.tell(other.key)
        house.say(other.words)
    return ""
