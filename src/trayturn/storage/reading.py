"""From a file to a profile. Nothing in a file can raise: what is wrong with it becomes problems."""

from __future__ import annotations

from collections.abc import Generator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import tomli

from trayturn.domain.entries import Entry
from trayturn.domain.problems import Problem
from trayturn.domain.profile import FORMAT, Profile, read_ingredients, read_journal, read_setup
from trayturn.storage import faults
from trayturn.storage.blocks import cut
from trayturn.storage.disk import in_words, read_file
from trayturn.storage.pending import finish_pending

PIECE = 100
BAD_PATH = ("no file can have this name", "Check the path.")
INLINE = "is a list in square brackets and cannot be added to; give each entry its own [[journal]] line"
EMPTY = f"is empty; put a copy from the backups folder back, or begin with format = {FORMAT} and [bin]"

Contents = tuple[Profile | None, list[Problem]]
Tables = tuple[Mapping[str, Any], list[Entry], list[Problem]]


@dataclass(frozen=True, slots=True)
class Loaded:
    """A profile as it was read. `raw` is the file byte for byte, so that a later change outside is noticed.

    With problems nothing may be saved, and `profile` holds what is sound, or None when the setup is not.
    """

    path: Path
    key: str
    profile: Profile | None
    problems: tuple[Problem, ...]
    raw: bytes

    @property
    def read_only(self) -> bool:
        return bool(self.problems)


def load(path: Path) -> Loaded:
    """The profile in a file, with all that is wrong with it. Raises nothing."""
    return _finish(load_in_pieces(path))


def load_in_pieces(path: Path, entries: int = PIECE) -> Generator[int, None, Loaded]:
    """Read so many entries at a time, yielding how many are read: a screen can answer keys in between."""
    finish_pending(path.parent)
    try:
        raw = read_file(path)
    except (OSError, ValueError) as error:
        reason, cure = in_words(error) if isinstance(error, OSError) else BAD_PATH
        problem = Problem(f"cannot be opened: {reason}. {cure}", file=path.name)
        return Loaded(path, path.stem, None, (problem,), b"")
    return (yield from _parse_in_pieces(path, raw, entries))


def parse(path: Path, raw: bytes) -> Loaded:
    """The profile in content that is at hand already."""
    return _finish(_parse_in_pieces(path, raw, PIECE))


def _finish(reading: Generator[int, None, Loaded]) -> Loaded:
    while True:
        try:
            next(reading)
        except StopIteration as end:
            loaded: Loaded = end.value
            return loaded


def _parse_in_pieces(path: Path, raw: bytes, entries: int) -> Generator[int, None, Loaded]:
    contents = yield from _contents(path.stem, raw, entries)
    problems = tuple(replace(problem, file=path.name) for problem in contents[1])
    return Loaded(path, path.stem, contents[0], problems, raw)


def _contents(key: str, raw: bytes, entries: int) -> Generator[int, None, Contents]:
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        return None, [Problem("is not UTF-8 text; save it as UTF-8 in your editor", line=line)]
    if not text.strip():
        return None, [Problem(EMPTY)]
    try:
        tables, journal, problems = (yield from _in_pieces(text, entries)) or _whole(text)
    except faults.FAULTS as error:
        return None, [faults.explain(error, text)]
    setup, trays, wrong = read_setup(tables)
    own, slips = read_ingredients(tables)
    problems = [*wrong, *slips, *problems]
    profile = Profile(key, setup, trays, tuple(journal), own) if setup else None
    return profile, list(faults.locate(problems, text)) if problems else []


def _in_pieces(text: str, entries: int) -> Generator[int, None, Tables | None]:
    """The file piece by piece, or None where only the whole can tell: a fault, or a table among entries."""
    head, *pieces = cut(text, entries)
    journal: list[Entry] = []
    problems: list[Problem] = []
    count = 0
    try:
        tables = tomli.loads(head)
        if "journal" in tables:
            return None
        for piece in pieces:
            data = tomli.loads(piece)
            if data.keys() != {"journal"}:
                return None
            found, wrong = _read_rows(data["journal"], count + 1)
            journal += found
            problems += wrong
            count += len(data["journal"])
            yield count
    except faults.FAULTS:
        return None
    return tables, journal, problems


def _whole(text: str) -> Tables:
    tables = tomli.loads(text)
    journal, problems = _read_rows(tables.get("journal", []), 1)
    if "journal" in tables and not problems and not _can_grow(text):
        problems = [Problem(INLINE, "journal")]
    return tables, journal, problems


def _can_grow(text: str) -> bool:
    try:
        tomli.loads(f"{text}\n[[journal]]\n")
    except faults.FAULTS:
        return False
    return True


def _read_rows(rows: object, first: int) -> tuple[list[Entry], list[Problem]]:
    """The sound entries, and what is wrong with the others. `first` is the place of the first, from 1."""
    entries, problems = read_journal(rows, first)
    if isinstance(rows, list) and problems:
        for place, row in enumerate(rows, first):
            entries += read_journal([row], place)[0]
    return entries, problems
