"""The main job in a real terminal, at 80 by 24, by keyboard, from an empty home, with the clock in a file."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from tests.terminal.terminal import Terminal
from trayturn.domain.entries import Outcome
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.storage.reading import load

START = datetime.fromisoformat("2026-03-01T10:00:00+00:00")
SAVE = "\x13"  # Ctrl+S, in forms only, where hands are clean


class Wrist:
    """The keeper's clock, moved by hand."""

    def __init__(self, path: Path) -> None:
        self.path, self.now = path, START
        self.forward()

    def forward(self, **time: float) -> None:
        self.now += timedelta(**time)
        fresh = self.path.with_suffix(".new")
        fresh.write_text(self.now.isoformat())
        fresh.replace(self.path)


@pytest.fixture
def wrist(tmp_path: Path) -> Wrist:
    return Wrist(tmp_path / "clock")


def test_from_an_empty_home_to_a_finished_separation(tmp_path: Path, wrist: Wrist) -> None:
    home = tmp_path / "home"
    terminal = Terminal(home, wrist.path)
    make_a_bin(terminal, home)
    start_and_feed(terminal)
    turn(terminal, wrist)
    begin_separation(terminal)
    leave_in_the_rest_and_come_back(home, terminal, wrist)
    finish_after_a_crash(home, wrist)
    stack = replay(loaded(home), wrist.now)
    done = stack.past_separations[-1]
    assert (done.tray, done.outcome, len(done.passes)) == ("A", Outcome.FINISHED, 2)
    assert [tray.id for tray in stack.off_stack] == ["A"]
    assert not stack.findings


def loaded(home: Path) -> Profile:
    one = load(home / "stair-cupboard.toml")
    assert not one.problems
    assert one.profile is not None
    return one.profile


def make_a_bin(terminal: Terminal, home: Path) -> None:
    terminal.wait_for("No bins yet")
    assert not home.exists()
    terminal.press("n").wait_for("New bin", "Name")
    terminal.press("Stair cupboard", SAVE).wait_for("Stair cupboard", gone="Turn days")
    assert (home / "stair-cupboard.toml").exists()
    terminal.press("Enter").wait_for("Due")


def start_and_feed(terminal: Terminal) -> None:
    for tray in ("A  feeding", "B  bedding"):
        terminal.press("a").wait_for("Put a tray on")
        terminal.press("Tab", "shredded cardboard=500 g", SAVE).wait_for(tray, gone="Put a tray on")
    read_cautions(terminal.press("f"), "Before you feed")
    terminal.wait_for("Meal for tray A", "nothing in it yet")
    terminal.press("a").wait_for("Add what?")
    terminal.press("cabbage 800 g", "Enter").wait_for("cabbage 800 g is in")
    terminal.press("apple peel 300 g", "Enter").wait_for("apple peel 300 g is in")
    terminal.press("Escape").wait_for("Meal for tray A", "1.1 kg")
    terminal.press("Space").wait_for("1 feeding,", gone="What comes of it")


def turn(terminal: Terminal, wrist: Wrist) -> None:
    wrist.forward(days=61)
    read_cautions(terminal.press("t"), "Before you turn")
    terminal.wait_for("After the turn", "e Was done")
    terminal.press("e").wait_for("A  finishing", "B  feeding", gone="After the turn")
    wrist.forward(days=20)


def read_cautions(terminal: Terminal, *shown: str) -> None:
    """Tick every caution that is asked, one press each, and go on."""
    asked = terminal.wait_for(*shown, "Space ticks").count("[ ]")
    assert asked >= 5
    for ticked in range(1, asked + 1):
        terminal.press("Space").wait_for_count("[✓]", ticked)
    terminal.press("Space")


def begin_separation(terminal: Terminal) -> None:
    terminal.press("s").wait_for("Separate tray A from its worms?")
    read_cautions(terminal.press("Space"), "Step 1 of 7", "Tray weighs")
    terminal.wait_for("Step 2 of 7, pass 1", "Loosening ends")
    terminal.press("Space").wait_for("Step 3 of 7, pass 1", "then skim")


def leave_in_the_rest_and_come_back(home: Path, terminal: Terminal, wrist: Wrist) -> None:
    wrist.forward(minutes=5)
    terminal.press("Escape").wait_for("10:00 left", "then skim", "Due")
    terminal.quit()
    wrist.forward(minutes=3)
    again = Terminal(home, wrist.path, "stair-cupboard")
    again.wait_for("07:00 left", "Due")
    again.press("s").wait_for("Step 3 of 7, pass 1", "Rest ends")
    again.kill()


def finish_after_a_crash(home: Path, wrist: Wrist) -> None:
    wrist.forward(minutes=20)
    terminal = Terminal(home, wrist.path, "stair-cupboard")
    terminal.wait_for("rest over for 13 min", "Now skim")
    terminal.press("s").wait_for("Step 3 of 7, pass 1", "13 min ago")
    assert terminal.screen.rung >= 1
    terminal.press("Space").wait_for("Step 4 of 7, pass 1")
    terminal.press("Space").wait_for("How many worms")
    terminal.press("2").wait_for("[2 few]")
    terminal.press("Space").wait_for("Step 5 of 7", "one more pass")
    terminal.press("1").wait_for("[1 one more pass]")
    terminal.press("Space").wait_for("Step 2 of 7, pass 2")
    terminal.press("Space").wait_for("Step 3 of 7, pass 2")
    terminal.press("e").wait_for("Step 4 of 7, pass 2")
    terminal.press("3", "Space").wait_for("Step 5 of 7", "Advice: stop here", "[2 stop here]")
    terminal.press("Space").wait_for("Step 6 of 7", "Castings")
    terminal.press("b").wait_for("Step 5 of 7")
    terminal.press("Space").wait_for("Step 6 of 7")
    terminal.press("Space").wait_for("are not weighed")
    terminal.press("Space").wait_for("Step 7 of 7", "wash your hands")
    terminal.press("Space").wait_for("Summary", "Tray A is empty and spare")
    terminal.press("Space").wait_for("Due", gone="Summary")
    terminal.quit()
