"""Text for people: how it looks, and that it stays within 80 columns."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Keeper
from trayturn.cli.commands import COMMANDS
from trayturn.cli.kinds import KINDS

JOURNAL = """\
Pantry: 7 entries, newest first

Wed 1 Jul 2026
  09:00  separation A: getting ready
  09:00  separation A: set on top of the stack

Fri 1 May 2026
  09:00  turned: from the bottom up C, A, B

Tue 3 Mar 2026
  18:30  fed A: cabbage 500 g, apple 300 g; grit 20 g

Sun 1 Mar 2026
  10:00  started C: cardboard 500 g
  10:00  started B: cardboard 500 g
  10:00  started A: cardboard 500 g; fed at once
"""

SEPARATION = """\
Pantry, tray A: separation begun yesterday
  Step 5 of 7, pass 1: again or stop
  One more pass, or stop here?
  Since yesterday 09:40, then loosen again, or settle.
  Many worms came off in the skim: they have nowhere lower to go. Stop here.
  No more passes, about 15 min to the end.
  That rests on 1 pass of this tray (by sight: no weight at Get ready).
  Pass 1: about 1.2 kg skimmed, many worms seen, found a plastic label.
"""


def test_the_journal_as_text(separating: Keeper) -> None:
    assert separating.does("journal", "pantry") == JOURNAL


def test_the_separation_as_text(separating: Keeper) -> None:
    separating.it_is("2026-07-01T09:40:00+02:00")
    passed = ("--worms", "many", "--skimmed", "1.2kg", "--contaminants", "a plastic label")
    separating.does("log", "pantry", "pass-done", *passed)
    separating.it_is("2026-07-02T08:00:00+02:00")
    assert separating.does("separation", "pantry") == SEPARATION


def widest(text: str) -> int:
    return max(map(len, text.splitlines()))


@pytest.mark.parametrize(
    "words", ["bins", "today", "next", "stack pantry", "separation pantry", "journal pantry", "cautions"]
)
def test_text_stays_within_80_columns(separating: Keeper, words: str) -> None:
    separating.does("log", "pantry", "note", "It rained. " * 40, "--note", "x" * 200)
    told = separating.does(*words.split()).replace(str(separating.home), "HOME")
    assert widest(told) <= 80


@pytest.mark.parametrize("command", ["", *COMMANDS, *(f"log pantry {kind}" for kind in KINDS)])
def test_help_stays_within_80_columns(keeper: Keeper, monkeypatch: pytest.MonkeyPatch, command: str) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    told = keeper.does(*command.split(), "--help")
    assert widest(told) <= 80
    assert told.startswith(f"usage: trayturn {command}".rstrip().replace("pantry", "BIN"))


def test_help_lists_every_command_and_kind(keeper: Keeper) -> None:
    assert all(f"\n  {name} " in keeper.does("--help") for name in COMMANDS)
    assert all(f"\n  {name} " in keeper.does("log", "--help") for name in KINDS)


def test_ascii_text_holds_no_other_sign(separating: Keeper) -> None:
    separating.does("log", "pantry", "checked", "--temperature", "18C")
    for words in ("today", "next", "bins", "stack pantry", "journal pantry", "separation pantry", "cautions"):
        assert separating.does(*words.split(), "--ascii").isascii()
