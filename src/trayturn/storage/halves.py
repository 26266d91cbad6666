"""Half of what is written to two files at once: text added at the end of a file, or a whole new file."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from trayturn.domain.words import clean
from trayturn.storage.disk import claim, create_file, read_file, replace_file, sync_folder
from trayturn.storage.errors import NotSaved


@dataclass(frozen=True, slots=True)
class Half:
    """One of two files of a folder: `added` is what it gains, `before` and `after` are digests of it all.

    `before` is empty for a file that is new.
    """

    folder: Path
    name: str
    before: str
    after: str
    added: str

    @property
    def path(self) -> Path:
        """The file itself, behind a link if it is one."""
        return Path(os.path.realpath(self.folder / self.name))

    @property
    def temporary(self) -> Path:
        """The file's new content, finished and waiting. It is hidden, and no profile."""
        return self.path.with_name(f".{self.path.name}.pair")

    @property
    def gain(self) -> bytes:
        """What the file gains, as it stands on disk."""
        return self.added.encode("utf-8")

    def _content(self) -> bytes | None:
        """What stands in the file; None where there is none."""
        try:
            return read_file(self.path)
        except FileNotFoundError:
            return None

    def stands(self) -> bool:
        """Whether the file has its half. One that somebody changed since is looked through for it."""
        content = self._content()
        if content is None or digest(content) in (self.before, self.after):
            return content is not None and digest(content) == self.after
        journal = max(0, self.added.find("[[journal]]")) if not self.before else 0
        return _plain(self.added[journal:].encode()) in _plain(content)

    def is_ready(self) -> bool:
        """Whether nothing stands in the way of putting the half in its place."""
        content = self._content()
        stood = digest(content) if content is not None else ""
        return stood == self.before and self._waits()

    def _waits(self) -> bool:
        try:
            return digest(read_file(self.temporary)) == self.after
        except OSError:
            return False

    def put(self) -> None:
        """Bring the file to have its half, and keep all that was written to it since."""
        if self.is_ready():
            (os.replace if self.before else claim)(self.temporary, self.path)
            sync_folder(self.path.parent)
        elif not self.before:
            create_file(self.path, self.gain)
        else:
            self._grow(lambda content: content + (b"" if content.endswith(b"\n") else b"\n") + self.gain)

    def take_out(self) -> None:
        """Bring the file back to be without its half."""
        content = self._content()
        if not self.before and content == self.gain:
            os.unlink(self.path)
            sync_folder(self.path.parent)
        elif content is not None and content.count(self.gain) == 1 and self.before:
            self._grow(lambda content: content.replace(self.gain, b""))
        else:
            raise NotSaved(
                f"{clean(self.path.name)} was changed meanwhile, so its half cannot be taken back."
            )

    def _grow(self, change: Callable[[bytes], bytes]) -> None:
        """Change a file that reads well, so that it still does. Raises `NotSaved`, and OSError."""
        from trayturn.storage.reading import parse

        content = read_file(self.path)
        changed = change(content)
        for each in (content, changed):
            if parse(self.path, each).problems:
                raise NotSaved(f"{clean(self.path.name)} was changed meanwhile and can no longer be read.")
        replace_file(self.path, changed)


def digest(content: bytes) -> str:
    """A content told from every other."""
    return sha256(content).hexdigest()


def _plain(content: bytes) -> bytes:
    """Without what an editor may do to the ends of lines."""
    return content.replace(b"\r\n", b"\n").strip()
