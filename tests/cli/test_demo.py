"""`demo`: sample bins to look at, away from the keeper's own."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.cli.conftest import Keeper
from trayturn.cli import demo, screens
from trayturn.clock import CLOCK_FILE, Clock, FastClock
from trayturn.storage.home import list_profiles
from trayturn.storage.reading import load

SAMPLES = [path.stem for path in list_profiles(demo.sample_folder())]


@pytest.fixture
def visitor(keeper: Keeper, monkeypatch: pytest.MonkeyPatch) -> Keeper:
    """Someone without a clock of their own."""
    monkeypatch.delenv(CLOCK_FILE)
    return keeper


def test_there_are_samples() -> None:
    assert len(SAMPLES) >= 4


def test_the_plain_tour_shows_every_twin(visitor: Keeper) -> None:
    told = visitor.does("demo", "--plain")
    stops = re.findall(r"^\$ trayturn (.+)$", told, re.MULTILINE)
    assert stops[:2] == ["bins", "today"]
    assert [f"stack {key}" for key in SAMPLES] == [stop for stop in stops if stop.startswith("stack ")]
    assert any(stop.startswith("separation ") for stop in stops)
    assert stops[-1] == "cautions --work separation"


def test_the_plain_tour_is_told_at_its_own_moment(visitor: Keeper) -> None:
    told = visitor.does("demo", "--plain", "--ascii")
    assert "Sat 21 Nov 2026, 10:05" in told
    assert re.search(r"Rest ends \d\d:\d\d, then skim\.", told)


def test_nothing_is_written_to_the_keepers_own_home(visitor: Keeper) -> None:
    visitor.does("demo", "--plain")
    assert not visitor.home.exists()


def test_the_samples_can_be_kept(visitor: Keeper, tmp_path: Path) -> None:
    kept = tmp_path / "tries" / "demo"
    visitor.does("demo", "--plain", "--keep", str(kept))
    assert sorted(path.stem for path in kept.glob("*.toml")) == SAMPLES
    assert all(not load(path).problems for path in kept.glob("*.toml"))


def test_keeping_overwrites_nothing(visitor: Keeper, tmp_path: Path) -> None:
    (tmp_path / "pantry.toml").write_text("mine", encoding="utf-8")
    answer = visitor.types("demo", "--plain", "--keep", str(tmp_path))
    assert (answer.status, answer.out) == (2, "")
    assert "is not empty" in answer.err
    assert (tmp_path / "pantry.toml").read_text(encoding="utf-8") == "mine"


def test_a_folder_that_cannot_be_made(visitor: Keeper) -> None:
    answer = visitor.types("demo", "--plain", "--keep", str(visitor.clock_file / "x"))
    assert (answer.status, answer.out) == (2, "")
    assert "cannot be made" in answer.err


def test_the_screens_need_a_terminal(visitor: Keeper) -> None:
    answer = visitor.types("demo")
    assert (answer.status, answer.out) == (2, "")
    assert "trayturn demo --plain" in answer.err


def test_the_screens_get_the_samples_and_a_fast_clock(
    visitor: Keeper, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[tuple[list[str], Clock]] = []

    def show(home: Path, bin_path: Path | None, clock: Clock, options: object) -> int:
        seen.append(([path.stem for path in list_profiles(home)], clock))
        return 0

    monkeypatch.setattr(demo, "need_terminal", lambda instead: None)
    monkeypatch.setattr(demo, "show", show)
    visitor.does("demo", "--clock-rate", "60")
    ((keys, clock),) = seen
    assert keys == SAMPLES
    assert isinstance(clock, FastClock)
    assert (clock.start, clock.rate) == (demo.DEMO_NOW, 60.0)


def test_opening_hands_over_the_bin_and_the_options(pantry: Keeper, monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[tuple[Path, Path | None, bool, str]] = []

    def show(home: Path, bin_path: Path | None, clock: Clock, options: object) -> int:
        seen.append((home, bin_path, getattr(options, "ascii"), getattr(options, "theme")))  # noqa: B009
        return 0

    monkeypatch.setattr(screens, "need_terminal", lambda instead: None)
    monkeypatch.setattr(screens, "show", show)
    pantry.does("pantry", "--ascii", "--theme", "light")
    assert seen == [(pantry.home, pantry.home / "pantry.toml", True, "light")]
