"""How busy the program is when nobody touches it: still, and with a rest counting down."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path

from tests.bench.figures import Figure
from tests.bench.floors import READY
from tests.bench.journals import a_home, put_to_rest, sample_length
from tests.bench.start import READ_WORDS
from tests.bench.terminal import FLOORS, TRAYTURN, Run

SECONDS = 20
MOST = 0.3


def figures(folder: Path) -> Iterator[Figure]:
    home = a_home(folder, sample_length())
    resting = a_home(folder / "resting", sample_length())
    put_to_rest(resting / "landing.toml")
    still, counting = (Run(TRAYTURN, "landing", home=one) for one in (home, resting))
    empty, ticking = (Run(FLOORS, floor, home=home) for floor in ("empty_app", "ticking_app"))
    runs = {still: READ_WORDS, counting: READ_WORDS, empty: READY, ticking: READY}
    for run, words in runs.items():
        run.shown(words)
        run.settle(0.5)
    counting.press("s")
    counting.shown("Step 3 of 7")
    ours, ours_resting, floor, floor_ticking = _busy(*runs)
    yield Figure("idle, nothing moving", ours, floor, MOST, "%", absolute=True)
    yield Figure("idle, a rest counting down", ours_resting, floor_ticking, MOST, "%", absolute=True)
    for run in runs:
        run.leave()


def _busy(*runs: Run) -> list[float]:
    """How much of one core each run takes, in percent, over the same seconds."""
    before = [run.busy_seconds() for run in runs]
    end = time.monotonic() + SECONDS
    while time.monotonic() < end:
        for run in runs:
            run.settle(0.2)
    return [(run.busy_seconds() - then) / SECONDS * 100 for run, then in zip(runs, before, strict=True)]
