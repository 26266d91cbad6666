"""A save cut short: every system call fails in turn, and the process dies at every one."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import filelock
import pytest

from tests.storage.files import HAND_WRITTEN, NOW, note, rename, undo_last, write
from trayturn.domain.setup import BinSetup, Tray
from trayturn.storage import disk, managing, saving
from trayturn.storage.errors import NotSaved, StorageError
from trayturn.storage.home import list_profiles
from trayturn.storage.reading import load
from trayturn.storage.saving import append


class Killed(BaseException):
    """The process is gone: not even its clean-up runs."""


class FailingOs:
    """The `os` module, but call number `fails_at` does not work out; after a kill, nor does any later one."""

    def __init__(self, fails_at: int, trouble: BaseException, short_writes: bool = False) -> None:
        self.fails_at, self.trouble, self.short_writes = fails_at, trouble, short_writes
        self.calls: list[str] = []

    def __getattr__(self, name: str) -> Any:
        real = getattr(os, name)
        if not callable(real) or isinstance(real, type):
            return real

        def call(*args: Any, **options: Any) -> Any:
            self.calls.append(name)
            dead = isinstance(self.trouble, Killed) and len(self.calls) > self.fails_at
            if len(self.calls) == self.fails_at or dead:
                if name == "close":
                    real(*args)  # the system lets go of the file either way
                raise self.trouble
            if name == "write" and self.short_writes:
                return real(args[0], bytes(args[1][:100]))
            return real(*args, **options)

        return call


Work = Callable[[Path], object]


def append_one(home: Path) -> object:
    return append(load(home / "pantry.toml"), [note("saved")])


def undo_one(home: Path) -> object:
    return undo_last(load(home / "pantry.toml"))


def rename_it(home: Path) -> object:
    return rename(load(home / "pantry.toml"), "Larder", NOW)


def archive_it(home: Path) -> object:
    return managing.archive(load(home / "pantry.toml"), home)


def create_one(home: Path) -> object:
    return managing.create(home, BinSetup(name="Attic"), [Tray(id="A")], [note("new")])


def contents(home: Path) -> dict[str, bytes]:
    """Every visible file under the home."""
    files = [path for path in home.rglob("*") if path.is_file() and not path.name.startswith(".")]
    return {str(path.relative_to(home)): path.read_bytes() for path in files}


def attempt(
    home: Path, work: Work, failing: FailingOs, monkeypatch: pytest.MonkeyPatch
) -> BaseException | None:
    write(home)
    with monkeypatch.context() as patch:
        patch.setattr(disk, "os", failing)
        patch.setattr(managing, "os", failing)
        try:
            work(home)
        except (Killed, StorageError) as trouble:
            return trouble
    return None


def calls_of(work: Work, home: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[list[str], dict[str, bytes]]:
    home.mkdir()
    counting = FailingOs(0, OSError())
    assert attempt(home, work, counting, monkeypatch) is None
    return counting.calls, contents(home)


WORKS = [append_one, undo_one, rename_it, archive_it, create_one]
TROUBLES = [
    OSError(errno.ENOSPC, "No space left on device"),
    OSError(errno.EIO, "Input/output error"),
    Killed(),
]


@pytest.mark.parametrize("trouble", TROUBLES, ids=["full", "fault", "killed"])
@pytest.mark.parametrize("work", WORKS)
def test_a_call_that_fails_leaves_the_old_file_or_the_new_one_whole(
    work: Work, trouble: BaseException, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls, after = calls_of(work, tmp_path / "sound", monkeypatch)
    assert {"open", "write", "fsync", "close"} <= set(calls)
    before = {"pantry.toml": HAND_WRITTEN.encode()}
    for number, name in enumerate(calls, 1):
        home = tmp_path / f"{number}-{name}"
        home.mkdir()
        raised = attempt(home, work, FailingOs(number, trouble), monkeypatch)
        left = contents(home)
        for file, content in left.items():
            assert content in (before.get(file), after.get(file)), f"call {number}, {name}: {file} is torn"
        assert HAND_WRITTEN.encode() in left.values() or left == after
        if raised is None:
            assert left == after
        elif isinstance(raised, StorageError):
            assert left.get("pantry.toml") == before["pantry.toml"], (
                f"call {number}, {name}: told unsaved, but is"
            )
            assert not list(home.rglob(".*.tmp"))
        for path in list_profiles(home):
            assert not load(path).read_only


@pytest.mark.parametrize("trouble", TROUBLES[:2], ids=["full", "fault"])
def test_a_save_told_as_failed_can_be_tried_again_and_counts_once(
    trouble: BaseException, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls, after = calls_of(append_one, tmp_path / "sound", monkeypatch)
    for number in range(1, len(calls) + 1):
        home = tmp_path / str(number)
        home.mkdir()
        raised = attempt(home, append_one, FailingOs(number, trouble), monkeypatch)
        if isinstance(raised, StorageError):
            append_one(home)
        assert contents(home) == after


def test_all_is_on_disk_before_the_name_moves_and_the_name_after(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls, _ = calls_of(append_one, tmp_path / "sound", monkeypatch)
    moved = calls.index("replace")
    assert "fsync" in calls[calls.index("write") : moved]
    assert "fsync" in calls[moved:]


def test_short_writes_are_carried_on(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    calls, after = calls_of(append_one, tmp_path / "sound", monkeypatch)
    home = tmp_path / "short"
    home.mkdir()
    slow = FailingOs(0, OSError(), short_writes=True)
    assert attempt(home, append_one, slow, monkeypatch) is None
    assert slow.calls.count("write") > calls.count("write")
    assert contents(home) == after


def test_a_temporary_file_left_by_a_crash_is_no_profile_and_harms_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls, _ = calls_of(append_one, tmp_path / "sound", monkeypatch)
    home = tmp_path / "crashed"
    home.mkdir()
    attempt(home, append_one, FailingOs(calls.index("fsync") + 1, Killed()), monkeypatch)
    assert len(list(home.glob(".*.tmp"))) == 1
    assert list_profiles(home) == [home / "pantry.toml"]
    append_one(home)
    assert load(home / "pantry.toml").raw.startswith(HAND_WRITTEN.encode())
    assert not list(home.glob(".*.tmp"))


def test_a_disk_without_hard_links_still_never_overwrites(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*args: object) -> None:
        raise PermissionError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(os, "link", no_links)
    path = tmp_path / "new.toml"
    disk.create_file(path, b"first")
    with pytest.raises(FileExistsError):
        disk.create_file(path, b"second")
    assert path.read_bytes() == b"first"
    assert list(tmp_path.iterdir()) == [path]


SAID = [
    (errno.ENOSPC, "the disk is full. Free some space"),
    (errno.EDQUOT, "your share of the disk is used up. Free some space"),
    (errno.EROFS, "the disk is read-only. Make it writable"),
    (errno.EACCES, "you may not use it. Check the permissions"),
    (errno.EPERM, "you may not use it. Check the permissions"),
    (errno.EIO, "the disk reported a fault. Try again"),
    (errno.EMFILE, "too many open files. Try again."),
]


@pytest.mark.parametrize(("code", "words"), SAID, ids=[errno.errorcode[code] for code, _ in SAID])
@pytest.mark.parametrize("where", ["lock", "read", "write"])
def test_each_trouble_is_one_clear_sentence(
    code: int, words: str, where: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    loaded = load(write(tmp_path))

    def refuse(*args: object, **options: object) -> None:
        raise OSError(code, os.strerror(code))

    places: dict[str, tuple[object, str]] = {
        "lock": (filelock.FileLock, "acquire"),
        "read": (saving, "read_file"),
        "write": (os, "write"),
    }
    owner, name = places[where]
    with monkeypatch.context() as patch:
        patch.setattr(owner, name, refuse)
        with pytest.raises(NotSaved) as caught:
            append(loaded, [note("kept on screen")])
    assert str(caught.value).startswith(f"pantry.toml in {tmp_path} was not saved: {words}")
    assert str(caught.value).endswith(".")
    assert loaded.path.read_text() == HAND_WRITTEN
