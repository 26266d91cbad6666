"""What is told of things done to a lot before their time."""

from __future__ import annotations

from datetime import datetime

from trayturn.advice.castings.stages import Next
from trayturn.advice.phrases import day_has_come
from trayturn.domain.words import due as in_days

WAITS = {
    "lure": "few hatch earlier",
    "look": "bait needs a week",
    "dry": "it still hatches",
    "sieve": "it is still wet",
    "ready": "it still cures",
}
"""What is better not done early, and why in three words. Weighing, filling and using may be done any day."""


def not_yet(coming: Next, now: datetime) -> str:
    """`Not yet: in 28 days (few hatch earlier).`; empty once its day has come, or where nothing dates it."""
    if coming.code not in WAITS or coming.due is None or day_has_come(coming.due, now):
        return ""
    return f"Not yet: {in_days(coming.due, now)} ({WAITS[coming.code]})."
