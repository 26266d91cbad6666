"""A keeper at the command line: an empty home, a clock moved by hand, and what each command answered."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from trayturn.cli.main import main
from trayturn.clock import CLOCK_FILE
from trayturn.storage.home import HOME_VARIABLE
from trayturn.storage.reading import load

START = "2026-03-01T10:00:00+01:00"


@dataclass(frozen=True)
class Answer:
    """What one command gave back."""

    status: int
    out: str
    err: str

    @property
    def data(self) -> Any:
        return json.loads(self.out)


@dataclass
class Keeper:
    """Someone who types commands."""

    home: Path
    clock_file: Path
    capture: pytest.CaptureFixture[str]

    def it_is(self, moment: str) -> None:
        """Move the clock."""
        self.clock_file.write_text(moment, encoding="utf-8")

    def types(self, *words: str) -> Answer:
        """Run one command line."""
        self.capture.readouterr()
        status = main(words)
        printed = self.capture.readouterr()
        return Answer(status, printed.out, printed.err)

    def asks(self, *words: str) -> Any:
        """The data that a command prints for a script. The command must come out well."""
        answer = self.types(*words, "--json")
        assert (answer.status, answer.err) == (0, "")
        return answer.data

    def does(self, *words: str) -> str:
        """Run a command that must come out well, and give its text."""
        answer = self.types(*words)
        assert (answer.status, answer.err) == (0, "")
        return answer.out

    def kinds(self, key: str = "pantry") -> list[str]:
        """The kinds of entries in the bin's file, in its order."""
        profile = load(self.home / f"{key}.toml").profile
        assert profile is not None
        return [entry.kind for entry in profile.journal]


@pytest.fixture
def keeper(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Keeper:
    """A keeper without a bin, on 1 March 2026 at ten."""
    one = Keeper(tmp_path / "home", tmp_path / "clock", capsys)
    one.it_is(START)
    monkeypatch.setenv(CLOCK_FILE, str(one.clock_file))
    monkeypatch.setenv(HOME_VARIABLE, str(one.home))
    return one


@pytest.fixture
def pantry(keeper: Keeper) -> Keeper:
    """A keeper with one bin of three trays: A fed on top, B and C bedding below it."""
    keeper.does("new", "Pantry", "--trays", "3", "--place", "under the stairs")
    keeper.does("log", "pantry", "started", "A", "--bedding", "cardboard=500 g", "--stage", "feeding")
    keeper.does("log", "pantry", "started", "B", "--bedding", "cardboard=500 g")
    keeper.does("log", "pantry", "started", "C", "--bedding", "cardboard=500 g")
    keeper.it_is("2026-03-03T18:30:00+01:00")
    keeper.does("log", "pantry", "fed", "A", "cabbage=500 g", "apple=0.3 kg", "--grit", "20 g")
    return keeper


@pytest.fixture
def separating(pantry: Keeper) -> Keeper:
    """The same bin after a turn, with the separation of A begun."""
    pantry.it_is("2026-05-01T09:00:00+02:00")
    pantry.does("log", "pantry", "turned", "C", "A", "B")
    pantry.it_is("2026-07-01T09:00:00+02:00")
    pantry.does("log", "pantry", "separation-begun", "A")
    return pantry
