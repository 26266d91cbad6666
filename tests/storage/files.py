"""Profiles on disk for the tests of storage."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta, timezone
from pathlib import Path

from trayturn.domain.entries import Entry, Note, Undone
from trayturn.domain.problems import Problem
from trayturn.domain.profile import Profile
from trayturn.domain.replay import standing
from trayturn.storage.managing import change
from trayturn.storage.reading import Loaded, load
from trayturn.storage.saving import undo

ZONE = timezone(timedelta(hours=1))
NOW = datetime(2026, 11, 25, 10, 5, tzinfo=ZONE)

HEAD = 'format = 1\n[bin]\nname = "Pantry"\n'
NOTE = '[[journal]]\nat = 2026-03-01T10:00:00Z\nkind = "note"\ntext = "fine"\n'
HAND_WRITTEN = """\
# Grandmother's bin, in the stairwell.

format   =   1      # never mind the spacing
[bin]
  name = 'Pantry'   # as it says on the lid
  units = "metric"

[[trays]]
id = "A"
[[trays]]
id = "B"
note = "the cracked one"

# --- the journal ---
[[journal]]
kind = "tray_started"   # kind before at, and why not
tray = "A"
at = 2026-03-01T10:00:00+01:00

[[journal]]
at = 2026-03-09 18:30:00+01:00
kind = "fed"
tray = "A"
items_kg = { cabbage = 0.5, "apple cores" = 0.25 }
# trailing remark without a line end"""


def write(folder: Path, text: str | bytes = HAND_WRITTEN, name: str = "pantry") -> Path:
    """A profile with exactly that content."""
    path = folder / f"{name}.toml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def note(text: str, minutes: float = 0) -> Note:
    """A note, so many minutes after the first."""
    return Note(at=NOW + timedelta(minutes=minutes), text=text)


def line_of(text: str, part: str) -> int:
    """The line, counted from 1, on which a part of a text begins."""
    return text[: text.index(part)].count("\n") + 1


def sound(loaded: Loaded) -> Profile:
    """The profile, which is to have no problem."""
    assert loaded.problems == ()
    assert loaded.profile is not None
    return loaded.profile


def only_problem(folder: Path, text: str | bytes) -> Problem:
    """The one thing that is wrong with a file of that content."""
    loaded = load(write(folder, text))
    assert loaded.read_only
    assert len(loaded.problems) == 1
    assert loaded.problems[0].file == "pantry.toml"
    return loaded.problems[0]


def undo_last(loaded: Loaded) -> tuple[Loaded, Undone]:
    """Take back the one entry that stands last."""
    loaded, (taken,) = undo(loaded, last_one)
    return loaded, taken


def last_one(journal: Sequence[Entry]) -> list[Undone]:
    return [taking_back(entry) for _, entry in standing(journal)[-1:]]


def taking_back(entry: Entry) -> Undone:
    """The entry that takes that one back."""
    return Undone(at=NOW, entry_at=entry.at, entry_kind=entry.kind)


def rename(loaded: Loaded, name: str, now: datetime) -> Loaded:
    """The bin under another shown name."""
    return change(loaded, {"name": name}, now)
