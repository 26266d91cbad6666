"""What comes next for a lot, said with its time."""

from __future__ import annotations

from trayturn.advice.castings.stages import Next
from trayturn.domain.stack import Stack
from trayturn.domain.words import due as in_days

SHORT = {
    "warmth": "keep it warm",
    "lure": "lay a bait",
    "look": "lift hatchlings",
    "dry": "let it dry",
    "weigh": "read or weigh",
    "sieve": "sieve",
    "ready": "ready to use",
    "pack": "fill jars",
    "use": "use first",
    "close": "close",
}
"""What comes next, for a column."""
SAYS_WHEN = "use"
"""What names its day in its own words."""


def short_next(coming: Next | None, stack: Stack) -> str:
    """`lay a bait in 3 days`, `sieve now`."""
    if coming is None:
        return "nothing left"
    return f"{SHORT[coming.code]}{_when(coming, stack)}"


def next_line(coming: Next | None, stack: Stack) -> str:
    """What comes next, and when: `Lay a bait on lot C1 in 3 days.`"""
    if coming is None:
        return "Nothing of it is left."
    return coming.what if coming.code == SAYS_WHEN else f"{coming.what.rstrip('.')}{_when(coming, stack)}."


def _when(coming: Next, stack: Stack) -> str:
    if coming.due is None:
        return ""
    return " now" if coming.due <= stack.as_of else f" {in_days(coming.due, stack.as_of)}"
