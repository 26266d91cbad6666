"""What can go wrong with a file. The text of each is one or two plain sentences for the keeper."""

from __future__ import annotations

from collections.abc import Sequence

from trayturn.domain.problems import Problem


class StorageError(Exception):
    """Something on disk did not work out. No file was changed."""


class NameRefused(StorageError):
    """A name that a bin cannot have."""


class NotFound(StorageError):
    """No profile of that name."""


class Busy(StorageError):
    """Another window holds the file."""


class NotSaved(StorageError):
    """The disk, the system or the text itself stood in the way of a save."""


class NothingToUndo(StorageError):
    """Every entry of the journal is undone already, or there is none."""


class Unreadable(StorageError):
    """A file that cannot be read as a profile, so nothing may be added to it. `problems` says where."""

    def __init__(self, sentence: str, problems: Sequence[Problem]) -> None:
        super().__init__(sentence)
        self.problems = tuple(problems)
