"""Adding to two profiles at once: both are written, or neither."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from trayturn.domain.entries import Entry, Undone
from trayturn.domain.profile import Profile
from trayturn.domain.setup import BinSetup, Tray
from trayturn.domain.words import clean
from trayturn.storage.blocks import profile_text
from trayturn.storage.disk import read_file, refusal
from trayturn.storage.errors import NameRefused, NothingToUndo, NotSaved
from trayturn.storage.halves import Half, digest
from trayturn.storage.home import key_for, list_profiles, profile_path
from trayturn.storage.managing import refuse_twin
from trayturn.storage.pending import awaited, finish_pending, holding, write_both
from trayturn.storage.reading import Loaded, parse
from trayturn.storage.saving import encode, refuse_broken, reread, written_down

UNFINISHED = (
    "Two other bins of this folder were being written together; that was cut short and cannot be finished. "
    "Check that their files can be read and written, and try again."
)
Both = tuple[Sequence[Entry], Sequence[Entry]]
BothUndone = tuple[Sequence[Undone], Sequence[Undone]]


@dataclass(frozen=True, slots=True)
class Fresh:
    """A bin that is made together with an addition to another."""

    setup: BinSetup
    trays: tuple[Tray, ...]
    entries: tuple[Entry, ...]


def append_both(
    one: Loaded, two: Loaded, choose: Callable[[Profile, Profile], Both]
) -> tuple[Loaded, Loaded]:
    """Add entries to the ends of both files, and give both profiles as they now stand.

    `choose` is given the profiles as they stand in the files at that moment. What others wrote meanwhile is
    kept. Raises `Unreadable` for a file with problems, `Busy`, and `NotSaved`; both are then as they were.
    """
    for loaded in (one, two):
        refuse_broken(loaded, "has problems, so it is open for reading only")
    with _holding(one.path, two.path):
        first, second = (reread(loaded) for loaded in (one, two))
        chosen = choose(first[1], second[1])
        grown = [
            _grown(loaded, entries) for (loaded, _), entries in zip((first, second), chosen, strict=True)
        ]
        write_both(_folder(one.path), [(half, now.raw) for now, half in grown if half is not None])
        left, right = (_as_on_disk(now) for now, _ in grown)
    return left, right


def undo_both(
    one: Loaded,
    two: Loaded,
    take_back: Callable[[Profile, Profile], tuple[Sequence[Undone], Sequence[Undone]]],
) -> tuple[Loaded, Loaded, Sequence[Undone], Sequence[Undone]]:
    """Add what takes entries back in both files, and give that too: of the second there may be nothing.

    `take_back` chooses them in the journals as they stand in the files now. Raises `NothingToUndo` when it
    finds none in the first, and what `append_both` raises.
    """
    taken: list[Sequence[Undone]] = []

    def choose(first: Profile, second: Profile) -> Both:
        taken[:] = take_back(first, second)
        if not taken[0]:
            raise NothingToUndo(f"There is no entry left to undo in {clean(one.path.name)}.")
        return taken[0], taken[1]

    left, right = append_both(one, two, choose)
    return left, right, taken[0], taken[1]


def append_and_create(
    one: Loaded, choose: Callable[[Profile], tuple[Sequence[Entry], Fresh]]
) -> tuple[Loaded, Loaded]:
    """Add entries to the end of a file and make another bin beside it, in one act.

    Raises `NameRefused` for a name that is taken, and what `append_both` raises; nothing is then made.
    """
    profile = refuse_broken(one, "has problems, so it is open for reading only")
    home, name = one.path.parent, choose(profile)[1].setup.name
    refuse_twin(home, name)
    path = profile_path(home, key_for(name, {path.stem for path in list_profiles(home)}))
    with _holding(one.path, path):
        if os.path.lexists(path):
            raise NameRefused(f"The short name {path.stem!r} is taken. Choose another.")
        current, profile = reread(one)
        entries, fresh = choose(profile)
        made, new = _made(path, fresh)
        grown, half = _grown(current, entries)
        gains = [(half, grown.raw)] if half is not None else []
        write_both(_folder(one.path), [(new, made.raw), *gains])
        left, right = _as_on_disk(grown), _as_on_disk(made)
    return left, right


@contextmanager
def _holding(one: Path, two: Path) -> Iterator[None]:
    """Hold both files. Raises `Busy`, and `NotSaved` for an OSError inside and for files that are no pair."""
    targets = [Path(os.path.realpath(path)) for path in (one, two)]
    if targets[0] == targets[1]:
        raise NotSaved(f"{clean(one.name)} and {clean(two.name)} are the same bin. Choose another.")
    if _folder(one) != _folder(two):
        raise NotSaved(
            f"{clean(one.name)} and {clean(two.name)} are in different folders, and only bins of one folder "
            "can be written together. Move one of them first."
        )
    folder = _folder(one)
    try:
        finish_pending(folder, wait=True)
        with holding(folder, targets):
            if awaited(folder):
                raise NotSaved(UNFINISHED)
            yield
    except OSError as error:
        raise refusal(one, error, f"written together with {clean(two.name)}") from error


def _folder(path: Path) -> Path:
    return Path(os.path.realpath(path.parent))


def _grown(loaded: Loaded, entries: Sequence[Entry]) -> tuple[Loaded, Half | None]:
    """The profile with its entries, and what its file gains; nothing where there are none. Raises OSError."""
    if not entries or loaded.profile is None:
        return loaded, None
    # To replace a file it is enough that the folder is writable, but one made read-only is meant to stay.
    if not os.access(loaded.path, os.W_OK):
        raise OSError(errno.EACCES, "it is read-only")
    added, kept = written_down(loaded, entries, loaded.raw)
    raw = loaded.raw + added
    before, text = digest(loaded.raw), added.decode("utf-8")
    half = Half(_folder(loaded.path), loaded.path.name, before, digest(raw), text)
    return replace(loaded, raw=raw, profile=loaded.profile.with_entries(kept)), half


def _made(path: Path, fresh: Fresh) -> tuple[Loaded, Half]:
    """The new bin, and its file. Raises `NotSaved` where it could not be read again."""
    raw = encode(profile_text(fresh.setup, fresh.trays, fresh.entries))
    made = parse(path, raw)
    if made.problems:
        raise NotSaved(
            f"The bin was not made: {clean(str(made.problems[0]), 500)}. Correct it and try again."
        )
    return made, Half(_folder(path), path.name, "", digest(raw), raw.decode("utf-8"))


def _as_on_disk(expected: Loaded) -> Loaded:
    """What was written, with anything that an editor wrote at the same moment."""
    raw = read_file(expected.path)
    return expected if raw == expected.raw else parse(expected.path, raw)
