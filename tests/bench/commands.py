"""The commands that answer in text, beside Python that imports tomli and pydantic and parses the file."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

from tests.bench.figures import Figure, medians, ms
from tests.bench.journals import a_home, sample_length
from tests.bench.start import LONG
from tests.bench.terminal import FLOORS, ROOT, TRAYTURN, environment

READING = (("verify", "landing"), ("today",), ("next",), ("stack", "landing"))


def figures(folder: Path) -> Iterator[Figure]:
    nowhere = folder / "empty"
    for word in ("--help", "--version"):
        ours, floor = medians(11, _run(nowhere, TRAYTURN, word), _run(nowhere, FLOORS, "parse"))
        yield Figure(word, ours, floor, 1.5)
    for entries in (sample_length(), LONG):
        home = a_home(folder, entries)
        least = _run(home, FLOORS, "parse", str(home / "landing.toml"))
        for words in READING:
            ours, floor = medians(9, _run(home, TRAYTURN, *words), least)
            yield Figure(f"{words[0]}, {entries:,} entries", ours, floor, 1.5)


def _run(home: Path, code: str, *words: str) -> Callable[[], float]:
    command = [sys.executable, "-c", code, *words]

    def once() -> None:
        subprocess.run(command, env=environment(home), cwd=ROOT, capture_output=True, check=False)

    return lambda: ms(once)
