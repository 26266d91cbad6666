"""Draw the README's pictures with the program itself: `python assets/draw.py`.

The sample bins are opened at the moment they were written for, so that the pictures come out the same.
"""

from __future__ import annotations

import asyncio
import re
import shutil
import tempfile
from datetime import datetime
from pathlib import Path

from trayturn.clock import FastClock
from trayturn.tui.app import TrayturnApp

HERE = Path(__file__).resolve().parent
MOMENT = datetime.fromisoformat("2026-11-21T10:05:00+01:00")
PICTURES = {"stack.svg": ("stairwell", (100, 30), ()), "separation.svg": ("workshop", (80, 24), ("s",))}


async def draw(name: str, bin_name: str, size: tuple[int, int], keys: tuple[str, ...]) -> None:
    """One picture of one bin's screen, after some keys."""
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        for sample in (HERE.parent / "sample_profiles").glob("*.toml"):
            shutil.copy(sample, home)
        app = TrayturnApp(home, home / f"{bin_name}.toml", FastClock(MOMENT, rate=0))
        async with app.run_test(size=size) as pilot:
            await app.workers.wait_for_complete()
            await pilot.press(*keys)
            await pilot.pause()
            picture = app.export_screenshot(title="trayturn")
    (HERE / name).write_text(_steady(picture), encoding="utf-8")


def _steady(picture: str) -> str:
    """Without the random name that each export gets, and without a web font: it is a picture, not a page."""
    picture = re.sub(r"terminal-\d+", "terminal", picture)
    return re.sub(r"@font-face \{.*?\}\s*", "", picture, flags=re.DOTALL)


async def main() -> None:
    for name, (bin_name, size, keys) in PICTURES.items():
        await draw(name, bin_name, size, keys)


if __name__ == "__main__":
    asyncio.run(main())
