"""Reading a profile: in pieces or whole alike, and every fault as a problem with its line."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
import tomli
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.storage.files import HAND_WRITTEN, HEAD, NOTE, only_problem, write
from tests.strategies import ODD_TEXTS, journals
from trayturn.domain.entries import Entry
from trayturn.domain.profile import Profile, read_journal, read_setup
from trayturn.domain.setup import BinSetup, Tray
from trayturn.storage import disk, reading
from trayturn.storage.blocks import cut, profile_text
from trayturn.storage.reading import Loaded, load, load_in_pieces


def in_pieces(path: Path, entries: int) -> tuple[list[int], Loaded]:
    counts = []
    pieces = load_in_pieces(path, entries)
    while True:
        try:
            counts.append(next(pieces))
        except StopIteration as end:
            return counts, end.value


def test_a_hand_written_profile_reads_as_it_stands(tmp_path: Path) -> None:
    loaded = load(write(tmp_path))
    assert not loaded.read_only
    assert loaded.key == "pantry"
    assert loaded.raw == HAND_WRITTEN.encode()
    assert loaded.profile is not None
    assert loaded.profile.bin.name == "Pantry"
    assert [tray.id for tray in loaded.profile.trays] == ["A", "B"]
    assert [entry.kind for entry in loaded.profile.journal] == ["tray_started", "fed"]


def test_pieces_say_how_many_entries_are_read(tmp_path: Path) -> None:
    counts, loaded = in_pieces(write(tmp_path, HEAD + NOTE * 7), 3)
    assert counts == [3, 6, 7]
    assert loaded.profile is not None
    assert len(loaded.profile.journal) == 7


FRAGMENTS = [
    NOTE,
    '  [[ journal ]]  # spaced\nat = 2026-03-01T10:00:00Z\nkind = "fed"\ntray = "A"\nitems_kg.a = 1\n',
    '[["journal"]]\nat = 2026-03-01T10:00:00Z\nkind = "note"\ntext = "quoted header"\n',
    '[[journal]]\nat = 2026-03-01T10:00:00Z\nkind = "note"\ntext = """\n[[journal]]\nkind = "fed"\n"""\n',
    "[[journal]]\nat = 2026-03-01T10:00:00Z\nkind = 'note'\ntext = '''\n[[journal]]\n[bin]\n'''\n",
    '[[journal]]\nkind = "nope"\n',
    "[[journal]]\n",
    '[[trays]]\nid = "A"\n',
    "[jurnal]\n",
    "# remark\n",
    '[journal.items_kg]\n"b" = 1\n',
    '"""\n',
    "x = [\n",
    "]\n",
    "\r\n",
]
ABOVE = ["", NOTE, "journal = []\n", "journal = [{kind = 'note'}]\n", "\ufeff", "[journal]\n"]


@given(
    above=st.sampled_from(ABOVE),
    fragments=st.lists(st.sampled_from(FRAGMENTS), max_size=8),
    size=st.integers(1, 3),
)
@settings(max_examples=120, deadline=None)
def test_pieces_and_the_whole_come_to_the_same(
    above: str, fragments: list[str], size: int, tmp_path_factory: pytest.TempPathFactory
) -> None:
    head = f"{above}{HEAD}" if above != NOTE else f"format = 1\n{above}[bin]\nname = 'Pantry'\n"
    text = head + "".join(fragments)
    path = write(tmp_path_factory.getbasetemp(), text)
    _, loaded = in_pieces(path, size)
    try:
        data = tomli.loads(text.removeprefix("\ufeff"))
    except tomli.TOMLDecodeError:
        assert loaded.profile is None
        assert len(loaded.problems) == 1
        return
    setup, trays, wrong = read_setup(data)
    sound, amiss = read_journal(data.get("journal", []))
    told = [
        (problem.key, problem.message) for problem in loaded.problems if problem.message != reading.INLINE
    ]
    assert told == [(problem.key, problem.message) for problem in (*wrong, *amiss)]
    assert (loaded.profile is None) == (setup is None)
    if loaded.profile and not amiss:
        assert loaded.profile == Profile("pantry", loaded.profile.bin, trays, tuple(sound))
        assert loaded.profile.bin == setup


@given(journal=journals())
@settings(max_examples=25, deadline=None)
def test_a_whole_file_written_by_the_program_reads_in_any_pieces(
    journal: list[Entry], tmp_path_factory: pytest.TempPathFactory
) -> None:
    setup = BinSetup(name=ODD_TEXTS[6], place=ODD_TEXTS[19][:200])
    text = profile_text(setup, [Tray(id="A", note=ODD_TEXTS[19])], journal)
    assert len(cut(text, 1)) == len(journal) + 1
    path = write(tmp_path_factory.getbasetemp(), text)
    readings = [in_pieces(path, size)[1] for size in (1, 2, 300)]
    assert readings[0] == readings[1] == readings[2]
    profile = readings[0].profile
    assert profile is not None
    assert (profile.bin, list(profile.journal)) == (setup, journal)


@pytest.mark.parametrize("rows", ["1", "'text'", "{a = 1}", "[1, 2]", "[[]]"])
def test_a_journal_that_is_something_else_is_a_problem(rows: str, tmp_path: Path) -> None:
    loaded = load(write(tmp_path, f"format = 1\njournal = {rows}\n[bin]\nname = 'a'\n"))
    assert loaded.read_only
    assert all(problem.key.startswith("journal") for problem in loaded.problems)


@pytest.mark.parametrize("text", ["", "\n \n", "\ufeff"])
def test_an_empty_file_is_a_problem(text: str, tmp_path: Path) -> None:
    assert "is empty" in only_problem(tmp_path, text).message


def test_what_cannot_be_opened_is_a_problem(tmp_path: Path) -> None:
    folder = tmp_path / "folder.toml"
    folder.mkdir()
    pipe = tmp_path / "pipe.toml"
    os.mkfifo(pipe)
    loop = tmp_path / "loop.toml"
    loop.symlink_to(loop)
    said = {
        folder: "it is a folder",
        pipe: "not a plain file",
        loop: "leads nowhere",
        tmp_path / "none.toml": "it is not there",
        tmp_path / ("n" * 300 + ".toml"): "too long",
        tmp_path / "a\0b.toml": "no file can have this name",
    }
    for path, words in said.items():
        loaded = load(path)
        assert loaded.profile is None
        assert words in loaded.problems[0].message
        assert loaded.problems[0].line is None


def test_a_file_one_may_not_read_is_a_problem(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(path: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(reading, "read_file", refuse)
    assert "you may not use it" in load(write(tmp_path)).problems[0].message


def test_an_enormous_file_is_not_taken_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(disk, "MOST_BYTES", 1_000_000)
    path = tmp_path / "pantry.toml"
    with open(path, "wb") as file:
        file.truncate(1_000_001)
    assert "over 1 MB" in load(path).problems[0].message


@given(raw=st.binary(max_size=200) | st.text(alphabet="[]{}=\"'\n#.,a1 \\\r", max_size=80).map(str.encode))
@settings(max_examples=120, deadline=None)
def test_no_content_whatever_raises(raw: bytes, tmp_path_factory: pytest.TempPathFactory) -> None:
    loaded = load(write(tmp_path_factory.getbasetemp(), raw))
    assert loaded.read_only
    lines = raw.count(b"\n") + 1
    assert all(problem.line is None or 1 <= problem.line <= lines for problem in loaded.problems)


@given(place=st.integers(0, len(HAND_WRITTEN) - 1), sign=st.sampled_from(list("\"'[]{}=\n#.\\\0")))
@settings(max_examples=120, deadline=None)
def test_a_slip_of_the_finger_anywhere_never_raises(
    place: int, sign: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    text = HAND_WRITTEN[:place] + sign + HAND_WRITTEN[place:]
    loaded = load(write(tmp_path_factory.getbasetemp(), text))
    assert loaded.raw == text.encode()
    assert loaded.profile is not None or loaded.problems
