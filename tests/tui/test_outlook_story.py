"""The outlook's screen: series after series, what if, why; reckoned off the screen's thread."""

from __future__ import annotations

import gc
import subprocess
import sys
import weakref
from collections.abc import Callable
from pathlib import Path
from threading import Event

import pytest
from syrupy.assertion import SnapshotAssertion

from tests.builders import a_usual_bin, moment, noted, started
from tests.tui.house import a_home
from tests.tui.outlooks import answered
from tests.tui.stories import Keeper, Wrist, keeper, samples, written_elsewhere
from tests.tui.test_snapshots import PlainText
from trayturn.advice.outlook import Stopped
from trayturn.science.errors import OutOfRange
from trayturn.tui.screens.outlook import asking
from trayturn.tui.screens.outlook.asking import Answer, Asked
from trayturn.tui.screens.outlook.screen import OutlookScreen

NOW = moment(251)
"""The seventh of November, six days after the reading that does not fit."""
Progress = Callable[[int, int], None]
Cancel = Callable[[], bool]


class MadeUp:
    """Stands in for the model: the made-up outlook at once, and what was asked."""

    def __init__(self) -> None:
        self.asked: list[Asked] = []

    def __call__(self, asked: Asked, draws: int, progress: Progress, cancel: Cancel) -> Answer:
        self.asked.append(asked)
        return answered(asked)


class Long:
    """Work that goes on until it is told to stop: that of the question at a place, from 0; others at once."""

    def __init__(self, place: int = 0) -> None:
        self.place, self.asked = place, 0
        self.begun, self.stopped = Event(), Event()

    def __call__(self, asked: Asked, draws: int, progress: Progress, cancel: Cancel) -> Answer:
        self.asked += 1
        if self.asked - 1 != self.place:
            return answered(asked)
        progress(3, 10)
        self.begun.set()
        while not cancel():
            self.stopped.wait(0.002)
        self.stopped.set()
        raise Stopped


@pytest.fixture
def made_up(monkeypatch: pytest.MonkeyPatch) -> MadeUp:
    found = MadeUp()
    monkeypatch.setattr(asking, "reckon", found)
    return found


@pytest.fixture
def few_draws(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(OutlookScreen, "draws", 40)


def usual(home: Path, **setup: str) -> Path:
    return a_home(home, a_usual_bin(), **setup)


async def waited(k: Keeper, event: Event) -> None:
    """Until the work in the thread has come so far."""
    for _ in range(5000):
        if event.is_set():
            break
        await k.pilot.pause()
    assert event.is_set()
    await k.pause()


async def test_the_outlook_of_a_bin_by_its_model(tmp_path: Path, few_draws: None) -> None:
    async with keeper(samples(tmp_path), "stairwell") as k:
        await k.press("3")
        assert k.screen == "Outlook"
        await k.reckoned()
        assert k.footer_fits
        k.sees("Outlook of Stairwell", "rests on 87 measurements of yours", "up to Thu 20 May 2027")
        k.sees("Castings", "Tray B, separated tomorrow: about", "today", "━ middle", "▒ 1 in 2", "░ 4 in 5")
        k.sees("A turn may be 5 days early or late: between today and Fri 27 Nov.")
        await k.press("down")
        k.sees("Tray C, separated Sat 23 Jan", "C 23 Jan 2027")
        await k.press("down")
        k.sees("Worms: ", "That keeps them: ", "of your scraps a week.")
        await k.press("down")
        k.sees("The sump holds", "Tray A, the lowest, ", "● yours")
        await k.press("v")
        k.sees("Tray C: ", "% in 30 days", "● yours")
        await k.press("v", "v", "v", "v")
        k.sees("Tray C: ")
        await k.press("end")
        k.sees("Of 5 past forecasts the band held", "● what came", "4.91 kg, held", "B 22 Mar")
        await k.press("escape")
        assert k.screen == "Stack"


async def test_what_if_of_the_model_stands_beside_todays_plan(tmp_path: Path, few_draws: None) -> None:
    async with keeper(samples(tmp_path, "stairwell"), "stairwell") as k:
        await k.press("3")
        await k.reckoned()
        assert k.app.screen.check_action("more", ()) is None
        await k.press("down", "down", "g")
        await k.reckoned()
        k.sees("What if: 14 days away", "╍ as planned", "on Sun 6 Dec instead")
        await k.press("plus", "plus", "plus")
        await k.reckoned()
        k.sees("What if: 42 days away")
        await k.press("enter")
        assert "have somebody feed once" in k.reads("#reason")


async def test_why_tells_what_it_rests_on_and_h_the_page(tmp_path: Path, made_up: MadeUp) -> None:
    async with keeper(usual(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await k.press("3")
        await k.reckoned()
        await k.press("down", "down", "down", "enter")
        told = k.reads("#reason")
        assert "Water in the sump, not emptied" in k.picture
        for words in (
            "The sump is full about Tue 26 Jan (Wed 6 Jan to later), if nobody empties it.",
            "About 400 g more dry bedding, spread over the meals, would prevent that.",
            "Rests on 7 measurements of yours.",
            "2 measurements of this series:",
            "Sun 1 Nov: 3.5 l, does not fit, 5 times the usual error more, left out (entry 9)",
            "Thu 8 Oct: 500 ml, within the usual error (entry 5)",
            "Look at entry 9.",
            "Weigh tray A: the band would be narrower.",
            "As planned: ",
        ):
            assert words in told
        await k.press("h")
        assert k.screen == "Handbook"
        k.sees("The outlook")
        await k.press("escape", "h")
        k.sees("The outlook")


async def test_one_what_if_after_another_each_longer_or_larger(tmp_path: Path, made_up: MadeUp) -> None:
    async with keeper(usual(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await k.press("3")
        await k.reckoned()
        k.sees("As planned, up to Mon 15 Feb")
        seen = []
        for _ in range(6):
            await k.press("g")
            await k.reckoned()
            first = k.reads("#what").removeprefix("What if: ")
            await k.press("plus")
            await k.reckoned()
            seen.append((first, k.reads("#what").removeprefix("What if: ")))
            k.sees(f"Worms differ with {seen[-1][1]}.", "Do this.")
        assert seen == [
            ("14 days away", "21 days away"),
            ("14 days at 5 °C", "21 days at 5 °C"),
            ("7 days at 32 °C", "14 days at 32 °C"),
            ("twice the scraps", "3 times the scraps"),
            ("half the worms", "three quarters of the worms"),
            ("twice the bedding at each meal", "3 times the bedding at each meal"),
        ]
        await k.press("minus", "left", "left")
        await k.reckoned()
        k.sees("What if: 1.5 times the bedding at each meal")
        await k.press("g")
        await k.reckoned()
        k.sees("As planned, up to Mon 15 Feb")
        k.sees_no("What if:")


async def test_nothing_is_reckoned_twice_until_the_journal_changes(tmp_path: Path, made_up: MadeUp) -> None:
    home = usual(tmp_path)
    async with keeper(home, "pantry", wrist=Wrist(NOW)) as k:
        await k.press("3")
        await k.reckoned()
        await k.press("down", "enter", "escape", "end", "question_mark", "escape")
        await k.resize(120, 40)
        await k.wait(minutes=5)
        await k.look()
        assert len(made_up.asked) == 1
        written_elsewhere(home, "pantry", [noted("so it goes", NOW)])
        await k.look()
        await k.reckoned()
        assert len(made_up.asked) == 2
        assert made_up.asked[1].profile.journal[-1].kind == "note"
        k.sees("Past forecasts", "what came")
        await k.wait(days=1)
        await k.look()
        await k.reckoned()
        assert len(made_up.asked) == 3


async def test_keys_are_answered_meanwhile_and_a_new_question_stops_the_one_before(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    work = Long(1)
    monkeypatch.setattr(asking, "reckon", work)
    async with keeper(usual(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await k.press("3")
        await k.reckoned()
        await k.press("g")
        await waited(k, work.begun)
        k.sees("What if: 14 days away", "fitting, 3 of 5; below stands the last one", "Castings")
        await k.press("down", "down", "enter")
        k.sees("Worms in the bin")
        await k.press("escape", "plus")
        await k.reckoned()
        await waited(k, work.stopped)
        k.sees("What if: 21 days away", "Worms differ with 21 days away.")
        assert work.asked == 3


async def test_leaving_stops_the_work_and_nothing_of_it_is_left(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    work = Long()
    monkeypatch.setattr(asking, "reckon", work)
    async with keeper(usual(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await k.press("3")
        await waited(k, work.begun)
        k.sees("fitting, 3 of 5", "Keys work meanwhile; Esc leaves and stops it.")
        left = weakref.ref(k.app.screen)
        await k.press("escape")
        assert k.screen == "Stack"
        await waited(k, work.stopped)
        await k.press("down")
        gc.collect()
        assert left() is None
        assert not [worker for worker in k.app.workers if worker.group == "outlook"]


async def test_an_outlook_that_was_left_is_gone_with_all_it_drew(tmp_path: Path, made_up: MadeUp) -> None:
    async with keeper(usual(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await k.press("3")
        await k.reckoned()
        await k.press("down", "g")
        await k.reckoned()
        left = weakref.ref(k.app.screen)
        await k.press("escape")
        await k.press("down")
        gc.collect()
        assert left() is None


@pytest.mark.parametrize("error", [ValueError("odd"), OutOfRange("odd")])
async def test_what_cannot_be_reckoned_is_said_and_the_house_stands(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: Exception
) -> None:
    def broken(asked: Asked, draws: int, progress: Progress, cancel: Cancel) -> Answer:
        raise error

    monkeypatch.setattr(asking, "reckon", broken)
    async with keeper(usual(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await k.press("3")
        await k.reckoned()
        k.sees(f"could not be reckoned ({type(error).__name__})", "nothing was written")
        await k.press("enter", "v", "g", "plus", "escape")
        assert k.screen == "Stack"


async def test_without_a_tray_it_says_what_will_stand_there(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await k.press("3")
        await k.reckoned()
        k.sees("No tray is on the stack", "Once the first tray is started and fed")
        assert k.footer_fits
        await k.press("enter", "v", "g", "plus", "down")
        assert k.screen == "Outlook"


async def test_a_fresh_bin_rests_on_a_rule_of_thumb(tmp_path: Path, few_draws: None) -> None:
    home = a_home(tmp_path, [started("A", 0, stage="feeding")])
    async with keeper(home, "pantry", wrist=Wrist(moment(3))) as k:
        await k.press("3")
        await k.reckoned()
        k.sees("rests on a rule of thumb", "Castings")
        await k.press("end")
        k.sees("No castings are weighed yet.")


async def test_a_file_that_cannot_be_read_says_so(tmp_path: Path, made_up: MadeUp) -> None:
    home = usual(tmp_path)
    async with keeper(home, "pantry", wrist=Wrist(NOW)) as k:
        await k.press("3")
        await k.reckoned()
        (home / "pantry.toml").write_text("format = 1\n", encoding="utf-8")
        await k.look()
        k.sees("cannot be read", "the bin's own screen says what is wrong")
        k.sees_no("━ middle")
        await k.press("enter", "g", "v", "escape")


async def test_in_a_wide_window_figures_and_reasons_stand_open(tmp_path: Path, made_up: MadeUp) -> None:
    async with keeper(usual(tmp_path), "pantry", wrist=Wrist(NOW), size=(120, 40)) as k:
        await k.press("3")
        await k.reckoned()
        k.sees("2.4 kg to 3.6 kg", "56 to 84 %", "1 of 2 held", "Rests on 7 measurements of yours.")
        assert k.footer_fits
        await k.resize(80, 24)
        k.sees_no("2.4 kg to 3.6 kg\n", "Rests on 7 measurements of yours.")
        await k.resize(60, 18)
        k.sees("Castings", "━ middle")


@pytest.mark.parametrize("theme", ["dark", "light"])
async def test_it_is_read_without_colour_and_in_letters(tmp_path: Path, made_up: MadeUp, theme: str) -> None:
    async with keeper(usual(tmp_path), "pantry", wrist=Wrist(NOW), ascii=True, theme=theme) as k:
        await k.press("3")
        await k.reckoned()
        for _ in range(8):
            assert k.picture.isascii()
            await k.press("down")
        await k.press("home", "down", "down", "down")
        k.sees("= middle", ": 1 in 2", ". 4 in 5", "o yours", "x does not fit", "~ full")


async def test_us_units(tmp_path: Path, made_up: MadeUp) -> None:
    async with keeper(usual(tmp_path, units="us"), "pantry", wrist=Wrist(NOW)) as k:
        await k.press("3")
        await k.reckoned()
        k.sees("6.6 lb of castings", "lb  ")
        await k.press("g", "g")
        await k.reckoned()
        k.sees("What if: 14 days at 41 °F")


async def test_odd_names_stand_as_they_are(tmp_path: Path, made_up: MadeUp) -> None:
    home = a_home(tmp_path, a_usual_bin(), name="[red]a[/b")
    async with keeper(home, "pantry", wrist=Wrist(NOW)) as k:
        await k.press("3")
        await k.reckoned()
        k.sees("Outlook of [red]a[/b")


async def test_the_palette_has_it(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "pantry"), "pantry") as k:
        assert "Outlook" in [one.title for one in k.app.get_system_commands(k.app.screen)]


def test_the_screen_is_there_before_numpy() -> None:
    asked = "import sys, trayturn.tui.screens.outlook.screen; print('numpy' in sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", asked], capture_output=True, text=True, check=True, timeout=30
    )
    assert done.stdout.strip() == "False"


@pytest.mark.parametrize(
    ("name", "keys"),
    [("sump", ("down", "down", "down")), ("past", ("end",)), ("what-if", ("down", "down", "g"))],
)
async def test_picture(
    tmp_path: Path, made_up: MadeUp, snapshot: SnapshotAssertion, name: str, keys: tuple[str, ...]
) -> None:
    async with keeper(usual(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await k.press("3")
        await k.reckoned()
        for key in keys:
            await k.press(key)
            await k.reckoned()
        picture = "\n".join(line.rstrip() for line in k.picture.splitlines()) + "\n"
    assert picture == snapshot(extension_class=PlainText, name=name)
