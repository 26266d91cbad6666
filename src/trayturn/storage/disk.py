"""Whole files to disk: a power cut at any point leaves the old file or the new one, never a part."""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from trayturn.domain.words import clean
from trayturn.storage.errors import Busy, NotSaved

MOST_BYTES = 100_000_000
LOCK_SECONDS = 2.0
LOOKS_FOR_A_PAIR = 3

FREE_SPACE = "Free some space and try again."
REASONS = {
    errno.ENOSPC: ("the disk is full", FREE_SPACE),
    getattr(errno, "EDQUOT", errno.ENOSPC): ("your share of the disk is used up", FREE_SPACE),
    errno.EFBIG: ("the disk takes no file this big", FREE_SPACE),
    errno.EROFS: ("the disk is read-only", "Make it writable, or choose another folder with --home."),
    errno.EACCES: ("you may not use it", "Check the permissions of the file and its folder."),
    errno.EPERM: ("you may not use it", "Check the permissions of the file and its folder."),
    errno.ENOENT: ("it is not there", "Put it back, or check the name."),
    errno.ENOTDIR: ("its folder is not a folder", "Check the path."),
    errno.EISDIR: ("it is a folder", "Name a file."),
    errno.ENAMETOOLONG: ("its name is too long", "Choose a shorter one."),
    errno.ELOOP: ("it is a link that leads nowhere", "Remove the link, or put the file back."),
    errno.EIO: ("the disk reported a fault", "Try again, and keep a copy on another disk."),
}


def in_words(error: OSError) -> tuple[str, str]:
    """Why the system refused, and what to do about it."""
    other = error.strerror or "the system refused"
    return REASONS.get(error.errno or 0, (other[:1].lower() + other[1:], "Try again."))


def read_file(path: Path) -> bytes:
    """Every byte of a plain file. Raises OSError, also for what is no plain file or is past 100 MB."""
    status = os.stat(path)
    if stat.S_ISDIR(status.st_mode):
        raise OSError(errno.EISDIR, "it is a folder")
    if not stat.S_ISREG(status.st_mode):
        raise OSError(None, "it is not a plain file")
    if status.st_size > MOST_BYTES:
        raise OSError(None, f"it is over {MOST_BYTES // 1_000_000} MB, far more than a journal needs")
    with open(path, "rb") as file:
        return file.read()


def replace_file(path: Path, data: bytes) -> None:
    """Put new content in the place of a file that is there, through a link if it is one. Raises OSError."""
    target = Path(os.path.realpath(path))
    mode = mode_of(target)
    # To replace a file it is enough that the folder is writable, but one made read-only is meant to stay.
    if not os.access(target, os.W_OK):
        raise OSError(errno.EACCES, "it is read-only")
    with _written(target, data, mode) as temporary:
        os.replace(temporary, target)
    sync_folder(target.parent)


def mode_of(path: Path) -> int:
    """Who may read and write a file, for another that is to hold the same. Raises OSError."""
    return stat.S_IMODE(os.stat(path).st_mode)


def create_file(path: Path, data: bytes, mode: int | None = None) -> None:
    """Write a new file. Raises FileExistsError rather than touch one that is there, and other OSErrors."""
    with _written(path, data, mode) as temporary:
        claim(temporary, path)
    sync_folder(path.parent)


@contextmanager
def saving(path: Path, done: str = "saved") -> Iterator[None]:
    """Hold the file against other windows of this program while something is done to it.

    What was begun with it and another file at once, and was cut short, is finished first. Raises `Busy` after
    two seconds of waiting, and `NotSaved` for any OSError inside.
    """
    from trayturn.storage.pending import awaited, finish_pending

    target = Path(os.path.realpath(path))
    try:
        for _ in range(LOOKS_FOR_A_PAIR):
            finish_pending(path.parent, wait=True)
            with locked(target):
                if target not in awaited(path.parent):
                    yield
                    return
    except OSError as error:
        raise refusal(path, error, done) from error
    raise NotSaved(
        f"{clean(path.name)} was not {done}: it was being written together with another bin, and that was "
        "cut short and cannot be finished. Check that both files can be read and written, and try again."
    )


def refusal(path: Path, error: OSError, done: str = "saved") -> NotSaved:
    """The one sentence for the keeper when a file could not be written, and what to do."""
    reason, cure = in_words(error)
    return NotSaved(f"{clean(path.name)} in {clean(str(path.parent))} was not {done}: {reason}. {cure}")


@contextmanager
def locked(target: Path, wait: bool = True, said: str = "") -> Iterator[None]:
    """Hold a file by its lock beside it, called `said`. Raises `Busy`, after two seconds or at once."""
    from filelock import FileLock, Timeout

    # The lock would make a missing folder, and a bin whose folder is gone must not come back empty.
    os.stat(target.parent)
    seconds = LOCK_SECONDS if wait else 0
    lock = FileLock(target.with_name(f".{target.name}.lock"), timeout=seconds, poll_interval=0.02)
    try:
        held = lock.acquire()
    except Timeout:
        name = said or clean(target.name)
        raise Busy(f"{name} was not saved: another window is saving. Try again in a moment.") from None
    with held:
        yield


@contextmanager
def _written(target: Path, data: bytes, mode: int | None = None) -> Iterator[Path]:
    """A finished temporary file beside the target. One left by a crash is hidden, and no profile."""
    temporary = target.with_name(f".{target.name}.{os.getpid()}.tmp")
    try:
        write_through(temporary, data, mode)
        yield temporary
    finally:
        with suppress(OSError):
            os.unlink(temporary)


def write_through(temporary: Path, data: bytes, mode: int | None = None) -> None:
    """Write a file down to the disk itself, over what may stand there. Raises OSError."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_TRUNC | getattr(os, "O_BINARY", 0)
    handle = os.open(temporary, flags, 0o666 if mode is None else mode)
    try:
        if mode is not None and hasattr(os, "fchmod"):
            os.fchmod(handle, mode)
        left = memoryview(data)
        while left:
            left = left[os.write(handle, left) :]
        os.fsync(handle)
    finally:
        os.close(handle)


def claim(temporary: Path, target: Path) -> None:
    """Give a finished file its name, which must be free: a hard link refuses a name that is taken."""
    try:
        os.link(temporary, target)
    except FileExistsError:
        raise
    except OSError:
        # Some disks have no hard links.
        if os.path.lexists(target):
            raise FileExistsError(errno.EEXIST, "it is there already") from None
        os.replace(temporary, target)


def sync_folder(folder: Path) -> None:
    """Make the new name last through a power cut.

    The file is in its place by now. Were a refusal here an error, the keeper would save the entry twice.
    """
    if os.name != "posix":
        return
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
