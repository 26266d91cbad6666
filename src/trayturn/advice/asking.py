"""Whether a keeper has to read the cautions before a piece of work, or has done so already."""

from __future__ import annotations

from datetime import datetime, timedelta

from trayturn.advice.cautions import cautions_for
from trayturn.domain.stack import Stack

SESSION = timedelta(hours=12)
"""How long a reading serves: one day at the bin. Engineering choice."""
ONCE = frozenset({"feeding"})
"""Work so ordinary that its cautions are asked once a bin; they stay a key away."""


def must_read(stack: Stack, work: str, now: datetime) -> bool:
    """Whether that work's cautions are still to be ticked for this bin, in this session or at all.

    Raises `ValueError` for work that is not known.
    """
    read = [stack.cautions_read.get(caution.code) for caution in cautions_for(work)]
    if work in ONCE:
        return None in read
    return any(at is None or abs(now - at) > SESSION for at in read)
