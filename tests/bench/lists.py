"""A long list: the journal screen as its rows grow. It should not matter how many there are."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from statistics import median

from tests.bench.figures import Figure
from tests.bench.journals import a_home
from tests.bench.start import READ_WORDS
from tests.bench.terminal import TRAYTURN, Run

SHORT = 100
LONG = (10_000, 50_000)
FLAT = 1.3
VISITS = 9


def figures(folder: Path) -> Iterator[Figure]:
    short = _journal(folder, SHORT)
    for entries in LONG:
        long = _journal(folder, entries)
        opening = [(_open(long), _open(short)) for _ in range(VISITS + 1)]
        yield _figure("opening the journal", entries, opening[1:])
        for run in (long, short):
            run.press("j")
        moving = [(_move(long, n), _move(short, n)) for n in range(30)]
        yield _figure("a key in the journal", entries, moving)
        long.leave()
        short.press("escape")
    short.leave()


def _journal(folder: Path, entries: int) -> Run:
    run = Run(TRAYTURN, "landing", home=a_home(folder, entries))
    run.shown(READ_WORDS)
    run.settle(0.5)
    return run


def _figure(what: str, entries: int, waits: list[tuple[float, float]]) -> Figure:
    ours, floor = (median(column) for column in zip(*waits, strict=True))
    return Figure(f"{what}, {entries:,} rows to {SHORT}", ours, floor, FLAT)


def _open(run: Run) -> float:
    pressed = run.press("j")
    took = run.shown("Journal of") - pressed
    run.press("escape")
    run.shown("Due")
    return took * 1000


def _move(run: Run, place: int) -> float:
    pressed = run.press("down" if place % 2 else "up")
    return (run.changed() - pressed) * 1000
