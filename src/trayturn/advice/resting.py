"""Whether food is held back: some follow-ups ask for it until their day."""

from __future__ import annotations

from datetime import datetime

from trayturn.domain.stack import Stack
from trayturn.domain.words import clean

NO_FOOD = frozenset({"too-wet", "overfed", "much-nitrogen", "protein"})
"""The follow-ups, by code, until whose day nothing is fed: those of the causes that `stops_feeding`."""


def rests_until(stack: Stack, tray: str | None = None) -> tuple[datetime, str] | None:
    """Until when nothing is fed, and why; None where nothing stands against it.

    Of one tray, what is open for it and for the bin as a whole counts; without a tray, whatever is open.
    Once its day has come a follow-up holds nothing back any more: it is due itself.
    """
    held = [
        entry
        for entry in stack.follow_ups.values()
        if entry.code in NO_FOOD and entry.due > stack.as_of and (tray is None or entry.tray in (None, tray))
    ]
    if not held:
        return None
    last = max(held, key=lambda entry: entry.due)
    of = f" of tray {last.tray}" if last.tray else ""
    return last.due, f"Food is held back until the follow-up{of}: {clean(last.what, 200)}"
