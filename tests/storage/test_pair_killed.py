"""A window killed at any step of writing two files at once: whoever looks next finds both, or neither."""

from __future__ import annotations

import errno
import os
import pickle
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from functools import cache, partial
from pathlib import Path
from typing import Any

import pytest

from tests.storage.files import HAND_WRITTEN, HEAD, note, write
from tests.storage.test_pair import SHED, WRITES, a_new_one, moved, texts
from trayturn.storage.home import PAIR, list_profiles
from trayturn.storage.pair import append_and_create, append_both
from trayturn.storage.reading import load
from trayturn.storage.saving import append

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="a process is killed by forking one")

ROOT = Path(__file__).parents[2]
ENVIRONMENT = {**os.environ, "PYTHONPATH": os.pathsep.join([str(ROOT / "src"), str(ROOT)])}
KILLED, FAILED = 9, 7
NEITHER: dict[str, list[str]] = {"pantry": [], "shed": []}
LATE = ["write", "replace", "link", "unlink"]
"""Calls that are also killed once they are done, a write half way through."""


def two_bins(folder: Path) -> Path:
    """A folder with two bins, and a third that has nothing to do with it."""
    folder.mkdir()
    write(folder)
    write(folder, SHED, "shed")
    return folder


def to_the_other(folder: Path) -> None:
    append_both(load(folder / "pantry.toml"), load(folder / "shed.toml"), moved)


def to_a_new_one(folder: Path) -> None:
    append_and_create(load(folder / "pantry.toml"), a_new_one)


ACTS = {"two bins": to_the_other, "a new bin": to_a_new_one}
BOTH = {
    "two bins": {"pantry": ["out"], "shed": ["in"]},
    "a new bin": {"attic": ["in"], "pantry": ["out"], "shed": []},
}


@cache
def _mother() -> subprocess.Popen[bytes]:
    """A small process that those who die are forked from: to fork one that has run many tests is slow."""
    order = [sys.executable, "-c", "from tests.storage.test_pair_killed import bear; bear()"]
    return subprocess.Popen(order, env=ENVIRONMENT, stdin=subprocess.PIPE, stdout=subprocess.PIPE)


@pytest.fixture(autouse=True, scope="module")
def _she_goes_home() -> Iterator[None]:
    yield
    if _mother.cache_info().currsize:
        _mother().communicate()
        assert _mother().returncode == 0
        _mother.cache_clear()


def killed(work: Callable[[], object], at: int, late: bool) -> bool:
    """Do the work in a process of its own that dies at its so-many-th write call. False once it lives on."""
    asked, told = _mother().stdin, _mother().stdout
    assert asked is not None
    assert told is not None
    pickle.dump((work, at, late), asked)
    asked.flush()
    status = int(told.readline())
    assert status in (0, KILLED), f"step {at}: the process ended with {status}"
    return status == KILLED


def bear() -> None:
    """Fork a process for every work that comes in, and tell how each ended, until none comes any more."""
    while True:
        try:
            work, at, late = pickle.load(sys.stdin.buffer)
        except EOFError:
            return
        pid = os.fork()
        if pid == 0:
            try:
                _die(at, late)
                work()
                os._exit(0)
            except BaseException:
                os._exit(FAILED)
        print(os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]), flush=True)


def _die(at: int, late: bool) -> None:
    calls = 0

    def wrapped(name: str, real: Any) -> Any:
        def call(first: Any, *args: Any, **kwargs: Any) -> Any:
            nonlocal calls
            calls += 1
            if calls < at:
                return real(first, *args, **kwargs)
            if late and name in LATE:
                real(first, args[0][: len(args[0]) // 2]) if name == "write" else real(first, *args, **kwargs)
            os._exit(KILLED)

        return call

    for name in WRITES:
        setattr(os, name, wrapped(name, getattr(os, name)))


def _in_a_new_home(act: Callable[[Path], None], folder: Path) -> None:
    act(two_bins(folder))


def steps(folder: Path, act: Callable[[Path], None], late: bool) -> Iterator[Path]:
    """The folder as each death leaves it, one after the other."""
    at = 1
    while killed(partial(_in_a_new_home, act, folder / f"{at}"), at, late):
        yield folder / f"{at}"
        at += 1
    assert at > 12


@pytest.mark.parametrize("late", [False, True], ids=["before the call", "after it"])
@pytest.mark.parametrize("act", ACTS)
def test_killed_at_any_step_both_stand_or_neither(tmp_path: Path, act: str, late: bool) -> None:
    outcomes = []
    for folder in steps(tmp_path, ACTS[act], late):
        if not (folder / "shed.toml").exists():
            continue
        found = texts(folder)
        assert found in (BOTH[act], NEITHER), folder.name
        assert (folder / "pantry.toml").read_text().startswith(HAND_WRITTEN)
        assert not (folder / PAIR).exists()
        outcomes.append(found == BOTH[act])
        ACTS[act](folder) if found == NEITHER else append(load(folder / "shed.toml"), [note("goes on")])
        assert texts(folder)["pantry"] == ["out"]
    assert outcomes == sorted(outcomes)
    assert {*outcomes} == {False, True}


@pytest.mark.parametrize("act", ACTS)
def test_killed_again_while_it_is_finished(tmp_path: Path, act: str) -> None:
    deaths = 0
    for folder in steps(tmp_path, ACTS[act], late=False):
        if not (folder / PAIR).exists():
            continue
        for at in range(1, 40):
            again = shutil.copytree(folder, tmp_path / f"{folder.name}-{at}")
            over = not killed(partial(list_profiles, again), at, late=False)
            assert texts(again) in (BOTH[act], NEITHER)
            assert not (again / PAIR).exists()
            deaths += not over
            shutil.rmtree(again)
            if over:
                break
    assert deaths > 5


@pytest.fixture
def half_done(tmp_path: Path) -> Path:
    """A folder in which the first bin has its half, and the second one not yet."""
    return next(
        folder
        for folder in steps(tmp_path, to_the_other, late=False)
        if (folder / PAIR).exists() and 'text = "out"' in (folder / "pantry.toml").read_text()
    )


def test_the_next_save_finishes_it_first(half_done: Path) -> None:
    assert (half_done / "shed.toml").read_text() == SHED
    append(load(half_done / "shed.toml"), [note("goes on")])
    assert texts(half_done) == {"pantry": ["out"], "shed": ["in", "goes on"]}


def test_a_save_by_a_window_that_read_it_before_is_kept(half_done: Path) -> None:
    raw = (half_done / "shed.toml").read_bytes()
    (half_done / PAIR).rename(half_done / "aside")
    early = load(half_done / "shed.toml")
    (half_done / "aside").rename(half_done / PAIR)
    assert early.raw == raw
    append(early, [note("from long ago")])
    assert texts(half_done) == {"pantry": ["out"], "shed": ["in", "from long ago"]}


def test_what_an_editor_did_meanwhile_is_kept(half_done: Path) -> None:
    write(half_done, SHED + "# mine\n", "shed")
    write(half_done, "# mine too\n" + (half_done / "pantry.toml").read_text())
    assert texts(half_done) == {"pantry": ["out"], "shed": ["in"]}
    assert "# mine\n" in (half_done / "shed.toml").read_text()
    assert (half_done / "pantry.toml").read_text().startswith("# mine too\n")


def test_line_ends_changed_meanwhile_do_not_hide_a_half(half_done: Path) -> None:
    text = (half_done / "pantry.toml").read_bytes().replace(b"\n", b"\r\n")
    (half_done / "pantry.toml").write_bytes(text)
    assert texts(half_done) == {"pantry": ["out"], "shed": ["in"]}


def test_a_file_broken_meanwhile_keeps_the_other_as_it_was(half_done: Path) -> None:
    broken = SHED.replace("[bin]", "[bim]")
    write(half_done, broken, "shed")
    assert [path.stem for path in list_profiles(half_done)] == ["pantry", "shed"]
    assert (half_done / "pantry.toml").read_text() == HAND_WRITTEN
    assert (half_done / "shed.toml").read_text() == broken
    assert not (half_done / PAIR).exists()


def test_a_file_gone_meanwhile_keeps_the_other_as_it_was(half_done: Path) -> None:
    (half_done / "shed.toml").unlink()
    assert texts(half_done) == {"pantry": []}
    assert (half_done / "pantry.toml").read_text() == HAND_WRITTEN


def test_lost_temporary_files_are_written_anew(half_done: Path) -> None:
    for path in half_done.glob(".*.pair"):
        path.unlink()
    assert texts(half_done) == {"pantry": ["out"], "shed": ["in"]}


def test_before_either_stands_a_lost_file_takes_it_all_back(tmp_path: Path) -> None:
    folder = next(one for one in steps(tmp_path, to_the_other, late=False) if (one / PAIR).exists())
    (folder / ".shed.toml.pair").unlink()
    assert texts(folder) == NEITHER
    assert not list(folder.glob(".*.pair"))


def test_a_copied_folder_is_finished_in_itself(half_done: Path, tmp_path: Path) -> None:
    twin = shutil.copytree(half_done, tmp_path / "twin")
    assert texts(half_done) == BOTH["two bins"]
    assert texts(twin) == BOTH["two bins"]


@pytest.mark.parametrize("text", ["", "{", "[]", '{"halves": [{"name": "../pantry.toml"}]}', "\x00"])
def test_a_note_that_says_nothing_is_cleared_away(tmp_path: Path, text: str) -> None:
    folder = two_bins(tmp_path / "home")
    (folder / PAIR).write_text(text)
    assert texts(folder) == NEITHER
    assert not (folder / PAIR).exists()


def test_a_note_that_cannot_be_read_now_is_kept_for_later(half_done: Path) -> None:
    def refuse(path: Path) -> bytes:
        raise OSError(errno.EIO, "refused")

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("trayturn.storage.pending.read_file", refuse)
        list_profiles(half_done)
    assert (half_done / PAIR).exists()
    assert texts(half_done) == BOTH["two bins"]


def test_a_note_never_leads_out_of_its_folder(half_done: Path, tmp_path: Path) -> None:
    text = (half_done / PAIR).read_text().replace('"shed.toml"', '"../shed.toml"')
    (half_done / PAIR).write_text(text)
    outside = write(tmp_path, HEAD, "shed")
    list_profiles(half_done)
    assert outside.read_text() == HEAD


WINDOW = """
import sys
from pathlib import Path
from tests.storage.files import note
from trayturn.storage.pair import append_both
from trayturn.storage.reading import load
one, other, name = Path(sys.argv[1]), Path(sys.argv[2]), sys.argv[3]
for number in range(12):
    mine = note(f"{name} {number}", number)
    append_both(load(one), load(other), lambda a, b: ([mine], [mine]))
"""


def test_two_windows_going_opposite_ways_lose_nothing_and_never_lock_up(tmp_path: Path) -> None:
    folder = two_bins(tmp_path / "home")
    paths = [str(folder / "pantry.toml"), str(folder / "shed.toml")]
    windows = [
        subprocess.Popen([sys.executable, "-c", WINDOW, *order, name], env=ENVIRONMENT)
        for order, name in ((paths, "there"), (paths[::-1], "back"))
    ]
    assert [window.wait(timeout=60) for window in windows] == [0, 0]
    for found in texts(folder).values():
        assert sorted(found) == sorted(f"{name} {n}" for name in ("there", "back") for n in range(12))
