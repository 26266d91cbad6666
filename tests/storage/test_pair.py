"""Two profiles written at once: both or neither, and what others wrote meanwhile is kept."""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Sequence
from pathlib import Path

import pytest
from filelock import FileLock

from tests.storage.files import HAND_WRITTEN, HEAD, note, sound, write
from trayturn.domain.entries import Entry, Note
from trayturn.domain.profile import Profile
from trayturn.domain.setup import BinSetup, Tray
from trayturn.storage import disk, pair
from trayturn.storage.errors import Busy, NameRefused, NotSaved, Unreadable
from trayturn.storage.halves import Half
from trayturn.storage.home import PAIR, list_profiles
from trayturn.storage.pair import Both, Fresh, append_and_create, append_both
from trayturn.storage.pending import write_both
from trayturn.storage.reading import Loaded, load
from trayturn.storage.saving import append

SHED = HEAD.replace("Pantry", "Shed")
OUT, IN = note("out"), note("in")


def moved(one: Profile, two: Profile) -> Both:
    return [OUT], [IN]


def a_new_one(one: Profile, name: str = "Attic") -> tuple[Sequence[Entry], Fresh]:
    return [OUT], Fresh(BinSetup(name=name), (Tray(id="A"),), (IN,))


@pytest.fixture
def two(tmp_path: Path) -> tuple[Loaded, Loaded]:
    """Two bins of one folder."""
    return load(write(tmp_path)), load(write(tmp_path, SHED, "shed"))


def texts(folder: Path) -> dict[str, list[str]]:
    """The notes of every bin, by its short name."""
    return {
        path.stem: [entry.text for entry in sound(load(path)).journal if isinstance(entry, Note)]
        for path in list_profiles(folder)
    }


def test_both_are_written_and_given_back_as_they_stand(tmp_path: Path, two: tuple[Loaded, Loaded]) -> None:
    one, other = append_both(*two, moved)
    assert texts(tmp_path) == {"pantry": ["out"], "shed": ["in"]}
    assert (load(one.path), load(other.path)) == (one, other)
    assert one.raw.startswith(HAND_WRITTEN.encode())
    assert [name for name in os.listdir(tmp_path) if name == PAIR or name.endswith(".pair")] == []


def test_a_new_bin_is_made_in_the_same_act(tmp_path: Path, two: tuple[Loaded, Loaded]) -> None:
    one, made = append_and_create(two[0], a_new_one)
    assert texts(tmp_path) == {"attic": ["in"], "pantry": ["out"], "shed": []}
    assert (made.key, sound(made).bin.name, load(made.path)) == ("attic", "Attic", made)
    assert load(one.path) == one


def test_one_side_alone_and_nothing_at_all(tmp_path: Path, two: tuple[Loaded, Loaded]) -> None:
    append_both(*two, lambda one, other: ([OUT], []))
    assert texts(tmp_path) == {"pantry": ["out"], "shed": []}
    before = two[1].path.read_bytes()
    append_both(*two, lambda one, other: ([], []))
    assert two[1].path.read_bytes() == before


def test_what_others_wrote_meanwhile_is_kept_and_seen(tmp_path: Path, two: tuple[Loaded, Loaded]) -> None:
    append(two[0], [note("theirs")])
    edited = SHED.replace('"Shed"', '"Shed"  # the green one')
    write(tmp_path, edited, "shed")
    seen: list[int] = []

    def choose(one: Profile, other: Profile) -> Both:
        seen.append(len(one.journal))
        return [OUT], [IN]

    one, other = append_both(*two, choose)
    assert seen == [3]
    assert texts(tmp_path)["pantry"] == ["theirs", "out"]
    assert other.raw.startswith(edited.encode())
    assert (load(one.path), load(other.path)) == (one, other)


def test_what_an_editor_writes_at_that_very_moment_is_kept(
    tmp_path: Path, two: tuple[Loaded, Loaded], monkeypatch: pytest.MonkeyPatch
) -> None:
    def late(folder: Path, halves: Sequence[tuple[Half, bytes]]) -> None:
        write(tmp_path, SHED + "# written just now\n", "shed")
        write_both(folder, halves)

    monkeypatch.setattr(pair, "write_both", late)
    with pytest.raises(NotSaved, match="at that very moment"):
        append_both(*two, moved)
    assert (tmp_path / "shed.toml").read_text() == SHED + "# written just now\n"
    assert texts(tmp_path) == {"pantry": [], "shed": []}


@pytest.mark.parametrize("which", [0, 1])
def test_a_file_that_no_longer_reads_is_left_alone_and_so_is_the_other(
    tmp_path: Path, two: tuple[Loaded, Loaded], which: int
) -> None:
    broken = ("pantry", "shed")[which]
    text = (HAND_WRITTEN, SHED)[which].replace("[bin]", "[bim]")
    write(tmp_path, text, broken)
    before = [one.path.read_bytes() for one in two]
    with pytest.raises(Unreadable, match=f"{broken}.toml was changed outside"):
        append_both(*two, moved)
    assert [one.path.read_bytes() for one in two] == before


def test_a_profile_with_problems_takes_no_part(tmp_path: Path, two: tuple[Loaded, Loaded]) -> None:
    bad = load(write(tmp_path, SHED + "[[journal]]\n", "bad"))
    with pytest.raises(Unreadable, match="reading only"):
        append_both(two[0], bad, moved)
    with pytest.raises(Unreadable, match="reading only"):
        append_and_create(bad, a_new_one)
    assert (tmp_path / "pantry.toml").read_text() == HAND_WRITTEN


@pytest.mark.parametrize("which", [0, 1])
def test_a_file_made_read_only_is_left_alone_and_so_is_the_other(
    tmp_path: Path, two: tuple[Loaded, Loaded], which: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    closed = two[which].path
    monkeypatch.setattr(os, "access", lambda path, mode: Path(path) != closed)
    with pytest.raises(NotSaved, match="you may not use it"):
        append_both(*two, moved)
    assert texts(tmp_path) == {"pantry": [], "shed": []}


def test_a_vanished_file_is_not_brought_back_and_the_other_stays(
    tmp_path: Path, two: tuple[Loaded, Loaded]
) -> None:
    two[1].path.unlink()
    with pytest.raises(NotSaved, match="it is not there"):
        append_both(*two, moved)
    assert texts(tmp_path) == {"pantry": []}


@pytest.mark.parametrize("held", ["pantry.toml", "shed.toml", PAIR])
def test_a_lock_that_is_held_says_so_and_nothing_is_written(
    tmp_path: Path, two: tuple[Loaded, Loaded], held: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(disk, "LOCK_SECONDS", 0.01)
    with FileLock(tmp_path / f".{held}.lock"), pytest.raises(Busy, match="another window is saving"):
        append_both(*two, moved)
    assert texts(tmp_path) == {"pantry": [], "shed": []}
    append_both(*two, moved)
    assert texts(tmp_path) == {"pantry": ["out"], "shed": ["in"]}


def test_a_bin_is_no_pair_with_itself(tmp_path: Path, two: tuple[Loaded, Loaded]) -> None:
    link = tmp_path / "link.toml"
    link.symlink_to(two[0].path)
    for other in (two[0], load(link)):
        with pytest.raises(NotSaved, match="same bin"):
            append_both(two[0], other, moved)


def test_bins_of_two_folders_are_no_pair(tmp_path: Path, two: tuple[Loaded, Loaded]) -> None:
    (tmp_path / "away").mkdir()
    away = load(write(tmp_path / "away", SHED, "away"))
    with pytest.raises(NotSaved, match="different folders"):
        append_both(two[0], away, moved)
    assert texts(tmp_path) == {"pantry": [], "shed": []}


@pytest.mark.parametrize("name", ["Pantry", "SHED "])
def test_a_name_that_is_taken_makes_no_bin(tmp_path: Path, two: tuple[Loaded, Loaded], name: str) -> None:
    with pytest.raises(NameRefused, match="already a bin called"):
        append_and_create(two[0], lambda one: a_new_one(one, name.strip()))
    assert texts(tmp_path) == {"pantry": [], "shed": []}


def test_links_and_permissions_stay_as_they_are(tmp_path: Path, two: tuple[Loaded, Loaded]) -> None:
    (tmp_path / "elsewhere").mkdir()
    real = two[1].path.rename(tmp_path / "elsewhere" / "shed.toml")
    real.chmod(0o640)
    (tmp_path / "shed.toml").symlink_to(real)
    append_both(two[0], load(tmp_path / "shed.toml"), moved)
    assert texts(tmp_path) == {"pantry": ["out"], "shed": ["in"]}
    assert (tmp_path / "shed.toml").is_symlink()
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


WRITES = ("open", "write", "fsync", "replace", "link", "unlink", "fchmod")


class Faulty:
    """From its so-many-th call on, or for that call alone, the disk refuses."""

    def __init__(self, patch: pytest.MonkeyPatch, at: int, for_good: bool) -> None:
        self.calls, self.at, self.for_good = 0, at, for_good
        for name in WRITES:
            patch.setattr(os, name, self.wrapped(getattr(os, name)))

    def wrapped(self, real: object) -> object:
        def call(path: object, *args: object, **kwargs: object) -> object:
            if not str(path).endswith(".lock"):
                self.calls += 1
                if self.calls == self.at or (self.for_good and self.calls > self.at):
                    raise OSError(errno.EIO, "refused")
            return real(path, *args, **kwargs)  # type: ignore[operator]

        return call


@pytest.mark.parametrize("for_good", [False, True], ids=["once", "for good"])
@pytest.mark.parametrize("fresh", [False, True], ids=["two bins", "a new bin"])
def test_a_disk_that_refuses_at_any_step_leaves_both_or_neither(
    tmp_path: Path, fresh: bool, for_good: bool
) -> None:
    at, over = 0, False
    outcomes = set()
    while not over:
        at += 1
        folder = tmp_path / str(at)
        folder.mkdir()
        one, other = load(write(folder)), load(write(folder, SHED, "shed"))
        told = ""
        with pytest.MonkeyPatch.context() as patch:
            disk_now = Faulty(patch, at, for_good)
            try:
                append_and_create(one, a_new_one) if fresh else append_both(one, other, moved)
            except NotSaved as trouble:
                told = str(trouble)
            over = disk_now.calls < at
        found = texts(folder)
        both = {"pantry": ["out"], "shed": []} | ({"attic": ["in"]} if fresh else {"shed": ["in"]})
        assert found in (both, {"pantry": [], "shed": []}), (at, told)
        assert (folder / "pantry.toml").read_text().startswith(HAND_WRITTEN)
        assert not (folder / PAIR).exists()
        if not told:
            assert found == both
        elif "Do not write it again" not in told:
            assert found == {"pantry": [], "shed": []}, (at, told)
        outcomes.add((found == both, bool(told)))
    assert (True, False) in outcomes
    assert (False, True) in outcomes
