"""A keeper who separates the finished tray of the usual bin: to the skim, to the settling, to the summary."""

import re
from contextlib import AbstractAsyncContextManager
from pathlib import Path
from typing import Any

from tests.builders import a_bin, a_usual_bin, entry, moment, started
from tests.tui.house import a_home
from tests.tui.stories import Keeper, Wrist, keeper
from trayturn.domain.entries import Entry
from trayturn.domain.setup import Tray
from trayturn.storage import managing

BEGUN = (entry("worms_added", 1, worms_kg=1.0),)


def a_keeper(
    home: Path, *entries: Entry, size: tuple[int, int] = (80, 24), **setup: Any
) -> AbstractAsyncContextManager[Keeper]:
    """A keeper of the usual bin on day 120, when tray A has finished."""
    a_home(home, (*a_usual_bin(), *BEGUN, *entries), **setup)
    return keeper(home, "pantry", wrist=Wrist(moment(120)), size=size)


def a_shed(home: Path) -> None:
    """Another bin in the same home."""
    trays = [Tray(id=name) for name in "AB"]
    managing.create(home, a_bin(name="Shed"), trays, (started("A", 50, stage="feeding"),), "shed")


async def to_the_skim(k: Keeper) -> None:
    """Begin with the finished tray, tick every caution, and go on to the first skim."""
    await k.press("s", "space")
    await k.press(*["space"] * k.picture.count("[ ]"))
    await k.press("space", "space", "e")
    k.sees("Step 4 of 7, pass 1")


async def row(k: Keeper, label: str) -> Keeper:
    """Move the mark to the row of that name."""
    await k.press("home")
    for _ in range(20):
        if any(line.lstrip("▌ ").startswith(label) for line in marked_lines(k)):
            return k
        await k.press("down")
    raise AssertionError(f"no row {label!r} in:\n{k.picture}")


def marked_lines(k: Keeper) -> list[str]:
    return [line.split("▌")[-1] for line in k.picture.splitlines() if "▌" in line[25:]]


async def take(k: Keeper, name: str) -> Keeper:
    """Take a choice of the sheet by its name."""
    assert k.screen == "Choose"
    await k.press("home")
    for _ in range(30):
        if any(re.match(rf"(\d |  )?{re.escape(name)} ", line) for line in marked_choices(k)):
            return await k.press("enter")
        await k.press("down")
    raise AssertionError(f"no choice {name!r} in:\n{k.picture}")


def marked_choices(k: Keeper) -> list[str]:
    return [
        line.lstrip().removeprefix("▌") for line in k.picture.splitlines() if line.lstrip().startswith("▌")
    ]


async def add_stones(k: Keeper, number: str = "2") -> None:
    await row(k, "Add a piece")
    await k.press("enter")
    await take(k, "avocado stone")
    await take(k, "4 cm")
    await k.press(number)


async def settle(k: Keeper) -> None:
    """From the skim to the settling, with few worms seen."""
    await row(k, "Worms seen")
    await k.press("2", "space", "2", "space")
    k.sees("Step 6 of 7")


async def settled(k: Keeper) -> None:
    """All has its place, without a weight unless one stands there."""
    await k.press("space")
    if "are not weighed" in k.picture:
        await k.press("space")
    k.sees("Step 7 of 7")


async def end(k: Keeper) -> None:
    """From the settling to the summary."""
    await settled(k)
    await k.press("space")
    k.sees("Summary")
