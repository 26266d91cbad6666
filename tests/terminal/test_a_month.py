"""A month of ordinary care in a real terminal, by keyboard, from an empty home, in either system of units."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.terminal.terminal import Terminal
from tests.terminal.test_main_job import SAVE, Wrist, read_cautions
from trayturn.domain.entries import Checked, Fed, FollowUpSet, Snoozed, SuppliesCounted, WormsAdded
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay, standing
from trayturn.domain.setup import Units
from trayturn.domain.units import POUND_KG
from trayturn.storage.reading import load


@dataclass(frozen=True)
class Ways:
    """What a keeper of those units types and reads."""

    units: Units
    pick: str
    size: tuple[int, int]
    worms: str
    first_meal: str
    second_meal: str
    heat: str
    card: str
    meal_kg: float
    card_kg: float
    celsius: float


METRIC = Ways(Units.METRIC, "1", (80, 24), "260 g", "150 g", "300 g", "19 °C", "2 kg", 0.3, 2.0, 19.0)
US = Ways(
    Units.US, "2", (120, 40), "9 oz", "5 oz", "8 oz", "65 °F", "4 lb", 0.5 * POUND_KG,
    4 * POUND_KG, 18.3,
)  # fmt: skip


@pytest.mark.parametrize("ways", [METRIC, US], ids=["metric", "us"])
def test_a_month_of_ordinary_care(tmp_path: Path, ways: Ways) -> None:
    home, wrist = tmp_path / "home", Wrist(tmp_path / "clock")
    columns, rows = ways.size
    terminal = Terminal(home, wrist.path, columns=columns, rows=rows)
    begin(terminal, ways)
    first_look(terminal, wrist)
    check(terminal, wrist, ways)
    second_meal(terminal, wrist, ways)
    put_right(terminal, wrist)
    stock(terminal, ways)
    put_off_and_done(terminal, wrist)
    look_back(terminal)
    terminal.quit()
    written(home, wrist, ways)


def begin(terminal: Terminal, ways: Ways) -> None:
    """From nothing: the bin, its plan, the first tray, the worms and a small first meal."""
    terminal.wait_for("No bins yet")
    terminal.press("n").wait_for("New bin", "Name")
    # A key sent in one burst with Tab can reach the field before it: no hand is that quick.
    terminal.press("Cellar").wait_for("Cellar")
    terminal.press("Tab").wait_for("Cellar")
    terminal.press(ways.pick, SAVE).wait_for("Start the first trays.")
    terminal.press("Space").wait_for("Soak the bedding", "Put the worms in")
    read_cautions(terminal.press("Space"), "Before you start this bin")
    terminal.wait_for("Put a tray on")
    terminal.press(SAVE).wait_for("Tray added", gone="Put a tray on")
    terminal.press("Space").wait_for("Worms of Cellar", ways.worms)
    terminal.press(SAVE).wait_for("Worms saved")
    read_cautions(terminal.press("Space"), "Before you feed")
    feed(terminal, "cabb", "cabbage", ways.first_meal)
    terminal.wait_for("It is begun.")
    terminal.press("Space").wait_for("Due", "1 feeding,")


def feed(terminal: Terminal, letters: str, name: str, amount: str) -> None:
    """A few letters, the amount, and one key."""
    terminal.wait_for("Meal for tray A")
    terminal.press("a").wait_for("Add what?")
    terminal.press(letters).wait_for(name)
    terminal.press("Enter").wait_for(f"How much {name}?")
    terminal.press(amount, "Enter").wait_for(f"{name} {amount} is in")
    terminal.press("Escape").wait_for("Record")
    terminal.press("Space").wait_for("Feeding saved")


def first_look(terminal: Terminal, wrist: Wrist) -> None:
    wrist.forward(days=1)
    terminal.wait_for("Lift the lid")
    terminal.press("Space").wait_for("Space: looked, and all is well")
    terminal.press("Space").wait_for("Due", gone="Lift the lid")


def check(terminal: Terminal, wrist: Wrist, ways: Ways) -> None:
    """With gloves on: steps and digits, no typing."""
    wrist.forward(days=6)
    terminal.press("k").wait_for("Moisture", "squeeze it hard")
    terminal.press("3").wait_for("moist")
    terminal.press("Down", "+").wait_for(ways.heat)
    terminal.press("Space").wait_for("Check saved")
    terminal.press("Escape").wait_for("Due", ways.heat)


def second_meal(terminal: Terminal, wrist: Wrist, ways: Ways) -> None:
    wrist.forward(days=6)
    terminal.wait_for("Feed tray A now.")
    terminal.press("f")
    feed(terminal, "appl", "apple", ways.second_meal)
    terminal.wait_for("2 feedings,")


def put_right(terminal: Terminal, wrist: Wrist) -> None:
    """It drips: the likeliest cause is taken, and stands on the due list."""
    wrist.forward(days=4)
    terminal.press("o").wait_for("Space ticks")
    terminal.press("3", "Space").wait_for("[✓] a handful drips", "Too wet")
    terminal.press("Enter").wait_for("Space takes it")
    terminal.press("Space").wait_for("On the due list")
    terminal.press("Escape").wait_for("Due", gone="Space ticks")


def stock(terminal: Terminal, ways: Ways) -> None:
    """What there is was never counted: it is now."""
    terminal.press("p").wait_for("Supplies of Cellar", "shredded cardboard")
    terminal.press("Space").wait_for("How much")
    terminal.press("Enter").wait_for("Enter keeps it")
    terminal.press(ways.card, "Enter").wait_for("From then on", gone="Enter keeps it")
    terminal.press("Space").wait_for("counted", gone="From then on")
    terminal.press("Escape").wait_for("Due")


def put_off_and_done(terminal: Terminal, wrist: Wrist) -> None:
    """The follow-up's day comes: put off by a day, and then marked done."""
    wrist.forward(days=8)
    terminal.press("d").wait_for("Due in Cellar", "see whether a handful still drips", gone="o Put right")
    terminal.press("+").wait_for("Put off until")
    terminal.press("Up", "Up", "Up", "e").wait_for("Done. u takes it back")
    terminal.press("Escape").wait_for("o Put right", gone="Due in Cellar")


def look_back(terminal: Terminal) -> None:
    terminal.press("l").wait_for("The past year of Cellar", "2 feedings", gone="o Put right")
    terminal.press("Escape").wait_for("o Put right", gone="The past year")
    terminal.press("h").wait_for("Handbook  ·", gone="o Put right")
    terminal.press("Escape").wait_for("o Put right", gone="Handbook  ·")


def written(home: Path, wrist: Wrist, ways: Ways) -> None:
    """What the month left in the file."""
    one = load(home / "cellar.toml")
    assert not one.problems
    assert one.profile is not None
    profile: Profile = one.profile
    assert profile.bin.units is ways.units
    entries = [entry for _, entry in standing(profile.journal)]
    meals = [entry for entry in entries if isinstance(entry, Fed)]
    assert meals[1].items_kg["apple"] == pytest.approx(ways.meal_kg, rel=1e-3)
    (worms,) = [entry for entry in entries if isinstance(entry, WormsAdded)]
    assert 0.2 < worms.worms_kg < 0.3
    (checked,) = [entry for entry in entries if isinstance(entry, Checked)]
    assert checked.temperature_c == pytest.approx(ways.celsius, abs=0.3)
    (follow_up,) = [entry for entry in entries if isinstance(entry, FollowUpSet)]
    assert follow_up.code == "too-wet"
    (counted,) = [entry for entry in entries if isinstance(entry, SuppliesCounted)]
    assert counted.supplies_kg["shredded cardboard"] == pytest.approx(ways.card_kg, rel=1e-3)
    assert [entry for entry in entries if isinstance(entry, Snoozed)]
    assert not replay(profile, wrist.now).findings
