"""One thing that is due, and how pressing it is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from enum import IntEnum

from trayturn.advice.pages import Page
from trayturn.domain.stack import Stack
from trayturn.domain.words import clock
from trayturn.domain.words import due as in_days

KINDS = (
    "rest",
    "turn_day",
    "separation",
    "turn",
    "worms",
    "feed",
    "follow_up",
    "check",
    "watch",
    "hatch",
    "castings",
    "supplies",
    "start",
)
PAGES = {
    "rest": Page.SEPARATING,
    "separation": Page.SEPARATING,
    "turn_day": Page.TURNING,
    "turn": Page.TURNING,
    "worms": Page.STOCKING,
    "feed": Page.FEEDING,
    "follow_up": Page.TROUBLES,
    "check": Page.MOISTURE,
    "watch": Page.STARTING,
    "hatch": Page.HATCHING,
    "castings": Page.CASTINGS,
    "supplies": Page.SUPPLIES,
    "start": Page.BEDDING,
}
"""The page behind each kind, where the thing due names none of its own."""
DONE_BY_WORD = frozenset({"follow_up", "watch", "hatch", "supplies"})
"""Kinds that write no entry of their own: the keeper marks them done. The others are done by doing them."""
ACTS_BY_WORD = frozenset({("castings", "warmth"), ("castings", "use")})
"""The same of some things of a kind that is otherwise done by doing, by kind and first word of the code."""
FAR_OFF = datetime.max.replace(tzinfo=UTC)


class Press(IntEnum):
    """How pressing something is: worms that wait come first, then work whose day has come.

    What waits cannot be done though its day has come, or has no day before what is in its way is gone.
    """

    REST_OVER = 0
    STEP_WAITS = 1
    REST_RUNS = 2
    NOW = 3
    LATER = 4
    WAITS = 5
    ANY_TIME = 6


@dataclass(frozen=True, slots=True)
class Due:
    """One thing to do at one bin. `bin` is its key, `name` its shown name; `due` is None without a day.

    `code` tells apart what is due of one kind; `page` is the page of the handbook behind it. Where the keeper
    put it off, `due` and `snoozed_until` are the day it was put off to, and `was_due` its own.
    """

    bin: str
    name: str
    kind: str
    what: str
    why: tuple[str, ...]
    due: datetime | None
    tray: str | None
    press: Press = Press.LATER
    code: str = ""
    page: Page | None = None
    snoozed_until: datetime | None = None
    was_due: datetime | None = None

    @property
    def item(self) -> str:
        """What it is put off or marked done by: `check`, `feed:B`, `follow_up:too-wet:B`."""
        return ":".join(part for part in (self.kind, self.code, self.tray) if part)

    @property
    def pressing(self) -> bool:
        """To be done now: nothing stands in the way, and its day has come or it has none to wait for."""
        return self.press in (Press.REST_OVER, Press.STEP_WAITS, Press.NOW)

    @property
    def late(self) -> bool:
        """Pressing, since its moment has come."""
        return self.pressing and self.due is not None

    def when(self, now: datetime) -> str:
        """Its day as it is said from now; a rest by the clock."""
        if self.press is Press.WAITS:
            return "waits"
        if self.due is None:
            return "now" if self.pressing else "any time"
        return clock(self.due, now) if self.kind == "rest" else in_days(self.due, now)

    @property
    def can_wait(self) -> bool:
        """Whether it may be put off. The worms of a separation cannot wait for another day."""
        return self.press not in (Press.REST_OVER, Press.STEP_WAITS, Press.REST_RUNS)

    @property
    def done_by_word(self) -> bool:
        """Whether it is marked done, and not done by writing down a feeding, a check or the like."""
        return self.kind in DONE_BY_WORD or (self.kind, self.code.partition("-")[0]) in ACTS_BY_WORD

    @property
    def order(self) -> tuple[int, int, datetime, int, str, str]:
        """What to sort by, also across bins. Work whose day has come goes by kind: turn before feeding."""
        kind = KINDS.index(self.kind)
        first = kind if self.press is Press.NOW else 0
        return self.press, first, self.due or FAR_OFF, kind, self.bin, self.item


def due_at(
    stack: Stack,
    kind: str,
    what: str,
    why: tuple[str, ...],
    due: datetime | None,
    tray: str | None = None,
    press: Press = Press.LATER,
    code: str = "",
    page: Page | None = None,
) -> Due:
    """Something due at this bin."""
    return Due(stack.key, stack.setup.name, kind, what, why, due, tray, press, code, page or PAGES[kind])
