"""Taking back the last act of a bin; worms that moved between two bins go back in both."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from trayturn.cli.opening import readable
from trayturn.domain.entries import Undone
from trayturn.domain.words import clean
from trayturn.procedure.undoing import (
    are_halves,
    half_of_a_move,
    holds_half,
    name_act,
    other_bin,
    take_back,
    take_back_both,
)
from trayturn.storage.home import list_profiles, named
from trayturn.storage.pair import undo_both
from trayturn.storage.reading import Loaded, load
from trayturn.storage.saving import undo

STAYS = " {name} has gone on since, and what it has of it stays: take it back there too if it is to go."


def take_back_last(loaded: Loaded, now: datetime) -> tuple[Loaded, Sequence[Undone], str]:
    """The bin without its last act, the entries that took it back, and what to say. Raises `StorageError`."""
    profile = readable(loaded)
    other = _other(loaded)
    if other is None or not are_halves(profile, readable(other)):
        saved, alone = undo(loaded, lambda journal: take_back(journal, now))
        stays = "" if other is None else STAYS.format(name=clean(readable(other).bin.name, 40))
        return saved, alone, _said(loaded, saved, alone) + stays
    saved, second, taken, also = undo_both(loaded, other, lambda one, two: take_back_both(one, two, now))
    said = _said(loaded, saved, taken)
    return saved, taken, f"{said} {_said(other, second, also)}" if also else said


def _other(loaded: Loaded) -> Loaded | None:
    """The bin that has the other half of the last act."""
    profile = readable(loaded)
    half = half_of_a_move(profile.journal)
    if half is None:
        return None
    folder = loaded.path.parent
    first = named(folder, other_bin(half))
    # The bin of that name comes first; where it was renamed since, any of the others may be the one.
    near = [*([first] if first is not None else []), *list_profiles(folder)]
    others = (load(path) for path in dict.fromkeys(near) if path != loaded.path)
    name = profile.bin.name
    return next((one for one in others if not one.problems and holds_half(readable(one), half, name)), None)


def _said(before: Loaded, saved: Loaded, taken: Sequence[Undone]) -> str:
    return f"Taken back in {readable(before).bin.name}: {name_act(readable(saved).journal, len(taken))}."
