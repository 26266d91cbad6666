"""Rests: seen on every screen, rung until heard, and true to the clock whatever happens to it."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace

import pytest

from tests.builders import a_bin, a_usual_bin, entry, moment
from tests.tui.stories import NAMES, Keeper, Wrist, keeper, samples, written_elsewhere
from trayturn.domain.entries import Entry
from trayturn.domain.setup import Tray
from trayturn.storage import managing
from trayturn.tui import app as app_module
from trayturn.tui.app import TrayturnApp

START = moment(120)


class Bell:
    """Counts the bell, on a stopwatch moved by hand."""

    def __init__(self) -> None:
        self.rung, self.seconds = 0, 1000.0

    def ring(self) -> None:
        self.rung += 1

    def monotonic(self) -> float:
        return self.seconds


@pytest.fixture
def bell(monkeypatch: pytest.MonkeyPatch) -> Bell:
    bell = Bell()
    monkeypatch.setattr(TrayturnApp, "bell", lambda app: bell.ring())
    monkeypatch.setattr(app_module, "time", SimpleNamespace(monotonic=bell.monotonic))
    return bell


def resting(minutes: int) -> tuple[Entry, ...]:
    """Tray A at rest from ten o'clock, for so many minutes."""
    begun = entry("separation_begun", START, tray="A")
    ends_at = moment(120, 10, minutes)
    return begun, entry("step_started", START, tray="A", step="rest", pass_number=1, ends_at=ends_at)


def two_resting(home: Path) -> Path:
    """The cellar rests until 10:05, the attic until 10:15."""
    for name, minutes in (("Attic", 15), ("Cellar", 5)):
        trays = [Tray(id=tray) for tray in "ABC"]
        managing.create(home, a_bin(name=name), trays, (*a_usual_bin(), *resting(minutes)))
    return home


async def test_two_rests_at_once_and_the_most_pressing_first(tmp_path: Path, bell: Bell) -> None:
    async with keeper(two_resting(tmp_path), wrist=Wrist(START)) as k:
        first = "Cellar, tray A: rest 05:00 left, until 10:05, then skim  (+1 more)"
        k.sees(first)
        await k.press("down", "enter")
        for key in "jcfk?":
            await k.press(key)
            k.sees(first)
            await k.press("escape")
            assert k.screen == "Stack"
        await k.press("s")
        k.sees(
            "Attic", "tray A", "Rest ends 10:15", "Cellar, tray A: rest 05:00 left, until 10:05, then skim"
        )
        k.sees_no("(+1 more)")
        await k.wait(minutes=6)
        k.sees("! Cellar, tray A: rest over for 1 min. Now skim.  m hushes", "Rest ends 10:15")
        assert (bell.rung, k.app.title) == (1, "(!) rest over - trayturn")


async def test_the_bell_rings_every_twenty_seconds_until_it_is_heard(tmp_path: Path, bell: Bell) -> None:
    async with keeper(two_resting(tmp_path), wrist=Wrist(START)) as k:
        await k.wait(minutes=4, seconds=59)
        assert bell.rung == 0
        await k.wait(seconds=1)
        assert bell.rung == 1
        for seconds, rung in ((19, 1), (1, 2), (20, 3), (5, 3)):
            bell.seconds += seconds
            await k.wait(seconds=seconds)
            assert bell.rung == rung
        await k.press("m")
        bell.seconds += 60
        await k.wait(seconds=60)
        assert bell.rung == 3
        k.sees("rest over for")
        await k.wait(minutes=10)
        assert bell.rung == 4
        await k.press("down", "enter", "s", "plus")
        k.sees("Rest ends 10:21")
        await k.press("m")
        await k.wait(minutes=10)
        assert bell.rung == 5


async def test_a_rest_that_ended_while_nothing_ran_is_told_at_once(tmp_path: Path, bell: Bell) -> None:
    async with keeper(two_resting(tmp_path), "cellar", wrist=Wrist(moment(120, 13, 7))) as k:
        k.sees("Cellar, tray A: rest over for 3 h 2 min. Now skim.  m hushes  (+1 more)")
        assert bell.rung == 2
        await k.press("space")
        assert k.reads("#time-words") == "Rest ended 10:05, 3 h 2 min ago; now skim."
        k.sees("Step 3 of 7")


async def test_a_sleeping_laptop_wakes_to_the_truth(tmp_path: Path) -> None:
    async with keeper(two_resting(tmp_path), "attic", wrist=Wrist(START)) as k:
        await k.press("s")
        await k.wait(days=2, hours=1)
        assert k.reads("#time-words").startswith("Rest ended")
        assert k.reads("#time-words").endswith("2 days ago; now skim.")
        await k.press("space")
        k.sees("Step 4 of 7")


async def test_a_clock_set_back_is_said_and_never_stretches_a_rest(tmp_path: Path) -> None:
    async with keeper(two_resting(tmp_path), "attic", wrist=Wrist(START)) as k:
        await k.press("s")
        await k.wait(hours=-5)
        assert k.reads("#time-words").startswith("The clock was set back since this rest began")
        assert k.app.rests[-1].shown.left == moment(120, 10, 15) - START
        await k.press("e")
        k.sees("Step 4 of 7")
        await k.press("2", "space", "2", *["space"] * 4)
        k.sees("Summary", "Tray A is empty and spare")
        assert [f.code for f in k.stack("attic").findings if f.severity == "error"] == []


async def test_a_rest_begun_in_another_window_is_seen(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "pantry", "stairwell")) as k:
        k.sees_no("left, until")
        begun = entry("separation_begun", k.wrist.now, tray="B")
        rest = entry(
            "step_started",
            k.wrist.now,
            tray="B",
            step="rest",
            pass_number=1,
            ends_at=k.wrist.now.replace(minute=20),
        )
        written_elsewhere(tmp_path, "stairwell", (begun, rest))
        await k.look()
        k.sees("Stairwell, tray B: rest 15:00 left, until 10:20")


async def test_a_long_name_hides_no_time(tmp_path: Path) -> None:
    async with keeper(two_resting(tmp_path), wrist=Wrist(START)) as k:
        await k.press("down", "r", "end")
        await k.type(" under the stairs, left of the boiler, behind the bicycles")
        await k.press("ctrl+s")
        k.sees("rest 05:00 left, until 10:05, then skim")
        await k.wait(minutes=5)
        k.sees("rest over for 0 s. Now skim.", "m hushes")


async def looks(k: Keeper) -> list[str]:
    """The rest's line on every screen, from the bins on."""
    lines = []
    for keys in (("end",), ("enter",), ("f",), ("escape", "j"), ("escape", "c"), ("escape", "t")):
        await k.press(*keys)
        lines.append(next(line for line in k.picture.splitlines() if "rest 07:00 left" in line))
    return lines


async def test_the_rest_stands_in_one_place_on_every_screen(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, *NAMES)) as k:
        assert len({line.strip() for line in await looks(k)}) == 1
