"""Making, copying, changing and putting away whole profiles."""

from __future__ import annotations

import codecs
import os
from collections.abc import Mapping, Sequence
from datetime import datetime
from pathlib import Path

import tomli
from pydantic import ValidationError

from trayturn.domain.entries import Entry
from trayturn.domain.setup import BinSetup, Tray
from trayturn.domain.words import clean
from trayturn.storage.blocks import cut, profile_text
from trayturn.storage.disk import create_file, mode_of, read_file, refusal, replace_file, saving
from trayturn.storage.errors import NameRefused, NotFound, NotSaved
from trayturn.storage.faults import FAULTS
from trayturn.storage.home import key_for, list_profiles, named, profile_path
from trayturn.storage.reading import Loaded, parse
from trayturn.storage.saving import encode, refuse_broken, reread

BACKUPS = "backups"
ARCHIVE = "archive"
UNUSUAL = "Nothing was changed: the file is written in an unusual way. Change it in the file itself."


def create(
    home: Path, setup: BinSetup, trays: Sequence[Tray], entries: Sequence[Entry] = (), key: str | None = None
) -> Loaded:
    """A new bin's file, and the home folder with it if there is none. No file that is there is ever touched.

    Raises `NameRefused` for a short name that is taken or unfit, `Busy` and `NotSaved`.
    """
    refuse_twin(home, setup.name)
    raw = encode(profile_text(setup, trays, entries))
    return _create(home, setup.name, raw, key)


def copy(loaded: Loaded, home: Path, name: str) -> Loaded:
    """The same bin once more under another shown name, journal and comments included.

    Raises `NameRefused`, `Unreadable` for a profile with problems, `Busy` and `NotSaved`.
    """
    checked = checked_name(name)
    refuse_twin(home, checked)
    refuse_broken(loaded, "has problems, so it cannot be copied")
    try:
        current, _ = reread(loaded)
    except OSError as error:
        raise refusal(loaded.path, error, "copied") from error
    return _create(home, checked, _changed(current.raw, {"name": checked}))


def change(loaded: Loaded, figures: Mapping[str, object], now: datetime) -> Loaded:
    """Change these figures of the bin, by their keys in [bin], SI units, and nothing else.

    With its name the short name stays. What is the same already is left alone; a dated backup is made before
    anything is written. Raises `NameRefused`, `Unreadable`, `Busy` and `NotSaved`.
    """
    wanted = dict(figures)
    if "name" in wanted:
        wanted["name"] = checked_name(str(wanted["name"]))
        refuse_twin(loaded.path.parent, str(wanted["name"]), but=loaded.path)
    refuse_broken(loaded, "has problems, so it is open for reading only")
    with saving(loaded.path, "changed"):
        current, profile = reread(loaded)
        other = {key: value for key, value in wanted.items() if getattr(profile.bin, key) != value}
        if not other:
            return current
        raw = _changed(current.raw, other)
        changed = parse(loaded.path, raw)
        if changed.problems:
            raise NotSaved(f"Nothing was changed: {clean(str(changed.problems[0]), 500)}.")
        back_up(loaded.path, current.raw, now)
        replace_file(loaded.path, raw)
    return changed


def back_up(path: Path, raw: bytes, now: datetime) -> Path:
    """Keep the content in `backups/` beside the profile, named after the moment. Raises OSError."""
    return _put(path.parent / BACKUPS, f"{path.stem}.{now:%Y-%m-%dT%H-%M-%S}", raw, mode_of(path))


def archive(loaded: Loaded, home: Path) -> Path:
    """Put a profile away, sound or not, and say where. Raises `Busy` and `NotSaved`."""
    return _move(loaded.path, home / ARCHIVE, loaded.path.stem)


def list_archived(home: Path) -> list[Path]:
    """The profiles put away."""
    return list_profiles(home / ARCHIVE)


def unarchive(path: Path, home: Path) -> Path:
    """Bring a profile back, under another short name if its own is taken. Raises `Busy` and `NotSaved`."""
    return _move(path, home, path.stem)


def _create(home: Path, name: str, raw: bytes, key: str | None = None) -> Loaded:
    taken = {path.stem for path in list_profiles(home)}
    path = profile_path(home, key or key_for(name, taken))
    made = parse(path, raw)
    if made.problems:
        first = clean(str(made.problems[0]), 500)
        raise NotSaved(f"The bin was not made: {first}. Correct it and try again.")
    try:
        os.makedirs(home, exist_ok=True)
        with saving(path):
            _claim_new(path, raw)
    except OSError as error:
        raise refusal(path, error) from error
    return made


def _claim_new(path: Path, raw: bytes) -> None:
    try:
        create_file(path, raw)
    except FileExistsError:
        raise NameRefused(f"The short name {path.stem!r} is taken. Choose another.") from None


def _move(source: Path, folder: Path, stem: str) -> Path:
    """The copy is whole and on disk before the first one goes: a crash in between leaves both."""
    if not source.exists():
        raise NotFound(f"{clean(source.name)} was not moved: it is gone from {clean(str(source.parent))}.")
    with saving(source, "moved"):
        target = _put(folder, stem, read_file(source), mode_of(source))
        os.unlink(source)
    return target


def _put(folder: Path, stem: str, raw: bytes, mode: int) -> Path:
    """A new file under the first free name, as private as the first one. Raises OSError."""
    os.makedirs(folder, exist_ok=True)
    number = 1
    while True:
        path = folder / f"{stem}{f'-{number}' if number > 1 else ''}.toml"
        try:
            create_file(path, raw, mode)
        except FileExistsError:
            number += 1
            continue
        return path


def checked_name(name: str) -> str:
    try:
        return BinSetup(name=name.strip()).name
    except ValidationError:
        raise NameRefused("A bin's name has 1 to 80 characters, in any script. Choose another.") from None


def refuse_twin(home: Path, name: str, but: Path | None = None) -> None:
    """Two bins of one name could not be told apart, on the screens or when one is typed."""
    twin = named(home, name)
    if twin is not None and twin != but:
        raise NameRefused(f"There is already a bin called {clean(name, 80)}. Choose another name.")


def _changed(raw: bytes, figures: Mapping[str, object]) -> bytes:
    """The file with other figures in [bin]. Comments, order and spacing stay as they are."""
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    mark = codecs.BOM_UTF8 if raw.startswith(codecs.BOM_UTF8) else b""
    head, journal = _split(raw.removeprefix(mark).decode("utf-8"))
    wanted = tomli.loads(head)
    wanted["bin"] |= figures
    try:
        document = tomlkit.parse(head)
        for key, value in figures.items():
            document["bin"][key] = value
        changed = tomlkit.dumps(document)
    except TOMLKitError as error:
        raise NotSaved(UNUSUAL) from error
    if tomli.loads(changed) != wanted:
        raise NotSaved(UNUSUAL)
    return mark + encode(changed + journal)


def _split(text: str) -> tuple[str, str]:
    """What is before the journal and alone is rewritten, and the rest; or everything where [bin] is later."""
    head, *journal = cut(text, 1)
    try:
        found = "bin" in tomli.loads(head)
    except FAULTS:
        found = False
    return (head, "".join(journal)) if found else (text, "")
