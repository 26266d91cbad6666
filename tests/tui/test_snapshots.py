"""The screens as text, at a frozen moment: what a change does to them is seen in a diff."""

from __future__ import annotations

from pathlib import Path

import pytest
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode

from tests.tui.stories import heeded, keeper, samples

SHOTS = {
    "bins": ("home",),
    "due": ("d",),
    "stack": ("home", "enter"),
    "separation": ("home", "enter", "s"),
    "journal": ("home", "enter", "j"),
    "put-right": ("home", "enter", "o", "space", "3", "space", "enter"),
    "check": ("home", "enter", "k", "4"),
}


class PlainText(SingleFileSnapshotExtension):
    """One text file a picture."""

    _write_mode = WriteMode.TEXT
    file_extension = "txt"


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
@pytest.mark.parametrize("name", SHOTS)
async def test_screen(tmp_path: Path, snapshot: SnapshotAssertion, name: str, size: tuple[int, int]) -> None:
    async with keeper(samples(tmp_path), size=size) as k:
        await k.press(*SHOTS[name])
        picture = "\n".join(line.rstrip() for line in k.picture.splitlines()) + "\n"
    assert picture == snapshot(extension_class=PlainText)


async def test_a_meal_in_the_making(tmp_path: Path, snapshot: SnapshotAssertion) -> None:
    async with keeper(heeded(tmp_path), "pantry") as k:
        await k.press("f", "+", "down", "+", "down", "+", "end", "enter")
        picture = "\n".join(line.rstrip() for line in k.picture.splitlines()) + "\n"
    assert picture == snapshot(extension_class=PlainText)


async def test_a_turn_day_planned(tmp_path: Path, snapshot: SnapshotAssertion) -> None:
    async with keeper(heeded(tmp_path), "stairwell") as k:
        await k.press("t")
        picture = "\n".join(line.rstrip() for line in k.picture.splitlines()) + "\n"
    assert picture == snapshot(extension_class=PlainText)
