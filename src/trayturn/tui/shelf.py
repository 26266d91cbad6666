"""The keeper's bins in memory: what was read, what stands now, and the one way to write.

Nothing here draws. What costs time to import is imported where it is first needed, after the first frame.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from trayturn.clock import Clock
from trayturn.storage.home import list_profiles

if TYPE_CHECKING:
    from trayturn.domain.entries import Entry, Undone
    from trayturn.domain.stack import Stack
    from trayturn.procedure.rests import RunningRest
    from trayturn.storage.reading import Loaded

FRESH = timedelta(minutes=1)
"""How long a replayed stack serves: ages are shown in days, and no screen needs them finer."""


@dataclass
class Shelf:
    """Every profile of a home. `clock` gives the moment; `home` is the folder."""

    home: Path
    clock: Clock
    loaded: dict[str, Loaded] = field(default_factory=dict)
    _stacks: dict[str, tuple[Loaded, Stack]] = field(default_factory=dict)
    _stamps: dict[Path, tuple[int, int]] = field(default_factory=dict)

    def paths(self) -> list[Path]:
        """The profiles on disk, by name."""
        return list_profiles(self.home)

    def read(self, path: Path) -> Iterator[int]:
        """Read one profile in pieces, so that keys are answered meanwhile; it counts once all is read."""
        from trayturn.storage.reading import load_in_pieces

        stamp = _stamp(path)
        loaded = yield from load_in_pieces(path)
        self.loaded[loaded.key] = loaded
        self._stamps[path] = stamp

    def read_all(self) -> None:
        """Read every profile at once."""
        for path in self.paths():
            for _ in self.read(path):
                pass

    def changed(self) -> list[Path]:
        """Profiles that another window or an editor has written, added or removed since they were read."""
        on_disk = self.paths()
        for key in [
            key
            for key, one in self.loaded.items()
            if one.path not in on_disk and one.path.parent == self.home
        ]:
            self.forget(key)
        return [path for path in on_disk if self._stamps.get(path) != _stamp(path)]

    def forget(self, key: str) -> None:
        """The profile is no longer here."""
        one = self.loaded.pop(key, None)
        if one is not None:
            self._stamps.pop(one.path, None)

    def put(self, loaded: Loaded) -> None:
        """What was just written is what is known."""
        self.loaded[loaded.key] = loaded
        self._stamps[loaded.path] = _stamp(loaded.path)

    def stack(self, key: str, now: datetime | None = None) -> Stack | None:
        """The bin as it stands; None while it is unread or cannot be read."""
        from trayturn.domain.replay import present, replay

        loaded = self.loaded.get(key)
        if loaded is None or loaded.profile is None:
            return None
        now = present(loaded.profile, now or self.clock())
        kept = self._stacks.get(key)
        if kept is None or kept[0] is not loaded or not timedelta(0) <= now - kept[1].as_of < FRESH:
            self._stacks[key] = kept = (loaded, replay(loaded.profile, now))
        return kept[1]

    def stacks(self) -> list[Stack]:
        """Every readable bin as it stands, by name."""
        stacks = [stack for key in self.loaded if (stack := self.stack(key)) is not None]
        return sorted(stacks, key=lambda stack: stack.setup.name.casefold())

    def rests(self) -> list[RunningRest]:
        """Every timed step under way, across bins."""
        if not self.loaded:
            return []
        from trayturn.procedure.rests import running_rests

        return running_rests(self.stacks(), self.clock())

    def save(self, key: str, entries: Sequence[Entry]) -> None:
        """Write entries to the bin's file. Raises `StorageError`; on return they are on disk."""
        from trayturn.storage.saving import append

        self.put(append(self.loaded[key], entries))

    def undo(self, key: str) -> list[Undone]:
        """Take back the last thing done to the bin. Raises `StorageError`; returns what was taken back."""
        from trayturn.procedure.undoing import take_back

        loaded = self.loaded[key]
        taken = take_back(loaded.profile.journal, self.clock()) if loaded.profile is not None else []
        if taken:
            self.save(key, taken)
        return taken


def _stamp(path: Path) -> tuple[int, int]:
    try:
        stat = path.stat()
    except OSError:
        return 0, 0
    return stat.st_mtime_ns, stat.st_size
