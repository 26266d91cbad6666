"""Worms moved between two bins of the shelf, and taken back in both."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from trayturn.domain.entries import Entry
from trayturn.procedure.splitting import split_between, split_off
from trayturn.procedure.undoing import are_halves, half_of_a_move, holds_half, name_act, take_back_both
from trayturn.storage.managing import checked_name
from trayturn.storage.pair import Fresh, append_and_create, append_both
from trayturn.storage.pair import undo_both as undo_both_files
from trayturn.tui.shelf import shown_name

if TYPE_CHECKING:
    from trayturn.domain.profile import Profile
    from trayturn.domain.stack import Stack
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


def other_half(shelf: Shelf, one: Loaded) -> Loaded | None:
    """The bin with the other half of worms that moved, where that was the last thing done to this one."""
    half = half_of_a_move(one.profile.journal) if one.profile is not None else None
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
