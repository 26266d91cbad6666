"""`verify`: what is wrong with a profile's file, and what in its journal does not add up."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import find_path
from trayturn.clock import Clock
from trayturn.domain.problems import Finding, Severity
from trayturn.domain.replay import dated_ahead, replay
from trayturn.domain.words import count
from trayturn.storage.reading import Loaded, load


def verify(options: Namespace, clock: Clock) -> int:
    """Read each file through and say what was found. The status is 1 when any of it is an error."""
    checked = [_check(load(_path(options, words)), clock()) for words in options.files]
    if options.json:
        as_json.print_json({"files": [_data(*one) for one in checked]})
    else:
        for loaded, found in checked:
            _print(loaded, found, Page(options.ascii))
    return int(not all(_sound(*one) for one in checked))


def _path(options: Namespace, words: str) -> Path:
    """Any file that is there may be verified, whatever its name ends in; else the words name a bin."""
    path = Path(words).expanduser()
    return path if path.is_file() else find_path(options, words)


def _check(loaded: Loaded, now: datetime) -> tuple[Loaded, list[Finding]]:
    """The whole journal is replayed, also what is dated ahead of now."""
    profile = loaded.profile
    if profile is None:
        return loaded, []
    last = max((entry.at for entry in profile.journal), default=now)
    return loaded, [*replay(profile, max(last, now)).findings, *dated_ahead(profile, now)]


def _sound(loaded: Loaded, found: Sequence[Finding]) -> bool:
    return not loaded.problems and all(finding.severity is not Severity.ERROR for finding in found)


def _data(loaded: Loaded, found: Sequence[Finding]) -> as_json.Data:
    return {
        "file": str(loaded.path),
        "sound": _sound(loaded, found),
        "entries": len(loaded.profile.journal) if loaded.profile else None,
        "problems": as_json.problems(loaded.problems),
        "findings": as_json.findings(found),
    }


def _print(loaded: Loaded, found: Sequence[Finding], page: Page) -> None:
    entries = f", {count(len(loaded.profile.journal), 'entry', 'entries')}" if loaded.profile else ""
    state = "sound" if _sound(loaded, found) else "not sound"
    page.path(f"{state}{entries}:", loaded.path)
    page.lines((f"error: {problem}" for problem in loaded.problems), 2, 2)
    page.lines((f"{finding.severity}: {finding}" for finding in found), 2, 2)
