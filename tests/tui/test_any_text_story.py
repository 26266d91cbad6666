"""Whatever a keeper writes, on every screen and in every field: it is drawn as it is, and nothing breaks."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.builders import a_usual_bin, entry, moment, noted
from tests.tui.house import ODD_TEXTS, a_home
from tests.tui.stories import Keeper, Wrist, keeper
from trayturn.advice.cautions import CAUTIONS
from trayturn.domain.entries import Entry, Note

NAMED = ("plain", "open tag", "colour tag", "braces", "quotes", "emoji", "right to left", "long")
TEXTS = dict(zip(NAMED[1:], ODD_TEXTS, strict=True))
TRICKS = ("\u202eright\u202c", "a\x1b[31mb", "two\nlines", "\x07bell")

every_text = pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)


def told(text: str) -> tuple[Entry, ...]:
    """A usual bin in which that text stands wherever text can stand, and tray A rests."""
    short = text[:200]
    return (
        *a_usual_bin(),
        noted(text, 62),
        entry("fed", 63, tray="B", items_kg={short: 0.5}, note=text),
        entry("checked", 64, tray="B", smell=short, note=text),
        entry("supplies_added", 65, supplies_kg={short: 1.0}),
        entry("worms_added", 66, worms_kg=0.2, tray="B", source=short),
        entry("cautions_read", 70, work="all", codes=[caution.code for caution in CAUTIONS]),
        entry("separation_begun", 70, tray="A"),
        entry("step_started", 70, tray="A", step="skim", pass_number=1),
        entry("pass_done", 70, tray="A", pass_number=1, worms_seen="few", overs=text, contaminants=text),
        entry("step_ended", 70, tray="A", step="skim", pass_number=1),
        entry("step_started", 70, tray="A", step="rest", pass_number=2, ends_at=moment(70, 10, 15)),
    )


def free_of_control(k: Keeper) -> bool:
    """Nothing that moves the cursor, turns the line, or rings."""
    return not any(ord(ch) < 32 or "\u202a" <= ch <= "\u202e" for ch in k.picture.replace("\n", ""))


@every_text
async def test_it_is_drawn_on_every_screen(tmp_path: Path, text: str) -> None:
    home = a_home(tmp_path, told(text), name=text[:80], place=text[:200])
    async with keeper(home, wrist=Wrist(moment(70, 10, 5))) as k:
        seen = text[:16]
        k.sees(seen)
        for keys in (
            ("enter",),
            ("enter",),
            ("escape", "j"),
            ("enter",),
            ("escape", "escape", "f"),
            ("escape", "t"),
            ("escape", "d"),
            ("tab", "enter"),
            ("escape",),
        ):
            await k.press(*keys)
            assert seen[:3] in k.picture, k.screen
            assert free_of_control(k)
        await k.press("escape", "p")
        k.sees(seen)
        await k.press("escape", "s")
        k.sees("found", seen)
        await k.press("e", "2", "space", "2", *["space"] * 4)
        k.sees("Summary", "found", seen)


@pytest.mark.parametrize("text", TRICKS, ids=["turned", "colour", "lines", "bell"])
async def test_what_would_play_with_the_terminal_is_not_drawn(tmp_path: Path, text: str) -> None:
    home = a_home(tmp_path, told(text), name=text, place=text)
    async with keeper(home, wrist=Wrist(moment(70, 10, 5))) as k:
        for keys in (("m",), ("enter",), ("s",), ("escape", "j"), ("enter",), ("escape", "escape", "r")):
            await k.press(*keys)
            assert free_of_control(k), k.screen


async def test_every_free_field_takes_it(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, a_usual_bin()), "pantry", wrist=Wrist(moment(70, 18))) as k:
        for text in TEXTS.values():
            await k.press("i")
            await k.type(text)
            await k.press("ctrl+s")
            assert k.screen == "Stack"
        notes = [e.text for e in k.standing("pantry") if isinstance(e, Note)]
        assert notes == list(TEXTS.values())


async def test_typed_words_of_a_skim_are_kept_as_they_are(tmp_path: Path) -> None:
    rest = told("plain")[:-5]
    async with keeper(a_home(tmp_path, rest), "pantry", wrist=Wrist(moment(70, 18))) as k:
        await k.press("up", "down", "down", "s", "space")
        await k.press(*["space"] * (k.picture.count("[ ]") + 2), "e", "2")
        for text in TEXTS.values():
            await k.press("end", "enter", "ctrl+a")
            await k.press("end", "ctrl+u")
            await k.type(text)
            await k.press("enter")
            k.sees(text[:16])
        await k.press("space")
        assert k.separation("pantry").passes[0].note == list(TEXTS.values())[-1]


@every_text
async def test_a_bin_can_have_it_as_its_name(tmp_path: Path, text: str) -> None:
    async with keeper(tmp_path) as k:
        await k.press("n")
        await k.type(text)
        await k.press("ctrl+s")
        if len(text) > 80:
            k.sees("the most is 80")
            return
        assert k.screen == "Stack"
        k.sees(text)
        await k.press("escape")
        k.sees(text)
        await k.press("r", "ctrl+s", "y", "ctrl+s", "x")
        k.sees("Put away in archive/")
