"""From the command to the first frame, to the journal on screen, and from `q` to the prompt."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from tests.bench.figures import Figure, in_turns, medians
from tests.bench.floors import READY
from tests.bench.journals import a_home, sample_length, write
from tests.bench.terminal import FLOORS, TRAYTURN, Run

LONG = 15_000
FIRST_WORDS = "one bin"
READ_WORDS = "Landing"


def figures(folder: Path) -> Iterator[Figure]:
    for entries in (sample_length(), LONG):
        home = a_home(folder, entries)
        ours, floor = medians(9, ours_shown(home, FIRST_WORDS), empty_app_shown(home))
        yield Figure(f"start to first frame, {entries:,} entries", ours, floor, 1.3)
    yield from _journal_on_screen(a_home(folder, LONG))
    ours, floor = medians(5, _leave(TRAYTURN), _leave(FLOORS, "empty_app"))
    yield Figure("leaving", ours, floor, 1.2)


def ours_shown(home: Path, words: str) -> Callable[[], float]:
    """How long, in ms, until the program shows these words."""

    def measure() -> float:
        run = Run(TRAYTURN, home=home)
        took = run.shown(words) - run.began
        run.leave()
        return took * 1000

    return measure


def empty_app_shown(home: Path, *words: str) -> Callable[[], float]:
    """How long, in ms, until the empty app is painted."""

    def measure() -> float:
        run = Run(FLOORS, "empty_app", *words, home=home)
        took = run.shown(READY) - run.began
        run.leave()
        return took * 1000

    return measure


def _journal_on_screen(home: Path) -> Iterator[Figure]:
    journal = str(home / "landing.toml")
    ours, floor = medians(5, ours_shown(home, READ_WORDS), empty_app_shown(home, journal))
    yield Figure(f"journal on screen, {LONG:,} entries", ours, floor, 1.3)
    write(home / "aside.toml", 1, "Aside")
    (longest,) = in_turns(5, lambda: _longest_wait(home))
    yield Figure("  the longest a key waits meanwhile", max(longest), floor, 50, absolute=True)


def _longest_wait(home: Path) -> float:
    """The longest wait for the mark to move, in ms, while the long journal is being read."""
    run = Run(TRAYTURN, home=home)
    run.shown("reading")
    waits: list[float] = []
    while READ_WORDS.encode() not in run.ever_drawn:
        pressed = run.press("down" if len(waits) % 2 else "up", quiet=0)
        waits.append(run.shown("▌") - pressed)
    run.leave()
    return max(waits) * 1000


def _leave(code: str, *words: str) -> Callable[[], float]:
    def measure() -> float:
        run = Run(code, *words, home=Path("/nowhere"))
        run.shown(READY if words else "No bins yet")
        run.settle(0.1)
        return run.leave() * 1000

    return measure
