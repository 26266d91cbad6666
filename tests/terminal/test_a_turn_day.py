"""A turn day on four trays in a real terminal, at 80 by 24, interrupted at every step and gone on with."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from itertools import cycle
from pathlib import Path

from tests.builders import a_bin, entry, fed, moment, started, turned
from tests.terminal.terminal import Terminal
from trayturn.advice.cautions import CAUTIONS
from trayturn.domain.entries import DayOutcome, Entry, Outcome, Stage
from trayturn.domain.replay import replay_now
from trayturn.domain.setup import Tray
from trayturn.domain.stack import Stack
from trayturn.storage import managing
from trayturn.storage.reading import load

MORNING = moment(120, 9)
JOURNAL: tuple[Entry, ...] = (
    started("C", 0, stage="feeding"),
    *(fed("C", day) for day in (1, 13, 25)),
    started("B", 10, level=1),
    started("D", 20, level=1),
    started("A", 40, level=1),
    turned("ADCB", 60, B="feeding", C="finishing"),
    *(fed("B", day) for day in (62, 74, 86, 98)),
    entry("supplies_counted", 100, supplies_kg={"shredded cardboard": 2.0}),
    entry("cautions_read", MORNING, work="all", codes=[caution.code for caution in CAUTIONS]),
)
TASK = re.compile(r"Task (\d+) of (\d+)")


@dataclass
class Day:
    """The keeper, the file, the clock and the window, and all the ways in which a day is interrupted."""

    home: Path
    clock: Path
    now: datetime = MORNING
    terminal: Terminal = field(init=False)
    ways: Iterator[Callable[[], None]] = field(init=False)
    interrupted: int = 0
    steps: int = 0

    def __post_init__(self) -> None:
        self.set_clock()
        self.ways = cycle((self.quit, self.kill, self.resize, self.change_clock, self.sleep))
        self.terminal = Terminal(self.home, self.clock, "pantry")

    def set_clock(self, minutes: float = 0, *, keep: bool = True) -> None:
        """Move the clock; where it is not kept, the next change starts from before."""
        shown = self.now + timedelta(minutes=minutes)
        self.now = shown if keep else self.now
        fresh = self.clock.with_suffix(".new")
        fresh.write_text(shown.isoformat())
        fresh.replace(self.clock)

    def stack(self) -> Stack:
        profile = load(self.home / "pantry.toml").profile
        assert profile is not None
        return replay_now(profile, self.now)

    def interrupt(self) -> None:
        """In the next of five ways; the day is then on the screen again."""
        self.interrupted += 1
        next(self.ways)()

    def come_back(self) -> None:
        self.terminal = Terminal(self.home, self.clock, "pantry")
        self.terminal.wait_for("Due")

    def quit(self) -> None:
        self.terminal.press("Escape").wait_for("Due", gone="Task ")
        self.terminal.quit()
        self.come_back()
        self.terminal.press("t").wait_for("turn day")

    def kill(self) -> None:
        self.terminal.kill()
        self.come_back()
        self.terminal.press("t").wait_for("turn day")

    def resize(self) -> None:
        self.terminal.resize(100, 30)
        self.terminal.wait_for("turn day")
        self.terminal.resize(80, 24)
        self.terminal.wait_for("turn day")

    def change_clock(self) -> None:
        """Half a day back, and forward again."""
        self.set_clock(-720, keep=False)
        self.terminal.press("?").wait_for("The keys of this screen")
        self.terminal.press("Escape").wait_for("turn day", gone="The keys of this")
        self.set_clock(1)

    def sleep(self) -> None:
        """The laptop sleeps over lunch: the clock has gone on, and nothing else has."""
        self.set_clock(90)
        self.terminal.press("?").wait_for("The keys of this screen")
        self.terminal.press("Escape").wait_for("turn day", gone="The keys of this")

    def task(self) -> int:
        """The number of the task on the screen."""
        found = TASK.search(self.terminal.wait_for("Task "))
        assert found is not None
        return int(found[1])

    def step(self) -> None:
        """Do the task that is next, each third one by a clock half a day slow, and then be interrupted."""
        before = self.task()
        self.steps += 1
        self.set_clock(2)
        if self.steps % 3 == 0:
            self.set_clock(-720, keep=False)
        self.terminal.press("Space").wait_until(
            lambda text: (found := TASK.search(text)) is not None and int(found[1]) == before + 1,
            f"task {before + 1}",
        )
        self.set_clock()
        self.interrupt()
        assert self.task() == before + 1


def test_a_turn_day_on_four_trays(tmp_path: Path) -> None:
    home = tmp_path / "home"
    trays = [Tray(id=name) for name in "ABCD"]
    managing.create(home, a_bin(tray_count=4), trays, JOURNAL, "pantry")
    day = Day(home, tmp_path / "clock")
    plan(day)
    look_move_and_loosen(day)
    feed(day)
    separate(day)
    bring_back(day)
    close_up(day)
    stack = day.stack()
    assert [(tray.id, tray.stage) for tray in stack.trays] == [
        ("C", Stage.BEDDING),
        ("A", Stage.BEDDING),
        ("B", Stage.FINISHING),
        ("D", Stage.FEEDING),
    ]
    assert [one.outcome for one in stack.past_turn_days] == [DayOutcome.FINISHED]
    assert [(one.tray, one.outcome) for one in stack.past_separations] == [("C", Outcome.FINISHED)]
    assert stack.harvests[-1].castings_kg == 0.5
    assert stack.findings == ()
    assert day.interrupted >= 24


def plan(day: Day) -> None:
    day.terminal.wait_for("Due")
    day.terminal.press("t").wait_for("After the turn", "4 trays, as usual", "to be separated")
    day.terminal.press("Space").wait_for("Task 1 of", "Open the bin and look")
    day.interrupt()


def look_move_and_loosen(day: Day) -> None:
    """Every lift and every tray to be loosened, up to the meal."""
    day.terminal.press("+").wait_for("0 ml")
    while "Feed tray D" not in day.terminal.text:
        day.step()


def feed(day: Day) -> None:
    day.terminal.press("Space").wait_for("Meal for tray D", "nothing in it yet")
    day.terminal.kill()
    day.come_back()
    day.terminal.press("t").wait_for("Feed tray D")
    day.terminal.press("Space").wait_for("Meal for tray D")
    day.terminal.press("a").wait_for("Add what?")
    day.terminal.press("cabbage 400 g", "Enter").wait_for("cabbage 400 g is in")
    day.terminal.press("Escape").wait_for("Meal for tray D", "400 g")
    day.set_clock(-720, keep=False)
    day.terminal.press("Space").wait_for("Set tray C on top", gone="Meal for")
    day.set_clock(1)
    day.interrupt()


def separate(day: Day) -> None:
    """One pass after the other in the separation's own screen, left in the middle of every step."""
    day.step()
    day.terminal.wait_for("Tray C waits for your hands: get ready.")
    day.terminal.press("Space").wait_for("Step 1 of 7", "Tray weighs")
    tick_all(day)
    for keys, shown in (
        (["Space"], "Step 3 of 7"),
        (["e"], "Step 4 of 7"),
        (["3", "Space"], "Step 5 of 7"),
        (["2", "Space"], "Step 6 of 7"),
    ):
        day.set_clock(1)
        day.terminal.press(*keys).wait_for(shown)
        back_to_the_separation(day, shown)
    for _ in range(5):
        day.terminal.press("+")
    day.terminal.wait_for("500 g")
    day.terminal.press("Space").wait_for("Step 7 of 7")
    back_to_the_separation(day, "Step 7 of 7")
    day.terminal.press("Space").wait_for("Summary")
    day.terminal.press("Space").wait_for("Close up", gone="Summary")


def tick_all(day: Day) -> None:
    """Space as often as there are lines to tick, and once more."""
    asked = day.terminal.text.count("[ ]")
    for ticked in range(1, asked + 1):
        day.terminal.press("Space").wait_for_count("[✓]", ticked)
    day.terminal.press("Space").wait_for("Step 2 of 7")


def back_to_the_separation(day: Day, shown: str) -> None:
    """Away in the middle of a step, and back to it."""
    day.interrupted += 1
    day.terminal.kill()
    day.come_back()
    day.terminal.press("t").wait_for("Space goes there.")
    day.terminal.press("Space").wait_for(shown)


def bring_back(day: Day) -> None:
    """The set has four trays: the one that was emptied is filled afresh and goes in below, lift by lift."""
    day.terminal.wait_for("Tray C comes back with fresh bedding")
    while "Close up: cover" not in day.terminal.text:
        day.step()


def close_up(day: Day) -> None:
    for ticked in range(1, 5):
        day.terminal.press("Space").wait_for_count("[✓]", ticked)
    day.terminal.press("Space").wait_for("Done. The stack is turned.", "Next:")
    day.terminal.press("Space").wait_for("Due", gone="Summary")
    day.terminal.quit()
