"""How much memory the program holds once its journal is read."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from tests.bench.figures import Figure, medians
from tests.bench.floors import READY
from tests.bench.journals import a_home
from tests.bench.start import LONG, READ_WORDS
from tests.bench.terminal import FLOORS, TRAYTURN, Run


def figures(folder: Path) -> Iterator[Figure]:
    for entries in (1_000, LONG):
        home = a_home(folder, entries)
        least = _held(home, READY, FLOORS, "empty_app", str(home / "landing.toml"))
        ours, floor = medians(3, _held(home, READ_WORDS, TRAYTURN), least)
        yield Figure(f"memory after start, {entries:,} entries", ours, floor, 1.2, "MB")


def _held(home: Path, ready: str, code: str, *words: str) -> Callable[[], float]:
    def measure() -> float:
        run = Run(code, *words, home=home)
        run.shown(ready)
        run.settle(0.3)
        held = run.resident_mb()
        run.leave()
        return held

    return measure
