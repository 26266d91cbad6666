"""A keeper at the real app: a home of sample bins, a clock moved by hand, keys, and what is seen."""

from __future__ import annotations

import asyncio
import shutil
from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager, suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from unittest.mock import patch

from textual.pilot import Pilot

from tests.tui.house import drawn, footer_fits, shown, type_in
from trayturn.advice.cautions import CAUTIONS
from trayturn.domain.entries import CautionsRead, Entry
from trayturn.domain.profile import Profile
from trayturn.domain.replay import standing
from trayturn.domain.stack import Separation, Stack, StepTimes
from trayturn.storage import saving
from trayturn.storage.reading import load
from trayturn.tui.app import TrayturnApp
from trayturn.tui.screens.outlook.screen import OutlookScreen

SAMPLES = Path(__file__).parents[2] / "sample_profiles"
NAMES = tuple(sorted(path.stem for path in SAMPLES.glob("*.toml")))
SCENARIO = datetime.fromisoformat("2026-11-21T10:05:00+01:00")
"""A Saturday on which every sample has something to show, and a rest runs in the workshop."""
LONGEST = 10
"""Seconds after which what is waited for will not come."""


class Wrist:
    """The keeper's clock."""

    def __init__(self, now: datetime = SCENARIO) -> None:
        self.now = now

    def __call__(self) -> datetime:
        return self.now

    def forward(self, **time: float) -> None:
        self.now += timedelta(**time)


def samples(home: Path, *names: str) -> Path:
    """A home with copies of those sample bins, or of all."""
    home.mkdir(exist_ok=True)
    for name in names or NAMES:
        shutil.copyfile(SAMPLES / f"{name}.toml", home / f"{name}.toml")
    return home


def heeded(home: Path) -> Path:
    """The samples, with every caution ticked a moment ago, for tests that are about something else."""
    codes = [caution.code for caution in CAUTIONS]
    for name in NAMES:
        read = CautionsRead(at=SCENARIO - timedelta(minutes=1), work="all", codes=tuple(codes))
        written_elsewhere(samples(home, name), name, [read])
    return home


@dataclass
class Keeper:
    """What a keeper does and sees."""

    app: TrayturnApp
    pilot: Pilot[None]
    wrist: Wrist

    async def press(self, *keys: str) -> Keeper:
        for key in keys:
            await self.pilot.press(key)
            await self.pause()
        return self

    async def pause(self) -> None:
        """Until all that asked to be laid out or drawn anew has been: Textual gathers that for a frame."""
        await self.pilot.pause()
        quiet = 0
        for _ in range(100):
            waiting = self.app.screen._layout_widgets or self.app.screen._dirty_widgets
            # A size that has just changed asks for one more drawing: it is quiet when it was so twice.
            quiet = 0 if waiting else quiet + 1
            if quiet == 2:
                return
            await asyncio.sleep(0.004)
            await self.pilot.pause()

    async def reckoned(self) -> Keeper:
        """Until the outlook on top has its answer, or says why there is none."""
        screen = self.app.screen
        assert isinstance(screen, OutlookScreen)
        async with asyncio.timeout(LONGEST):
            while screen.way and self.app._exception is None:
                await asyncio.sleep(0.002)
        await self.pause()
        return self

    async def heed(self) -> Keeper:
        """Tick the cautions that stand before the work, and go on to it."""
        assert self.screen == "CautionsSheet"
        while self.screen == "CautionsSheet":
            await self.press("space")
        return self

    async def type(self, text: str) -> Keeper:
        """Put text where the cursor is, all at once."""
        await type_in(self.app, self.pilot, text)
        return self

    async def wait(self, **time: float) -> Keeper:
        """Let that much time pass, and one tick at the end of it."""
        self.wrist.forward(**time)
        self.app.tick()
        await self.pause()
        return self

    async def look(self) -> Keeper:
        """Let the app see what others have written."""
        self.app.look_again()
        await self.pause()
        return self

    async def resize(self, width: int, height: int) -> Keeper:
        """Textual takes a new size only after a moment, in case it changes again."""
        await self.pilot.resize_terminal(width, height)
        await self._resized(width, height, LONGEST / 5)
        # Its timer of a moment is lost where the machine stops between its first two lines: asked once more.
        self.app._check_resize()
        await self._resized(width, height, LONGEST)
        assert self.app.screen._compositor.size == (width, height)
        await self.pilot.pause()
        return self

    async def _resized(self, width: int, height: int, longest: float) -> None:
        """Until the screen has that size, or no longer than so many seconds."""
        with suppress(TimeoutError):
            async with asyncio.timeout(longest):
                while self.app.screen._compositor.size != (width, height):
                    await asyncio.sleep(0.01)

    @property
    def screen(self) -> str:
        """The name of the screen on top."""
        return type(self.app.screen).__name__.removesuffix("Screen")

    @property
    def picture(self) -> str:
        """The whole screen as text."""
        return drawn(self.app)

    @property
    def title(self) -> str:
        return self.picture.splitlines()[0]

    @property
    def troubles(self) -> list[str]:
        """What was said in the corner and still stands."""
        return [note.message for note in self.app._notifications]

    @property
    def footer_fits(self) -> bool:
        return footer_fits(self.app)

    def sees(self, *words: str) -> None:
        """Fails with the picture where one of the words is not in sight."""
        missing = [word for word in words if word not in self.picture]
        assert not missing, f"{missing} not in:\n{self.picture}"

    def sees_no(self, *words: str) -> None:
        there = [word for word in words if word in self.picture]
        assert not there, f"{there} in:\n{self.picture}"

    def reads(self, query: str) -> str:
        """The whole text of one widget, as it would be without the edge of the screen."""
        return shown(self.app, query)

    def profile(self, key: str) -> Profile:
        """The bin as its file has it."""
        loaded = load(self.app.shelf.home / f"{key}.toml")
        assert loaded.profile is not None
        assert loaded.problems == ()
        return loaded.profile

    def standing(self, key: str) -> list[Entry]:
        return [entry for _, entry in standing(self.profile(key).journal)]

    def stack(self, key: str) -> Stack:
        stack = self.app.shelf.stack(key)
        assert stack is not None
        return stack

    def separation(self, key: str) -> Separation:
        """The bin's first separation under way."""
        return self.stack(key).separations[0]

    def step(self, key: str) -> StepTimes:
        """The step under way in the bin's first separation."""
        step = self.separation(key).step
        assert step is not None
        return step


async def _settled(_: float = 0) -> None:
    """All that is ready to run has run. Textual waits for a still processor, which takes far longer."""
    for _ in range(20):
        await asyncio.sleep(0)


@asynccontextmanager
async def keeper(
    home: Path,
    bin: str | None = None,  # noqa: A002
    *,
    path: Path | None = None,
    wrist: Wrist | None = None,
    size: tuple[int, int] = (80, 24),
    ascii: bool = False,  # noqa: A002
    theme: str = "dark",
) -> AsyncIterator[Keeper]:
    """The app as started by a keeper, on one bin where one is named, once every bin is read."""
    wrist = wrist or Wrist()
    path = home / f"{bin}.toml" if bin else path
    app = TrayturnApp(home, path, wrist, ascii=ascii, theme=theme)
    with patch("textual.app.wait_for_idle", _settled), patch("textual.pilot.wait_for_idle", _settled):
        async with app.run_test(size=size, notifications=True) as pilot:
            async with asyncio.timeout(LONGEST):
                while app.reading and app._exception is None:
                    await asyncio.sleep(0.002)
            told = Keeper(app, pilot, wrist)
            await told.pause()
            yield told


def written_elsewhere(home: Path, key: str, entries: Sequence[Entry]) -> None:
    """Another window adds to the bin's file."""
    saving.append(load(home / f"{key}.toml"), entries)
