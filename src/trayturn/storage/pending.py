"""Two files written as one: a note of both halves stands beside them until both stand, or neither does.

A window may be killed, or the power cut, between the two. Whoever next looks into the folder finds the note
and finishes what it says, or takes it back. A half is text added at the end of a file, or a whole new file:
it can be told whether it stands, whatever else has been written there since.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

from trayturn.domain.words import clean, listed
from trayturn.storage.disk import (
    locked,
    mode_of,
    read_file,
    sync_folder,
    write_through,
)
from trayturn.storage.errors import Busy, NotSaved, StorageError
from trayturn.storage.halves import Half
from trayturn.storage.home import PAIR

NOTED = ("name", "before", "after", "added")
UNFINISHED = (
    "What was begun in {names} cannot be finished now. Do not write it again: it is finished, or taken back, "
    "once both files can be read and written."
)


def write_both(folder: Path, halves: Sequence[tuple[Half, bytes]]) -> None:
    """Bring both files to their new content, or neither. Both are locked. Raises OSError and `StorageError`.

    On trouble both are as they were; should that fail too, whoever comes next tries again.
    """
    try:
        for half, content in halves:
            write_through(half.temporary, content, mode_of(half.path) if half.before else None)
            sync_folder(half.path.parent)
        _note(folder, [half for half, _ in halves])
    except OSError:
        _tidy(folder, [half for half, _ in halves])
        raise
    if not _finish(folder, [half for half, _ in halves]):
        raise NotSaved("Nothing was saved: another program wrote to a file at that very moment. Try again.")


def finish_pending(folder: Path, wait: bool = False) -> None:
    """Finish what was begun with two files of this folder and cut short, or take it back.

    While another window is at it, it is left to that one, unless this one is to `wait`: then raises `Busy`.
    What cannot be finished now stays noted for later.
    """
    if not os.path.lexists(folder / PAIR):
        return
    try:
        noted = _noted(folder)
        with holding(folder, [half.path for half in noted], wait):
            if _noted(folder) == noted:
                _finish(folder, noted)
    except Busy:
        if wait:
            raise
    except (OSError, StorageError):
        pass


def awaited(folder: Path) -> set[Path]:
    """The files that are still to be finished together in this folder."""
    return {half.path for half in _noted(folder)} if os.path.lexists(folder / PAIR) else set()


@contextmanager
def holding(folder: Path, targets: Sequence[Path], wait: bool = True) -> Iterator[None]:
    """Hold two files, and the right to write two at once; in one order, so that nobody waits in a circle."""
    with ExitStack() as held:
        held.enter_context(locked(Path(os.path.realpath(folder)) / PAIR, wait, "It"))
        for target in sorted(set(targets)):
            held.enter_context(locked(target, wait))
        yield


def _noted(folder: Path) -> list[Half]:
    """The halves of the note; none where there is no whole one. Raises OSError where it cannot be read."""
    try:
        return [_read(folder, half) for half in json.loads(read_file(folder / PAIR))["halves"]]
    except (FileNotFoundError, ValueError, TypeError, KeyError):
        return []


def _read(folder: Path, half: dict[str, str]) -> Half:
    """A half as noted. Raises KeyError or ValueError for what is none, such as a path out of the folder."""
    name, before, after, added = (str(half[key]) for key in NOTED)
    if name != os.path.basename(name) or name.startswith("."):
        raise ValueError(name)
    return Half(folder, name, before, after, added)


def _note(folder: Path, halves: Sequence[Half]) -> None:
    """The note is in its place only once all of it is on disk."""
    rows = [{key: getattr(half, key) for key in NOTED} for half in halves]
    text = json.dumps({"format": 1, "halves": rows}, indent=1)
    written = folder / f"{PAIR}.tmp"
    write_through(written, text.encode())
    os.replace(written, folder / PAIR)
    sync_folder(folder)


def _tidy(folder: Path, halves: Sequence[Half]) -> None:
    """Nothing waits any more. The note goes last."""
    for path in (*(half.temporary for half in halves), folder / f"{PAIR}.tmp", folder / PAIR):
        with suppress(OSError):
            os.unlink(path)


def _finish(folder: Path, halves: Sequence[Half]) -> bool:
    """Both halves, or neither: True where both stand, False where nothing was begun and something is amiss.

    Raises OSError or `StorageError` where a half could not be put in its place: neither stands then, unless
    the note does.
    """
    standing = [half.stands() for half in halves]
    begun = any(standing) or all(half.is_ready() for half in halves)
    if begun:
        try:
            for half, stands in zip(halves, standing, strict=True):
                if not stands:
                    half.put()
        except (OSError, StorageError) as trouble:
            if not _taken_back(folder, halves):
                names = listed(clean(half.name) for half in halves)
                raise NotSaved(UNFINISHED.format(names=names)) from trouble
            raise
    _tidy(folder, halves)
    return begun


def _taken_back(folder: Path, halves: Sequence[Half]) -> bool:
    """Take out the halves that stand, and the note. False where that cannot be done either."""
    try:
        for half in halves:
            if half.stands():
                half.take_out()
    except (OSError, StorageError):
        return False
    _tidy(folder, halves)
    return not os.path.lexists(folder / PAIR)
