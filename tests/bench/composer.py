"""The meal being put together, with the whole table of ingredients: from a key to changed bytes.

To open it is measured at the sample's own length: the longer journal has thousands of meals in one tray.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta
from pathlib import Path
from statistics import median

from tests.bench.figures import Figure, p95
from tests.bench.floors import OTHER, READY
from tests.bench.journals import a_home, sample_length
from tests.bench.terminal import FLOORS, TRAYTURN, Run
from trayturn.advice.cautions import CAUTIONS
from trayturn.domain.entries import CautionsRead
from trayturn.storage.reading import load
from trayturn.storage.saving import append

LONG = 15_000
PRESSES, VISITS = 60, 15
WORDS = ("cab", "onoin", "shred", "banana", "zzyzx", "apple", "pe", "coffee", "egg", "mel")
"""Beginnings, slips and names that nobody knows."""


def figures(folder: Path) -> Iterator[Figure]:
    for entries in (sample_length(), LONG):
        yield from _at(_heeded(a_home(folder, entries)), entries)


def _heeded(home: Path) -> Path:
    """The home, with the cautions read a moment ago."""
    now = datetime.now().astimezone().replace(microsecond=0) - timedelta(minutes=1)
    codes = tuple(caution.code for caution in CAUTIONS)
    append(load(home / "landing.toml"), [CautionsRead(at=now, work="all", codes=codes)])
    return home


def _at(home: Path, entries: int) -> Iterator[Figure]:
    run, floor = Run(TRAYTURN, "landing", home=home), Run(FLOORS, "counting_app", home=home)
    run.shown("Due")
    floor.shown(READY)
    run.settle(0.5)
    if entries < LONG:
        there = [(_wait(run, "f", "Meal for"), _wait(floor, "j", OTHER)) for _ in _visits(run, floor)]
        yield from _pair("stack to a meal", there, 40)
    run.press("f")
    run.shown("Meal for")
    yield from _pair(
        f"a step of an amount, {entries:,} entries",
        [(_key(run, k), _key(floor, "up")) for k in "++-" * 20],
        10,
    )
    run.press("a")
    run.shown("Add what?")
    letters = [key for word in WORDS for key in (*word, *["\x7f"] * len(word))]
    yield from _pair(
        f"a letter of a name, {entries:,} entries", [(_key(run, k), _key(floor, "up")) for k in letters], 10
    )
    for key in "cabbage":
        run.press(key)
    run.press("enter")
    yield from _pair(
        f"a step of a new amount, {entries:,} entries",
        [(_key(run, k), _key(floor, "up")) for k in "++-" * 10],
        10,
    )
    for key in ("escape", "escape", "escape"):
        run.press(key)
    run.shown("Due")
    run.leave()
    floor.leave()


def _visits(run: Run, floor: Run) -> Iterator[None]:
    """One visit after another, each from the stack; the first, which imports the screen, is no visit."""
    for visit in range(VISITS + 1):
        if visit:
            yield
        else:
            _wait(run, "f", "Meal for")
            _wait(floor, "j", OTHER)
        _wait(run, "escape", "Due")
        _wait(floor, "escape", READY)


def _wait(run: Run, key: str, words: str) -> float:
    pressed = run.press(key)
    return (run.shown(words) - pressed) * 1000


def _key(run: Run, key: str) -> float:
    pressed = run.press(key)
    return (run.changed() - pressed) * 1000


def _pair(what: str, waits: Sequence[tuple[float, float]], most: float) -> Iterator[Figure]:
    ours, floor = zip(*waits, strict=True)
    yield Figure(f"{what}, p50", median(ours), median(floor), most, absolute=True)
    yield Figure(f"{what}, p95", p95(ours), p95(floor), most, absolute=True)
