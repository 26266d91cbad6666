"""What a reading amounts to: how it stands, in a word and a sentence, and what to do about it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import IntEnum

from trayturn.advice.checking.additions import Addition
from trayturn.advice.checking.kinds import Kind
from trayturn.advice.checking.ranges import Standing
from trayturn.advice.checking.trend import Trend
from trayturn.advice.pages import Page


class Level(IntEnum):
    """How much a reading asks for."""

    NOTED = 0
    FINE = 1
    WATCH = 2
    ACT = 3


LEVELS = {
    Standing.BELOW: Level.ACT,
    Standing.LOW: Level.WATCH,
    Standing.FINE: Level.FINE,
    Standing.HIGH: Level.WATCH,
    Standing.ABOVE: Level.ACT,
}
"""What a number asks for by where it stands: outside the limits to act, outside the easy band to watch."""
PAGES = {
    Kind.MOISTURE: Page.MOISTURE,
    Kind.TEMPERATURE: Page.TEMPERATURE,
    Kind.PH: Page.PH,
    Kind.SMELL: Page.SMELLS,
    Kind.SUMP: Page.SUMP,
    Kind.STRAYS: Page.STRAYS,
    Kind.PESTS: Page.PESTS,
    Kind.WORMS: Page.WORM_NUMBERS,
    Kind.WEIGHT: Page.LIFTING,
}
"""The page of the handbook behind each kind of reading."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """One reading judged. `word` is how it stands in a word or two, `what` the same as a sentence.

    `do` is what to do about it, a sentence each, amounts in it; `why` is what it rests on, sources in it.
    `at` is when it was read, `standing` where a number stands against its published range.
    """

    kind: Kind
    level: Level
    word: str
    what: str
    at: datetime
    do: tuple[str, ...] = ()
    why: tuple[str, ...] = ()
    addition: Addition | None = None
    trend: Trend | None = None
    standing: Standing | None = None
