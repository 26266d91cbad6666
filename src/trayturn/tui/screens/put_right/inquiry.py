"""What is asked at one bin: the signs as ticked so far, and what they and its journal come to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.parts import Found
from trayturn.advice.trouble.ranking import Ranked, answers
from trayturn.advice.trouble.seen import Tick, seen_already
from trayturn.advice.trouble.signs import SIGN
from trayturn.advice.trouble.telling import Answer, answer

KEPT_FOR = timedelta(hours=12)
"""How long ticks are kept after leaving: one day at the bin, as for the cautions."""


@dataclass(frozen=True, slots=True)
class LeftOff:
    """What was ticked and unticked by hand when a bin's inquiry was left, and of which tray."""

    at: datetime
    tray: str | None
    by_hand: Mapping[str, bool]

    def counts(self, now: datetime) -> bool:
        """Whether that was on the same day at the bin."""
        return abs(now - self.at) < KEPT_FOR


@dataclass
class Inquiry:
    """The case asked about, and the keeper's own ticks. What a check saw is ticked until it is unticked."""

    case: Case
    by_hand: dict[str, bool] = field(default_factory=dict)
    seen: Mapping[str, Tick] = field(init=False)
    found: Mapping[str, Found] = field(init=False)

    def __post_init__(self) -> None:
        self.seen, self.found = seen_already(self.case), answers(self.case)

    @property
    def ticks(self) -> dict[str, Tick]:
        """The signs that are ticked, in their order in the list."""
        ticked = {}
        for code in SIGN:
            if self.by_hand.get(code, code in self.seen):
                ticked[code] = self.seen.get(code, Tick(code))
        return ticked

    def toggle(self, sign: str) -> None:
        """Tick a sign, or untick it."""
        self.by_hand[sign] = sign not in self.ticks

    def answer(self) -> Answer:
        """What it all comes to."""
        return answer(self.case, list(self.ticks.values()), self.found)


def cause_of(told: Answer, code: str) -> Ranked | None:
    """The cause of that code among those named."""
    return next((one for one in told.ranked if one.cause.code == code), None)
