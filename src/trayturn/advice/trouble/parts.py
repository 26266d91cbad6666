"""What the rules of the trouble finder are made of: signs, causes, reasons, remedies. Plain data."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import IntEnum, StrEnum
from typing import TYPE_CHECKING

from trayturn.advice.pages import Page

if TYPE_CHECKING:
    from trayturn.advice.trouble.case import Case


class Sure(StrEnum):
    """What kind of source says so, the firmest first."""

    RESEARCH = "research"
    BOOK = "a handbook"
    ADVICE = "public advice"
    SECOND_HAND = "second hand"
    TRADE = "trade only"
    PRACTICE = "common practice"
    OURS = "our reasoning"


NAMELESS = {
    Sure.TRADE: "said in the trade; no research and no public advice was found",
    Sure.PRACTICE: "what keepers do; no source",
    Sure.OURS: "thought out here; no source",
}
"""Kinds for which nobody can be named, and what each means."""


@dataclass(frozen=True, slots=True)
class Source:
    """Who says so, and what kind of source that is."""

    text: str
    sure: Sure

    @property
    def told(self) -> str:
        """`Oregon Metro; public advice`, or only the kind where nobody can be named."""
        return str(self.sure) if self.sure in NAMELESS else f"{self.text}; {self.sure}"


class Weight(IntEnum):
    """How strongly something speaks. The steps, and every weight in the rules, are our choice: none is
    published."""

    NONE = 0
    SLIGHT = 1
    FAIR = 2
    STRONG = 3


NONE, SLIGHT, FAIR, STRONG = Weight


class Group(StrEnum):
    """Where a keeper looks for a sign."""

    SMELL = "smell"
    WORMS = "worms"
    WATER = "water"
    FOOD = "food"
    LIFE = "life"


@dataclass(frozen=True, slots=True)
class Sign:
    """Something a keeper can see, smell or feel: short `words` for a list, and a whole sentence.

    `note` tells what is known of it by itself, such as that an animal does no harm. `reading` is the evidence
    that asks the journal for the very same thing.
    """

    code: str
    group: Group
    words: str
    sentence: str
    note: str = ""
    source: Source | None = None
    reading: str = ""


class Says(StrEnum):
    """Which way the bin's own journal speaks."""

    FOR = "for"
    AGAINST = "against"
    NEITHER = "neither way"
    UNKNOWN = "not known"


class Check(StrEnum):
    """What a keeper can do to learn more, each as an instruction."""

    SQUEEZE = "squeeze a handful, or read a moisture meter, and write it down"
    THERMOMETER = "hold a thermometer in the food and write down what it reads"
    PH = "press a pH strip into the wet bedding and write down what it reads"
    SUMP = "look into the sump and write down how much it holds"
    WORMS = "weigh or count the worms and write them down"
    FEEDINGS = "write down what is fed, with its weight"
    BEGAN = "write down when the first tray was started"
    ONE_TRAY = "ask about one tray by itself"


@dataclass(frozen=True, slots=True)
class Found:
    """What the journal says of one question: which way, in a sentence, and the entries and figures behind."""

    says: Says
    words: str
    rests_on: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Evidence:
    """One question to the journal. `check` would answer it where the journal does not; `source` is of its
    limits."""

    code: str
    find: Callable[[Case], Found]
    check: Check
    source: Source


@dataclass(frozen=True, slots=True)
class Speaks:
    """A sign that speaks for a cause, or with a weight of `against` below nothing, against it."""

    sign: str
    weight: Weight
    source: Source
    against: bool = False

    @property
    def points(self) -> int:
        return -self.weight if self.against else int(self.weight)


@dataclass(frozen=True, slots=True)
class Asks:
    """A question to the journal as it bears on one cause: the points where it says for, and against."""

    evidence: Evidence
    if_for: Weight
    if_against: Weight

    def points(self, says: Says) -> int:
        if says is Says.FOR:
            return int(self.if_for)
        return -self.if_against if says is Says.AGAINST else 0


@dataclass(frozen=True, slots=True)
class Remedy:
    """One thing to do. `amount` reckons it for this bin; `signs` are those it is for, or none for any."""

    do: str
    source: Source
    amount: Callable[[Case], str] | None = None
    signs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Expect:
    """What is to be seen once the remedies work, after how many days, and who says so."""

    words: str
    days: int
    source: Source


@dataclass(frozen=True, slots=True)
class Cause:
    """Something that can be wrong in a bin, with every rule about it.

    `look` ends the sentence of its follow-up; `stops_feeding` holds feeding back until then; `cautions` are
    codes of `cautions.CAUTIONS`.
    """

    code: str
    title: str
    why: str
    page: Page
    speaks: tuple[Speaks, ...]
    asks: tuple[Asks, ...]
    remedies: tuple[Remedy, ...]
    expect: Expect
    worry: str
    look: str
    stops_feeding: bool = False
    cautions: tuple[str, ...] = ("gloves", "hands")
