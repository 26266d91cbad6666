"""Adding to a profile: what goes in comes out, and what was there stays."""

from __future__ import annotations

import os
import stat
import tempfile
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
import tomli
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.storage.files import HAND_WRITTEN, HEAD, NOW, note, sound, undo_last, write
from tests.strategies import FIELDS, ODD_TEXTS, entries_of, journals
from trayturn.domain.entries import ENTRY_TYPES, CautionsRead, Entry, Fed, Note, Turned
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay, standing
from trayturn.domain.setup import BinSetup
from trayturn.storage.errors import NotSaved, Unreadable
from trayturn.storage.reading import load
from trayturn.storage.saving import append

FAR = datetime(2100, 1, 1, tzinfo=NOW.tzinfo)


def test_the_strategies_know_every_kind_and_field() -> None:
    assert set(FIELDS) == set(ENTRY_TYPES)
    for kind, model in ENTRY_TYPES.items():
        assert set(FIELDS[kind]) == set(model.model_fields) - {"at", "note", "kind"}


@given(journal=journals(), data=st.data())
@settings(max_examples=60, deadline=None)
def test_any_journal_saved_in_any_grouping_reads_and_replays_the_same(
    journal: list[Entry], data: st.DataObject
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        loaded = load(write(Path(folder), HEAD))
        left = list(journal)
        while left:
            size = data.draw(st.integers(1, len(left)))
            loaded, left = append(loaded, left[:size]), left[size:]
        again = load(loaded.path)
    assert again == loaded
    assert list(sound(again).journal) == journal
    in_memory = Profile("pantry", BinSetup(name="Pantry"), (), tuple(journal))
    assert replay(sound(again), FAR) == replay(in_memory, FAR)


@pytest.mark.parametrize("kind", sorted(ENTRY_TYPES))
def test_every_kind_of_entry_comes_back(kind: str, tmp_path: Path) -> None:
    @given(entry=entries_of(kind))
    @settings(max_examples=10, deadline=None)
    def round_trip(entry: Entry) -> None:
        saved = append(load(write(tmp_path, HEAD)), [entry])
        assert sound(load(saved.path)).journal == (entry,)

    round_trip()


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_every_odd_text_comes_back(newline: str, tmp_path: Path) -> None:
    loaded = load(write(tmp_path, HAND_WRITTEN.replace("\n", newline)))
    before = len(sound(loaded).journal)
    for text in ODD_TEXTS:
        loaded = append(loaded, [Note(at=NOW, text=text, note=text), _feeding_of(text)])
    added = sound(load(loaded.path)).journal[before:]
    expected = [
        entry for text in ODD_TEXTS for entry in (Note(at=NOW, text=text, note=text), _feeding_of(text))
    ]
    assert list(added) == expected


def _feeding_of(name: str) -> Fed:
    return Fed(at=NOW, tray="A", items_kg={name[:200]: 0.5})


def test_comments_order_and_spacing_survive_a_hundred_saves(tmp_path: Path) -> None:
    loaded = load(write(tmp_path))
    for number in range(100):
        before = loaded.raw
        loaded = append(loaded, [note(f"save {number}", number)])
        assert loaded.raw.startswith(before)
    assert loaded.path.read_bytes() == loaded.raw
    assert loaded.raw.startswith(HAND_WRITTEN.encode() + b"\n\n[[journal]]\n")
    assert len(sound(load(loaded.path)).journal) == 102


def test_an_entry_is_written_as_its_own_block_without_what_is_empty(tmp_path: Path) -> None:
    entry = Fed(at=NOW, tray="A", items_kg={"apple cores": 0.25}, note="first frost\nlid frozen")
    saved = append(load(write(tmp_path, HEAD)), [entry])
    assert saved.raw.decode().removeprefix(HEAD) == (
        '\n[[journal]]\nat = 2026-11-25 10:05:00+01:00\nkind = "fed"\ntray = "A"\n'
        'note = """\nfirst frost\nlid frozen"""\n\n[journal.items_kg]\n"apple cores" = 0.25\n'
    )


def test_keys_that_must_be_there_are_written_even_when_empty(tmp_path: Path) -> None:
    entry = CautionsRead(at=NOW, work="", codes=())
    saved = append(load(write(tmp_path, HEAD)), [entry])
    assert sound(load(saved.path)).journal == (entry,)


def test_a_file_with_windows_line_ends_keeps_them(tmp_path: Path) -> None:
    loaded = append(load(write(tmp_path, HAND_WRITTEN.replace("\n", "\r\n"))), [note("two\nlines")])
    assert loaded.raw.count(b"\n") == loaded.raw.count(b"\r\n")
    assert sound(load(loaded.path)).journal[-1] == note("two\nlines")


def test_a_byte_order_mark_stays_and_harms_nothing(tmp_path: Path) -> None:
    raw = b"\xef\xbb\xbf" + HAND_WRITTEN.encode()
    saved = append(load(write(tmp_path, raw)), [note("marked")])
    assert saved.raw.startswith(raw)
    assert load(saved.path) == saved
    assert sound(saved).journal[-1] == note("marked")


def test_nothing_to_add_writes_nothing(tmp_path: Path) -> None:
    loaded = load(write(tmp_path))
    assert append(loaded, []) == loaded
    assert loaded.path.read_text() == HAND_WRITTEN


def test_the_hour_that_comes_twice_is_told_apart_and_can_be_undone(tmp_path: Path) -> None:
    zone = ZoneInfo("Europe/Berlin")
    first = Note(at=datetime(2026, 10, 25, 2, 30, tzinfo=zone), text="summer time")
    second = Note(at=datetime(2026, 10, 25, 2, 30, tzinfo=zone, fold=1), text="winter time")
    loaded = append(load(write(tmp_path, HEAD)), [first, second])
    assert [entry.at.utcoffset() for entry in sound(loaded).journal] == [
        first.at.utcoffset(),
        second.at.utcoffset(),
    ]
    loaded, entry = undo_last(loaded)
    assert (entry.entry_at, entry.entry_kind) == (sound(loaded).journal[1].at, "note")
    assert [kept for _, kept in standing(sound(load(loaded.path)).journal)] == [sound(loaded).journal[0]]


def test_an_offset_with_seconds_is_rounded_and_the_moment_kept(tmp_path: Path) -> None:
    old = Note(at=datetime(1905, 5, 1, 12, tzinfo=ZoneInfo("Europe/Paris")), text="local mean time")
    saved = append(load(write(tmp_path, HEAD)), [old])
    assert sound(load(saved.path)).journal[0].at == old.at
    assert b"+00:09\n" in saved.raw


def test_a_profile_with_problems_is_read_only(tmp_path: Path) -> None:
    loaded = load(write(tmp_path, HAND_WRITTEN + "\n[[journal]]\nkind = 'note'\n"))
    assert loaded.read_only
    for attempt in (lambda: append(loaded, [note("no")]), lambda: undo_last(loaded)):
        with pytest.raises(Unreadable, match=r"reading only.*journal\[3\].*more problem"):
            attempt()
    assert loaded.path.read_bytes() == loaded.raw


def test_a_file_made_read_only_is_left_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    loaded = load(write(tmp_path))
    monkeypatch.setattr(os, "access", lambda path, mode: mode != os.W_OK)
    with pytest.raises(NotSaved, match="was not saved: you may not use it"):
        append(loaded, [note("no")])
    assert loaded.path.read_text() == HAND_WRITTEN


def test_half_a_character_is_refused_in_words(tmp_path: Path) -> None:
    loaded = load(write(tmp_path))
    torn = Note.model_construct(at=NOW, kind="note", text="torn \ud83d", note="", tray=None)
    with pytest.raises(NotSaved, match="half a character"):
        append(loaded, [torn])
    assert loaded.path.read_text() == HAND_WRITTEN


def test_an_entry_that_could_not_be_read_again_is_refused(tmp_path: Path) -> None:
    loaded = load(write(tmp_path))
    wrong = Turned.model_construct(at=NOW, kind="turned", order=(), stages={}, note="")
    with pytest.raises(NotSaved, match="not saved"):
        append(loaded, [wrong])
    assert loaded.path.read_text() == HAND_WRITTEN


def test_permissions_and_links_stay_as_they_are(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    real = write(tmp_path / "elsewhere")
    real.chmod(0o666)
    link = tmp_path / "pantry.toml"
    link.symlink_to(real)
    saved = append(load(link), [note("through the link")])
    assert link.is_symlink()
    assert real.read_bytes() == saved.raw
    assert stat.S_IMODE(real.stat().st_mode) == 0o666
    assert sorted(path.name for path in real.parent.iterdir()) == [".pantry.toml.lock", "pantry.toml"]


def test_the_text_saved_is_toml_that_any_reader_takes(tmp_path: Path) -> None:
    saved = append(load(write(tmp_path)), [note(text) for text in ODD_TEXTS])
    rows = tomli.loads(saved.raw.decode())["journal"]
    assert [row["text"] for row in rows[2:]] == ODD_TEXTS
