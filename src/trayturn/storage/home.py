"""Where profiles live, and the names they go by."""

from __future__ import annotations

import difflib
import os
import re
import unicodedata
from collections.abc import Collection, Iterable
from pathlib import Path

from trayturn.storage.errors import NameRefused, NotFound, StorageError

HOME_VARIABLE = "TRAYTURN_HOME"
PAIR = ".pair.json"
"""What is about to be written to two profiles of a folder at once, while that is not done."""
JOURNAL_BEGINS = re.compile(r"\r?\n[ \t]*\[\[[ \t]*journal[ \t]*\]\]")
KEY = re.compile(r"[a-z0-9][a-z0-9_-]{0,39}")
DEVICES = frozenset(
    ["con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))]
)
COMMANDS = frozenset(
    {
        "new",
        "change",
        "begin",
        "split",
        "bins",
        "next",
        "today",
        "stack",
        "day",
        "timeline",
        "castings",
        "score",
        "journal",
        "log",
        "verify",
        "demo",
        "trouble",
        "cautions",
        "separation",
        "archive",
        "help",
        "mix",
        "ration",
        "ingredients",
        "hatch",
        "gone",
        "count",
        "lift",
        "supplies",
        "past",
        "ledger",
        "found",
        "handbook",
        "moisture",
        "readings",
        "outlook",
        "compare",
        "feed",
        "check",
        "serve",
    }
)
# Letters that do not come apart into a plain letter and a mark.
SPELLED_OUT = str.maketrans({"æ": "ae", "œ": "oe", "ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th"})


def home_dir(override: str | Path | None = None) -> Path:
    """The folder of profiles: the one asked for, else TRAYTURN_HOME, else the platform's data folder.

    It may not exist yet: it is made when the first bin is saved.
    """
    chosen = override or os.environ.get(HOME_VARIABLE)
    if chosen:
        return Path(os.path.expanduser(chosen))
    from platformdirs import user_data_path

    return user_data_path("trayturn", appauthor=False)


def check_key(text: str) -> str:
    """The short name itself, when it is fit to be a file name and a word on the command line.

    Raises `NameRefused`.
    """
    if not KEY.fullmatch(text):
        raise NameRefused(
            f"{text[:60]!r} cannot be a short name. Use 1 to 40 small letters a to z, digits, - and _,"
            " beginning with a letter or digit."
        )
    if text in DEVICES:
        raise NameRefused(f"{text!r} is a device on some systems. Choose another short name.")
    if text in COMMANDS:
        raise NameRefused(f"{text!r} is a command here. Choose another short name, such as {text}-bin.")
    return text


def key_for(name: str, taken: Collection[str]) -> str:
    """A free short name for a shown name in any script: `Küche` gives `kuche`, `厨房` gives `bin`."""
    parts = unicodedata.normalize("NFKD", name).casefold().translate(SPELLED_OUT)
    letters = "".join(ch for ch in parts if not unicodedata.combining(ch))
    base = re.sub(r"[^a-z0-9]+", "-", letters).strip("-")[:32].rstrip("-") or "bin"
    if base in DEVICES or base in COMMANDS:
        base = f"{base}-bin"
    used = {key.casefold() for key in taken}
    key, number = base, 1
    while key in used:
        number += 1
        key = f"{base}-{number}"
    return key


def profile_path(home: Path, key: str) -> Path:
    """The file of the bin with that short name. Raises `NameRefused`."""
    return home / f"{check_key(key)}.toml"


def list_profiles(home: Path) -> list[Path]:
    """Every profile of the home, sound or not, in order of name. Hidden files are not profiles.

    What was begun with two of them at once and was cut short is finished first, or taken back. Raises
    `StorageError` for a home that cannot be looked into.
    """
    if os.path.lexists(home / PAIR):
        from trayturn.storage.pending import finish_pending

        finish_pending(home)
    try:
        names = sorted(os.listdir(home))
    except FileNotFoundError:
        return []
    except OSError as error:
        reason = (error.strerror or "the system refused").lower()
        raise StorageError(
            f"The folder {home} cannot be opened: {reason}. Check it, or choose another with --home."
        ) from error
    return [home / name for name in names if name.endswith(".toml") and not name.startswith(".")]


def resolve(home: Path, words: str) -> Path:
    """The profile a keeper means: by short name, by path to a .toml file, or by shown name.

    Raises `NotFound`, naming the nearest that there is.
    """
    profiles = list_profiles(home)
    by_key = {path.stem: path for path in profiles}
    if words in by_key:
        return by_key[words]
    if words.endswith(".toml") or os.sep in words:
        return _existing(Path(os.path.expanduser(words)), words)
    named = [path for path in profiles if _folded(_shown_name(path)) == _folded(words)]
    if len(named) > 1:
        keys = " or ".join(path.stem for path in named)
        raise NotFound(f"More than one bin is called {words[:80]!r}. Use its short name: {keys}.")
    if not named:
        raise NotFound(_nearest(words, [*by_key, *filter(None, map(_shown_name, profiles))]))
    return named[0]


def named(home: Path, name: str) -> Path | None:
    """The profile with that shown name, whatever its letters' case; None when no bin is called so."""
    paths = list_profiles(home) if home.is_dir() else []
    return next((path for path in paths if _folded(_shown_name(path)) == _folded(name)), None)


def _existing(path: Path, words: str) -> Path:
    if not os.path.lexists(path):
        raise NotFound(f"There is no file {words[:200]!r}. Check the path.")
    return path


def _folded(text: str) -> str:
    return unicodedata.normalize("NFKC", text).strip().casefold()


def _shown_name(path: Path) -> str:
    """The name in the file's [bin] table, read without the journal; empty where there is none to be read."""
    import tomli

    if not path.is_file():
        return ""
    try:
        with open(path, encoding="utf-8-sig", newline="") as file:
            head = JOURNAL_BEGINS.split(file.read(100_000))[0]
        name = tomli.loads(head).get("bin", {}).get("name", "")
    except (OSError, ValueError, RecursionError, AttributeError):
        return ""
    return name if isinstance(name, str) else ""


def _nearest(words: str, names: Iterable[str]) -> str:
    known = list(names)
    if not known:
        return f"There is no bin called {words[:80]!r}, and none at all yet. Make one with: trayturn new NAME"
    by_folded = {_folded(name): name for name in reversed(known)}
    close = difflib.get_close_matches(_folded(words), by_folded, n=1, cutoff=0.5)
    hint = f"Did you mean {by_folded[close[0]]!r}?" if close else "See them all with: trayturn bins"
    return f"There is no bin called {words[:80]!r}. {hint}"
