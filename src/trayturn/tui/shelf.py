"""The keeper's bins in memory: what was read, what stands now, and the one way to write.

Nothing here draws. What costs time to import is imported where it is first needed, after the first frame.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar, cast

from trayturn.clock import Clock
from trayturn.storage.errors import NotFound, NothingToUndo, StorageError
from trayturn.storage.home import list_profiles

if TYPE_CHECKING:
    from trayturn.domain.entries import Entry
    from trayturn.domain.profile import Profile
    from trayturn.domain.stack import Stack
    from trayturn.procedure.rests import RunningRest
    from trayturn.storage.reading import Loaded

T = TypeVar("T")

FRESH = timedelta(minutes=1)
"""How long a replayed stack serves: ages are shown in days, and no screen needs them finer."""


@dataclass
class Shelf:
    """Every profile of a home. `clock` gives the moment; `trouble` says why the folder cannot be read."""

    home: Path
    clock: Clock
    loaded: dict[str, Loaded] = field(default_factory=dict)
    trouble: str = ""
    _stacks: dict[str, tuple[Loaded, datetime, Stack]] = field(default_factory=dict)
    _stamps: dict[Path, tuple[int, int]] = field(default_factory=dict)
    _kept: dict[tuple[str, object], tuple[Profile, object]] = field(default_factory=dict)

    def paths(self) -> list[Path]:
        """The profiles on disk, by name. Where the folder cannot be looked into, those known from before.

        A file from elsewhere that was opened under the same short name takes the place of the one at home.
        """
        try:
            paths, self.trouble = list_profiles(self.home), ""
        except StorageError as trouble:
            paths, self.trouble = [one.path for one in self.loaded.values()], str(trouble)
        return [path for path in paths if path.stem not in self.loaded or self.loaded[path.stem].path == path]

    def read(self, path: Path) -> Iterator[int]:
        """Read one profile in pieces, so that keys are answered meanwhile; it counts once all is read.

        It is replayed here too: the first screen to ask would otherwise hold up a key.
        """
        from trayturn.storage.reading import load_in_pieces

        stamp = _stamp(path)
        loaded = yield from load_in_pieces(path)
        self._stand(loaded, self.clock())
        self.loaded[loaded.key] = loaded
        self._stamps[path] = stamp

    def read_all(self) -> None:
        """Read every profile at once."""
        for path in self.paths():
            for _ in self.read(path):
                pass

    def changed(self) -> list[Path]:
        """Profiles that another window or an editor has written or added since they were read.

        Those that are gone are forgotten.
        """
        on_disk = self.paths()
        away = [one for one in self.loaded.values() if one.path not in on_disk]
        for one in away:
            if one.path.parent == self.home:
                self.forget(one.key)
        watched = [*on_disk, *(one.path for one in away if one.path.parent != self.home)]
        return [path for path in watched if self._stamps.get(path) != _stamp(path)]

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
        loaded = self.loaded.get(key)
        return self._stand(loaded, now or self.clock()) if loaded is not None else None

    def _stand(self, loaded: Loaded, now: datetime) -> Stack | None:
        if loaded.profile is None:
            return None
        from trayturn.domain.replay import replay_now

        kept = self._stacks.get(loaded.key)
        if kept is None or kept[0] is not loaded or not timedelta(0) <= now - kept[1] < FRESH:
            self._stacks[loaded.key] = kept = (loaded, now, replay_now(loaded.profile, now))
        return kept[2]

    def drop_stacks(self) -> None:
        """What stood a moment ago is out of date: a rest has ended, or a day begun."""
        self._stacks.clear()

    def kept(self, profile: Profile, work: Callable[[Profile], T]) -> T:
        """What is worked out from a profile, worked out again only when the bin's profile is another."""
        known = self._kept.get((profile.key, work))
        if known is None or known[0] is not profile:
            self._kept[profile.key, work] = known = (profile, work(profile))
        return cast("T", known[1])

    def stacks(self) -> list[Stack]:
        """Every readable bin as it stands, by name."""
        stacks = [stack for key in list(self.loaded) if (stack := self.stack(key)) is not None]
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

        self.put(append(self.known(key), entries))

    def known(self, key: str) -> Loaded:
        """The bin as it was read. Raises `NotFound` once its file is gone."""
        if key not in self.loaded:
            from trayturn.domain.words import clean

            raise NotFound(
                f"{clean(key)}.toml is gone from {clean(str(self.home))}. Put it back and try again;"
                " nothing on this screen is lost."
            )
        return self.loaded[key]

    def undo(self, key: str) -> str:
        """Take back the last thing done to the bin, and name it; empty when there is nothing to take back.

        Worms that moved go back in both bins, where the other has not gone on since. Raises `StorageError`.
        What is last is looked up in the file as it stands.
        """
        from trayturn.procedure.undoing import name_act, take_back
        from trayturn.storage.saving import undo
        from trayturn.tui.moving import other_half, undo_both

        before = self.known(key)
        other = other_half(self, before)
        try:
            if other is not None and (said := undo_both(self, before, other)):
                return said
            loaded, taken = undo(before, lambda journal: take_back(journal, self.clock()))
        except NothingToUndo:
            return ""
        self.put(loaded)
        if other is not None:
            return f"this half; {shown_name(other)} keeps its own"
        journal = loaded.profile.journal if loaded.profile is not None else ()
        return name_act(journal, len(taken))


def shown_name(loaded: Loaded) -> str:
    """The bin's shown name."""
    from trayturn.domain.words import clean

    return clean(loaded.profile.bin.name, 40) if loaded.profile is not None else loaded.key


def _stamp(path: Path) -> tuple[int, int]:
    try:
        stat = path.stat()
    except OSError:
        return 0, 0
    return stat.st_mtime_ns, stat.st_size
