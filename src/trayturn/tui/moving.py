"""Worms moved between two bins of the shelf, and taken back in both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trayturn.domain.entries import Entry
from trayturn.procedure.separation import back, settle_between
from trayturn.procedure.splitting import split_between, split_off
from trayturn.procedure.undoing import (
    are_halves,
    go_back_both,
    half_of_a_move,
    holds_half,
    name_act,
    take_back_both,
)
from trayturn.storage.managing import checked_name
from trayturn.storage.pair import Fresh, append_and_create, append_both
from trayturn.storage.pair import undo_both as undo_both_files
from trayturn.tui.shelf import shown_name

if TYPE_CHECKING:
    from trayturn.domain.profile import Profile
    from trayturn.domain.stack import Stack
    from trayturn.procedure.separation import Settling
    from trayturn.procedure.splitting import Split
    from trayturn.storage.reading import Loaded
    from trayturn.tui.shelf import Shelf


def others(shelf: Shelf, key: str) -> dict[str, Stack]:
    """The bins that worms of this one can move to, by short name: those that read well, in its folder."""
    one = shelf.loaded.get(key)
    if one is None:
        return {}
    near = [o for o in shelf.loaded.values() if o.path.parent == one.path.parent and not o.read_only]
    stacks = {o.key: stack for o in near if o.key != key and (stack := shelf.stack(o.key)) is not None}
    return dict(sorted(stacks.items(), key=lambda pair: pair[1].setup.name.casefold()))


def move(shelf: Shelf, key: str, what: Split, to: str | None, name: str) -> str:
    """Write moved worms in both bins, the other one made where `to` is None, and give its short name.

    Raises `StorageError` and `CannotSplit`; neither file has changed then.
    """
    one = shelf.known(key)
    if to is None:
        written = _to_a_new_bin(shelf, one, what, checked_name(name))
    else:
        written = append_both(one, shelf.known(to), lambda a, b: split_between(a, b, what, shelf.clock()))
    for loaded in written:
        shelf.put(loaded)
    return written[1].key


def _to_a_new_bin(shelf: Shelf, one: Loaded, what: Split, name: str) -> tuple[Loaded, Loaded]:
    def choose(profile: Profile) -> tuple[Sequence[Entry], Fresh]:
        out, setup, trays, into = split_off(profile, name, what, shelf.clock())
        return out, Fresh(setup, trays, tuple(into))

    return append_and_create(one, choose)


def settle_away(shelf: Shelf, key: str, settling: Settling, worms: Split, to: str) -> None:
    """Write the settling of a tray whose worms go to another bin, in both files.

    Raises `StorageError` and `CannotSplit`; neither file has changed then.
    """
    written = append_both(
        shelf.known(key),
        shelf.known(to),
        lambda a, b: settle_between(a, b, settling, worms, shelf.clock()),
    )
    for loaded in written:
        shelf.put(loaded)


@dataclass(frozen=True, slots=True)
class WentBack:
    """The other bin that going back in a separation has to do with, and what to say of it."""

    key: str
    words: str


def go_back(shelf: Shelf, key: str, tray: str) -> WentBack | None:
    """Go back one step in a separation; worms that it moved go back in both bins, if the other still can.

    Raises `StorageError`.
    """
    one = shelf.known(key)
    other = other_half(shelf, one, tray)
    if one.profile is None:
        return None
    if other is None or other.profile is None or not are_halves(one.profile, other.profile, tray):
        shelf.save(key, back(one.profile.journal, tray, shelf.clock()))
        return WentBack(other.key, f"{shown_name(other)} has gone on and keeps its worms.") if other else None
    for loaded in append_both(one, other, lambda a, b: go_back_both(a, b, tray, shelf.clock())):
        shelf.put(loaded)
    return WentBack(other.key, f"The worms are taken back in {shown_name(other)} too.")


def other_half(shelf: Shelf, one: Loaded, tray: str | None = None) -> Loaded | None:
    """The bin with the other half of worms that moved, where that was the last thing done to this one.

    With a tray it is the last move of that tray's separation that counts.
    """
    half = half_of_a_move(one.profile.journal, tray) if one.profile is not None else None
    if half is None or one.profile is None:
        return None
    name = one.profile.bin.name
    near = [o for o in shelf.loaded.values() if not o.read_only]
    return next((o for o in near if o.profile is not None and holds_half(o.profile, half, name)), None)


def undo_both(shelf: Shelf, one: Loaded, other: Loaded) -> str:
    """Take the move back in both bins and say so; empty where the other has gone on since.

    Raises `StorageError`.
    """
    if one.profile is None or other.profile is None or not are_halves(one.profile, other.profile):
        return ""
    first, second, taken, also = undo_both_files(one, other, lambda a, b: take_back_both(a, b, shelf.clock()))
    shelf.put(first)
    shelf.put(second)
    if also:
        return f"moved worms, here and in {shown_name(second)}"
    return name_act(first.profile.journal if first.profile is not None else (), len(taken))
