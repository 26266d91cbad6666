"""Another window, an editor, an undo: what others did to the file meanwhile is never lost."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from dataclasses import replace
from pathlib import Path

import pytest
from filelock import FileLock
from hypothesis import given, settings

from tests.storage.files import HAND_WRITTEN, HEAD, line_of, note, sound, taking_back, undo_last, write
from tests.strategies import journals
from trayturn.domain.entries import Entry, Fed, Note
from trayturn.domain.replay import standing
from trayturn.storage import disk
from trayturn.storage.errors import Busy, NothingToUndo, NotSaved, Unreadable
from trayturn.storage.reading import load
from trayturn.storage.saving import append


def test_what_another_window_saved_is_kept_and_comes_back(tmp_path: Path) -> None:
    mine = theirs = load(write(tmp_path))
    append(theirs, [note("theirs")])
    merged = append(mine, [note("mine")])
    assert sound(merged).journal[-2:] == (note("theirs"), note("mine"))
    assert load(merged.path) == merged


def test_what_an_editor_changed_is_kept(tmp_path: Path) -> None:
    loaded = load(write(tmp_path))
    edited = HAND_WRITTEN.replace("cabbage = 0.5", "cabbage = 0.75")
    write(tmp_path, edited)
    merged = append(loaded, [note("mine")])
    fed = sound(merged).journal[1]
    assert isinstance(fed, Fed)
    assert fed.items_kg["cabbage"] == 0.75
    assert merged.raw.startswith(edited.encode())


@pytest.mark.parametrize(
    ("good", "bad", "says"),
    [
        ("  units = ", "  unit = ", "did you mean units?"),
        ('kind = "fed"', 'kind = "fedd"', "did you mean fed?"),
        ("name = 'Pantry'", "name = 'Pantry", "closing quote"),
    ],
)
def test_a_file_broken_outside_is_left_alone_and_the_fault_named(
    good: str, bad: str, says: str, tmp_path: Path
) -> None:
    loaded = load(write(tmp_path))
    broken = HAND_WRITTEN.replace(good, bad)
    write(tmp_path, broken)
    with pytest.raises(Unreadable) as caught:
        append(loaded, [note("kept on screen")])
    assert loaded.path.read_text() == broken
    assert says in str(caught.value)
    where = line_of(broken, "[[journal]]\nat") if "fedd" in bad else line_of(broken, bad)
    assert caught.value.problems[0].line == where
    assert f"line {where}" in str(caught.value)


def test_undo_takes_back_one_after_another_also_after_a_restart(tmp_path: Path) -> None:
    loaded = append(load(write(tmp_path, HEAD)), [note("one"), note("two", 1)])
    loaded, entry = undo_last(loaded)
    assert entry == taking_back(note("two", 1))
    _, entry = undo_last(load(loaded.path))
    assert entry == taking_back(note("one"))
    reopened = load(loaded.path)
    assert standing(sound(reopened).journal) == []
    with pytest.raises(NothingToUndo, match="no entry left"):
        undo_last(reopened)
    assert reopened.path.read_bytes() == reopened.raw


def test_undo_takes_back_what_another_window_wrote_last(tmp_path: Path) -> None:
    mine = load(write(tmp_path))
    append(mine, [note("theirs")])
    _, entry = undo_last(mine)
    assert entry == taking_back(note("theirs"))


@given(journal=journals(max_size=6))
@settings(max_examples=25, deadline=None)
def test_undo_leaves_all_but_the_last_standing_entry(journal: list[Entry]) -> None:
    before = standing(journal)
    with tempfile.TemporaryDirectory() as folder:
        loaded = append(load(write(Path(folder), HEAD)), journal)
        if before:
            loaded, entry = undo_last(loaded)
            assert (entry.entry_at, entry.entry_kind) == (before[-1][1].at, before[-1][1].kind)
        assert standing(sound(load(loaded.path)).journal) == before[:-1]


def test_a_lock_that_is_held_says_that_another_window_is_saving(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(disk, "LOCK_SECONDS", 0.01)
    loaded = load(write(tmp_path))
    with FileLock(tmp_path / ".pantry.toml.lock"), pytest.raises(Busy, match="another window is saving"):
        append(loaded, [note("patience")])
    assert loaded.path.read_text() == HAND_WRITTEN
    assert sound(append(loaded, [note("patience")])).journal[-1] == note("patience")


WINDOW = """
import sys
from pathlib import Path
from tests.storage.files import HAND_WRITTEN, HEAD, NOW, line_of, note, sound, write
from trayturn.storage.reading import load
from trayturn.storage.saving import append
loaded = load(Path(sys.argv[1]))
for number in range(20):
    loaded = append(loaded, [note(f"{sys.argv[2]} {number}")])
"""


def test_two_processes_saving_at_once_lose_nothing(tmp_path: Path) -> None:
    path = write(tmp_path)
    root = Path(__file__).parents[2]
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join([str(root / "src"), str(root)])}
    windows = [
        subprocess.Popen([sys.executable, "-c", WINDOW, str(path), name], env=environment)
        for name in ("left", "right")
    ]
    assert [window.wait(timeout=60) for window in windows] == [0, 0]
    texts = [entry.text for entry in sound(load(path)).journal if isinstance(entry, Note)]
    for name in ("left", "right"):
        assert [text for text in texts if text.startswith(name)] == [f"{name} {n}" for n in range(20)]
    assert len(texts) == 40


def test_a_vanished_file_is_not_brought_back(tmp_path: Path) -> None:
    loaded = load(write(tmp_path))
    loaded.path.unlink()
    with pytest.raises(NotSaved, match=r"pantry\.toml in .* was not saved: it is not there\. Put it back"):
        append(loaded, [note("gone")])
    gone = replace(loaded, path=tmp_path / "no such folder" / "pantry.toml")
    with pytest.raises(NotSaved, match="it is not there"):
        append(gone, [note("gone")])
    assert not loaded.path.exists()
    assert not gone.path.parent.exists()
