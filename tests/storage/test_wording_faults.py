"""What is wrong with a file is told in plain words, with the line where it is known."""

from __future__ import annotations

from pathlib import Path

import pytest
import tomli

from tests.storage.files import HEAD, NOTE, line_of, only_problem, write
from trayturn.storage import reading
from trayturn.storage.faults import IN_WORDS
from trayturn.storage.reading import load


def test_one_fault_among_many_entries_leaves_the_sound_ones_to_be_seen(tmp_path: Path) -> None:
    loaded = load(write(tmp_path, HEAD + NOTE * 2 + NOTE.replace("text", "txet") + NOTE))
    assert loaded.profile is not None
    assert len(loaded.profile.journal) == 3
    assert {problem.line for problem in loaded.problems} == {15, 12}
    assert {problem.key for problem in loaded.problems} == {"journal[3].text", "journal[3].txet"}


FAULTS = [
    ('name = "Pan\nplace = "x"', "does not end on its line", 3),
    ('name = "Pan', "never ends", 3),
    ("name = Pantry", "text goes in quotes", 3),
    ("name = 'a'\nname = 'b'", "same key twice", 4),
    ("name = 'a'\n[bin]", "stands elsewhere", 4),
    ("name = 'a'\nloosen_minutes = 3,5", "left over after the value", 4),
    ("name = 'a'\njust some words", "an = sign", 4),
    ("name = 'a'\n= 3", "neither a key", 4),
    ("name = 'C:\\bin'\nplace = \"C:\\queue\"", "write it twice", 4),
    ("name = 'a'\n[trays", "header that is not closed", 4),
    ("name = 'a'\nplace = 'a\x01b'", "control character", 4),
    ("name = 'a'\nx = 2026-02-30T10:00:00Z", "no calendar has", 4),
    ("name = 'a'\nx = {a = 1, a = 2}", "same key twice", 4),
    ("name = 'a'\n# remark\n\nx = [1,\n2,\n" + NOTE, "what begins on line 6 is not closed", 8),
    ("name = 'a'\n# remark\n\nx = [1,\n2,\n", "never completed", 6),
    ("name = 'a'\nx = [1", "list that never ends", 4),
    ("name = 'a'\nx =", "never completed", 4),
    (
        'name = """a\n' + NOTE + NOTE.replace('"fine"', '"""\nfine"""'),
        "what begins on line 3 is not closed",
        12,
    ),
    ("name = 'a'\n\nx = {a = 1", "never ends", 5),
    ('name = """a\n\n' + NOTE, "never ends", 3),
    ("name = 'a'\n" + NOTE + "note = '''oh\n\n" + NOTE + NOTE, "never ends", 8),
    ("name = 'a'\nx = " + "9" * 5000, "too many digits", 4),
    ("name = 'a'\nx = " + "[" * 5000, "too deep", 4),
]


@pytest.mark.parametrize(("text", "says", "line"), FAULTS, ids=range(len(FAULTS)))
def test_a_fault_in_the_text_is_told_in_plain_words(text: str, says: str, line: int, tmp_path: Path) -> None:
    problem = only_problem(tmp_path, f"format = 1\n[bin]\n{text}")
    assert says in problem.message
    assert problem.line == line


def test_every_refusal_of_the_parser_has_plain_words() -> None:
    source = Path(tomli.__file__).with_name("_parser.py").read_text(encoding="utf-8")
    refusals = [
        "Unclosed array",
        "Unterminated string",
        "Invalid statement",
        "Invalid value",
        "Invalid hex value",
    ]
    refusals += ["Expected newline or end", "Cannot redefine namespace", "There is no nest behind this key"]
    for refusal in refusals:
        assert refusal in source
        assert any(refusal.startswith(start) for start in IN_WORDS)


KEYS = [
    ("format = 1", "format = 2", "format", "format = 2"),
    ("format = 1", "", "format", None),
    ('units = "metric"', 'units = "stone"', "bin.units", "units"),
    ('units = "metric"', 'unit = "metric"', "bin.unit", "unit"),
    ('name = "Pantry"', "", "bin.name", "[bin]"),
    ('id = "B"', "", "trays[2].id", '[[trays]]\n\nnote = "second"'),
    ('note = "second"', "note = 2", "trays[2].note", "note = 2"),
    ("cabbage = 0.5", "cabbage = '0.5'", "journal[2].items_kg.cabbage", "cabbage = '0.5'"),
    ('tray = "A"', "", "journal[2].tray", "[[journal]] # second"),
    ("text = '''\nplain\n", "txt = '''\nplain\n", "journal[1].txt", "txt"),
    ("cabbage = 0.5", "'a.b[1]' = 0", "journal[2].items_kg.a.b[1]", "'a.b[1]'"),
    ("cabbage = 0.5", "'\u202e' = 0\n'\u202d' = 0", "journal[2].items_kg.?", "[journal.items_kg]"),
    ("[[trays]]", "[[tray]]", "tray", "[[tray]]"),
    ("# end", "[[jurnal]]", "jurnal", "[[jurnal]]"),
    ('order = [\n"A",\n', "order = [\n1,\n", "journal[3].order[1]", "order"),
]
KEYED = """\
format = 1
# a remark = 1
[bin]
name = "Pantry"
units = "metric"

[[trays]]
id = "A"
[[trays]]
id = "B"
note = "second"

[[journal]]
at = 2026-03-01T10:00:00Z
kind = "note"
text = '''
plain
'''

[[journal]] # second
at = 2026-03-01T10:00:00Z
kind = "fed"
tray = "A"
[journal.items_kg]
apple = 1
cabbage = 0.5

[[journal]]
at = 2026-03-01T10:00:00Z
kind = "turned"
order = [
"A",
"B"]
# end
"""


@pytest.mark.parametrize(("good", "bad", "key", "where"), KEYS, ids=[key for _, _, key, _ in KEYS])
def test_a_wrong_key_is_found_on_its_line(
    good: str, bad: str, key: str, where: str | None, tmp_path: Path
) -> None:
    assert good in KEYED
    text = KEYED.replace(good, bad)
    problems = {problem.key: problem for problem in load(write(tmp_path, text)).problems}
    assert problems[key].line == (None if where is None else line_of(text, where))


def test_no_line_is_given_where_the_text_cannot_tell(tmp_path: Path) -> None:
    text = KEYED.replace("plain", "[[journal]]").replace("cabbage = 0.5", "cabbage = 'much'")
    problem = only_problem(tmp_path, text)
    assert (problem.key, problem.line) == ("journal[2].items_kg.cabbage", None)


def test_a_journal_in_one_list_is_read_only_and_says_what_to_do(tmp_path: Path) -> None:
    row = '{at = 2026-03-01T10:00:00Z, kind = "note", text = "inline"}'
    problem = only_problem(tmp_path, f"format = 1\njournal = [\n{row}]\n[bin]\nname = 'a'\n")
    assert (problem.key, problem.message, problem.line) == ("journal", reading.INLINE, 2)
    assert only_problem(tmp_path, "format = 1\njournal = []\n[bin]\nname = 'a'\n").key == "journal"


def test_a_file_that_is_not_text_is_a_problem_with_its_line(tmp_path: Path) -> None:
    problem = only_problem(tmp_path, HEAD.encode() + b'place = "K\xfcche"\n')
    assert "UTF-8" in problem.message
    assert problem.line == 4
    assert "UTF-8" in only_problem(tmp_path, HEAD.encode("utf-16")).message
