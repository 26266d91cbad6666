"""Every size of window: keys fit at 80 columns, a small one says what it needs, reasons open at 120."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.tui.stories import Keeper, heeded, keeper, samples

TOUR = {
    "bins": ("home",),
    "due": ("d",),
    "stack": ("escape", "enter"),
    "journal": ("j",),
    "put right": ("escape", "o", "space"),
    "causes": ("enter",),
    "cautions": ("escape", "c"),
    "check": ("escape", "k"),
    "turn": ("escape", "t"),
    "feeding": ("escape", "f"),
    "help": ("escape", "question_mark"),
    "rest": ("escape", "s"),
    "skim": ("e",),
    "decide": ("2", "space"),
    "settle": ("2", "space"),
    "clean up": ("space", "space"),
    "summary": ("space",),
}
"""Keys that lead from screen to screen, each from the one before."""


async def toured(k: Keeper) -> dict[str, str]:
    """The picture of every screen by its name."""
    pictures = {}
    for name, keys in TOUR.items():
        await k.press(*keys)
        pictures[name] = k.picture
        assert k.screen in ("Help", "Turn", "Form") or k.footer_fits, name
    return pictures


async def test_at_80_columns_no_key_falls_off_any_screen(tmp_path: Path) -> None:
    async with keeper(heeded(tmp_path)) as k:
        pictures = await toured(k)
        frames = [pictures[name] for name in TOUR if name not in ("help", "turn", "feeding")]
        assert [p.splitlines()[-1].count("? Help") for p in frames] == [1] * len(frames)


@pytest.mark.parametrize("size", [(59, 24), (80, 17), (20, 5), (1, 1)])
async def test_a_small_window_says_what_it_needs_and_still_shows_the_rest(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    async with keeper(samples(tmp_path), "workshop") as k:
        await k.resize(*size)
        if size[0] >= 59:
            k.sees("trayturn needs a window of 60 by 18", "rest 07:00 left")
            k.sees_no("Tab, Enter: why")
        for keys in ("j", "escape", "s", "escape", "escape"):
            await k.press(keys)
        await k.resize(80, 24)
        k.sees("5 bins", "rest 07:00 left")
        k.sees_no("needs a window")


async def test_a_window_may_change_its_size_at_any_moment(tmp_path: Path) -> None:
    async with keeper(heeded(tmp_path)) as k:
        for keys in TOUR.values():
            await k.press(*keys)
            for size in ((40, 10), (80, 24)):
                await k.resize(*size)
        k.sees("Summary", "Tray C is empty and spare")


async def test_a_form_keeps_its_words_through_any_size(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "pantry"), "pantry") as k:
        await k.press("i")
        await k.type("first frost")
        for size in ((30, 8), (200, 60), (80, 24)):
            await k.resize(*size)
        k.sees("first frost")


async def test_from_120_columns_the_reasons_stand_open(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "workshop") as k:
        k.sees_no("feeding tray since Tue 22")
        await k.resize(120, 40)
        k.sees("feeding tray since Tue 22")
        await k.press("j")
        k.sees("Saturday 2026-11-21")
        await k.press("escape", "c")
        k.sees("Source: ")
        assert k.footer_fits
