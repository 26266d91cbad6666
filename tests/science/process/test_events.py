"""What drives a run is plain data: whoever writes it down needs no numpy."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable

import pytest

from trayturn.science.errors import OutOfRange
from trayturn.science.process.events import Build, Drive, Measured, Put, Separate, WormsPut, WormsTaken


def test_events_come_without_numpy() -> None:
    code = "import sys, trayturn.science.process.events; sys.exit('numpy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_a_plan_goes_behind_the_past() -> None:
    past = Drive(Build(), 10, (WormsPut(0, 1),), 18.0)
    both = past.then((Put(12, "A", 0.2),), 20)
    assert (both.end, both.celsius, len(both.events)) == (20, 18.0, 2)
    assert past.end == 10


@pytest.mark.parametrize(
    "made",
    [
        lambda: Put(0, "A", quick_kg=-1),
        lambda: Put(0, "A", water_kg=float("nan")),
        lambda: WormsPut(0, -1),
        lambda: WormsTaken(0, float("inf")),
        lambda: Separate(0, "A", worms_back=1.1),
        lambda: Measured(0, "worms_kg", 1, 0),
        lambda: Measured(0, "worms_kg", float("nan"), 0.1),
    ],
)
def test_what_makes_no_sense_is_refused(made: Callable[[], object]) -> None:
    with pytest.raises(OutOfRange):
        made()
