"""Adding to a profile. Every byte that stands in the file stays; new entries go at its end."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import tomli

from trayturn.domain.entries import Entry, Undone
from trayturn.domain.profile import Profile, read_journal
from trayturn.domain.words import clean, count
from trayturn.storage.blocks import entry_blocks
from trayturn.storage.disk import read_file, replace_file, saving
from trayturn.storage.errors import NothingToUndo, NotSaved, Unreadable
from trayturn.storage.reading import Loaded, parse


def append(loaded: Loaded, entries: Sequence[Entry]) -> Loaded:
    """Add entries to the end of the file, all in one write, and give back the profile as it now stands.

    What another window or an editor wrote meanwhile is kept, and is in what comes back. Raises `Unreadable`
    for a file with problems, `Busy`, and `NotSaved`; the file is then as it was.
    """
    return _add(loaded, lambda profile: entries)


def undo(
    loaded: Loaded, take_back: Callable[[Sequence[Entry]], Sequence[Undone]]
) -> tuple[Loaded, list[Undone]]:
    """Add what takes back entries of the journal as it stands in the file now, and give that too.

    `take_back` chooses them. Raises `NothingToUndo` when it finds none, and what `append` raises.
    """
    taken: list[Undone] = []

    def choose(profile: Profile) -> Sequence[Entry]:
        taken.extend(take_back(profile.journal))
        if not taken:
            raise NothingToUndo(f"There is no entry left to undo in {clean(loaded.path.name)}.")
        return taken

    return _add(loaded, choose), taken


def _add(loaded: Loaded, choose: Callable[[Profile], Sequence[Entry]]) -> Loaded:
    refuse_broken(loaded, "has problems, so it is open for reading only")
    with saving(loaded.path):
        current, profile = reread(loaded)
        entries = choose(profile)
        if not entries:
            return current
        added, kept = written_down(loaded, entries, current.raw)
        raw = current.raw + added
        replace_file(loaded.path, raw)
    return replace(current, raw=raw, profile=profile.with_entries(kept))


def reread(loaded: Loaded) -> tuple[Loaded, Profile]:
    """The file as it stands now, to be called under its lock. Raises OSError and `Unreadable`."""
    raw = read_file(loaded.path)
    current = loaded if raw == loaded.raw else parse(loaded.path, raw)
    return current, refuse_broken(current, "was changed outside this program and can no longer be read")


def refuse_broken(loaded: Loaded, what: str) -> Profile:
    """The profile, when it is sound. Raises `Unreadable` with the first problem in words."""
    if loaded.profile is not None and not loaded.problems:
        return loaded.profile
    first = clean(str(replace(loaded.problems[0], file="")), 500).rstrip(".")
    others = len(loaded.problems) - 1
    more = f" (and {count(others, 'more problem')})" if others else ""
    sentence = f"{clean(loaded.path.name)} {what}: {first}{more}. Nothing was saved; correct the file first."
    raise Unreadable(sentence, loaded.problems)


def written_down(loaded: Loaded, entries: Sequence[Entry], raw: bytes) -> tuple[bytes, list[Entry]]:
    """The bytes to add, and the entries as they will be read from them: what is shown is what is on disk."""
    newline = "\r\n" if b"\r\n" in raw[: raw.find(b"\n") + 1] else "\n"
    start = "" if raw.endswith(b"\n") else newline
    text = entry_blocks(entries)
    added = encode(start + text.replace("\n", newline))
    kept, problems = read_journal(tomli.loads(text)["journal"])
    if problems:
        raise NotSaved(f"The entry was not saved: {clean(str(problems[0]), 500)}. Correct it and try again.")
    return added, kept


def encode(text: str) -> bytes:
    """The text as UTF-8. Raises `NotSaved` for half a character, as a torn paste can leave."""
    try:
        return text.encode("utf-8")
    except UnicodeEncodeError as error:
        sign = ascii(text[error.start])
        raise NotSaved(
            f"It was not saved: the text holds {sign}, half a character that no file can hold."
            " Take it out or type it again."
        ) from error
