"""Text for people: how it looks, and that it stays within 80 columns."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Keeper
from trayturn.cli.commands import COMMANDS
from trayturn.cli.kinds import KINDS
from trayturn.cli.telling import tell
from trayturn.domain.entries import ENTRY_TYPES, DeadlineMoved, EntryBase
from trayturn.domain.setup import Units

JOURNAL = """\
Pantry: 7 entries, newest first

Wed 1 Jul 2026
  09:00  step started A: getting ready
  09:00  separation begun A

Fri 1 May 2026
  09:00  turned: C A B from the bottom up

Tue 3 Mar 2026
  18:30  fed A: cabbage 500 g, apple 300 g; grit 20 g

Sun 1 Mar 2026
  10:00  tray started C: cardboard 500 g
  10:00  tray started B: cardboard 500 g
  10:00  tray started A: cardboard 500 g; feeding
"""

SEPARATION = """\
Pantry, tray A: separation begun yesterday
  Step 5 of 7, pass 1: again or stop
  One more pass, or stop here?
  Since yesterday 09:40, then loosen again, or settle.
  Many worms came off in the skim: they have nowhere lower to go. Stop here.
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
    "words", ["bins", "today", "stack pantry", "separation pantry", "journal pantry", "cautions"]
)
def test_text_stays_within_80_columns(separating: Keeper, words: str) -> None:
    separating.does("log", "pantry", "note", "It rained. " * 40, "--note", "x" * 200)
    assert widest(separating.does(*words.split())) <= 80


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
    for words in ("today", "stack pantry", "journal pantry", "separation pantry", "cautions"):
        assert separating.does(*words.split(), "--ascii").isascii()


SAID: dict[str, tuple[dict[str, object], str]] = {
    "tray_started": ({"tray": "A", "water_kg": 0.5, "level": 2}, "tray started A: water 500 g; level 2"),
    "fed": ({"tray": "A", "bedding_kg": {"card": 0.1}}, "fed A: bedding card 100 g"),
    "checked": (
        {"moisture_pct": 70.0, "ph": 7.0, "strays": "few", "smell": "sour"},
        "checked: moisture 70 %; pH 7; smells sour; few strays",
    ),
    "turned": (
        {"order": ["B", "A"], "stages": {"A": "feeding"}},
        "turned: B A from the bottom up; A feeding",
    ),
    "separation_begun": ({"tray": "A"}, "separation begun A"),
    "step_started": (
        {"tray": "A", "step": "rest", "pass_number": 2, "ends_at": "2026-03-01T10:15:00+01:00"},
        "step started A: rest, pass 2, until 10:15",
    ),
    "step_ended": ({"tray": "A", "step": "skim", "pass_number": 2}, "step ended A: skimming, pass 2"),
    "deadline_moved": ({"tray": "A", "ends_at": "2026-03-01T10:20:00+01:00"}, "deadline moved A: now 10:20"),
    "pass_done": (
        {"tray": "A", "pass_number": 1, "worms_seen": "none", "overs": "stalks"},
        "pass done A: pass 1; no worms seen; pieces to carry on stalks",
    ),
    "settled": (
        {"tray": "A", "castings_kg": 3.0, "rest_to": "B"},
        "settled A: castings 3 kg; the rest to B",
    ),
    "separation_ended": ({"tray": "A"}, "separation ended A: the tray is empty"),
    "worms_added": ({"worms_kg": 0.5, "source": "a friend"}, "worms added: 500 g; from a friend"),
    "worms_removed": ({"worms_kg": 0.5, "went_to": "school"}, "worms removed: 500 g; to school"),
    "supplies_added": ({"supplies_kg": {"grit": 1.0}}, "supplies added: grit 1 kg"),
    "supplies_used": ({"supplies_kg": {"grit": 1.0}}, "supplies used: grit 1 kg"),
    "cautions_read": ({"work": "turn", "codes": ["dust"]}, "cautions read: turn; 1 ticked"),
    "note": ({"text": "first\nfrost"}, "note: first frost"),
    "undone": (
        {"entry_at": "2026-03-01T10:00:00+01:00", "entry_kind": "worms_added"},
        "undone: worms added, 2026-03-01 10:00",
    ),
}


def made(kind: str, fields: dict[str, object]) -> EntryBase:
    """An entry as a file gives it."""
    row = {"kind": kind, "at": "2026-03-01T10:00:00+01:00", **fields}
    return ENTRY_TYPES[kind].model_validate(row, strict=False)


@pytest.mark.parametrize("kind", ENTRY_TYPES)
def test_every_kind_can_be_told(kind: str) -> None:
    fields, said = SAID[kind]
    assert tell(made(kind, fields), Units.METRIC) == said


def test_entries_are_told_in_the_keepers_units() -> None:
    assert tell(made("worms_added", {"worms_kg": 0.45359237}), Units.US) == "worms added: 1 lb"
    assert isinstance(made("deadline_moved", SAID["deadline_moved"][0]), DeadlineMoved)
