"""From a key to changed bytes on the terminal: on the screen that is open, and to another one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from statistics import median

from tests.bench.figures import Figure, p95
from tests.bench.floors import OTHER, READY
from tests.bench.journals import a_home, sample_length
from tests.bench.terminal import FLOORS, TRAYTURN, Run

PLACES = (
    ("journal", "j", "Journal of"),
    ("cautions", "c", "Cautions"),
    ("supplies", "p", "Supplies of"),
    ("past year", "l", "The past year of"),
    ("due list", "d", "Due in"),
    ("castings", "1", "Castings of"),
    ("ledger", "2", "Ledger of"),
    ("outlook", "3", "Outlook of"),
    ("compare", "4", "compare"),
    ("handbook", "h", "Handbook"),
)
PRESSES = 60
VISITS = 15


def figures(folder: Path) -> Iterator[Figure]:
    home = a_home(folder, sample_length())
    run = Run(TRAYTURN, "landing", home=home)
    floor = Run(FLOORS, "counting_app", home=home)
    run.shown("Due")
    floor.shown(READY)
    here, floor_here = _moves(run, floor)
    yield from _pair("a key on the stack screen", here, floor_here, 10)
    for name, key, words in PLACES:
        there, floor_there, back, floor_back = _visits(run, floor, key, words)
        yield from _pair(f"stack to {name}", there, floor_there, 40)
        yield from _pair(f"{name} back to stack", back, floor_back, 40)
    run.leave()
    floor.leave()


def _pair(what: str, ours: Sequence[float], floor: Sequence[float], most: float) -> Iterator[Figure]:
    yield Figure(f"{what}, p50", median(ours), median(floor), most, absolute=True)
    yield Figure(f"{what}, p95", p95(ours), p95(floor), most, absolute=True)


def _moves(*runs: Run) -> list[list[float]]:
    """Waits, in ms, for arrows up and down, of each run in turn."""
    waits: list[list[float]] = [[] for _ in runs]
    for press in range(PRESSES):
        for run, kept in zip(runs, waits, strict=True):
            pressed = run.press("up" if press % 4 < 2 else "down")
            kept.append((run.changed() - pressed) * 1000)
    return waits


def _visits(run: Run, floor: Run, key: str, words: str) -> list[list[float]]:
    """Waits, in ms, for another screen and back: ours there, the floor's there, and both back."""
    rounds = [
        (
            _wait(run, key, words),
            _wait(floor, "j", OTHER),
            _wait(run, "escape", "Separate"),
            _wait(floor, "escape", READY),
        )
        for _ in range(VISITS)
    ]
    return [list(column) for column in zip(*rounds, strict=True)]


def _wait(run: Run, key: str, words: str) -> float:
    pressed = run.press(key)
    return (run.shown(words) - pressed) * 1000
