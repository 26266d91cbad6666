"""Bins in trouble, told as a keeper would."""

from __future__ import annotations

from typing import Any

from tests.builders import a_profile, entry, moment, started
from trayturn.advice.pantry import pantry_of
from trayturn.advice.trouble.case import Case, case_of, record_of
from trayturn.advice.trouble.ranking import Ranked, answers, rank
from trayturn.advice.trouble.seen import Tick
from trayturn.domain.entries import Entry
from trayturn.domain.replay import replay

TODAY = 40.0
FED = started("A", 0, stage="feeding")
"""The one tray of these bins, fed from the start."""


def a_case(*entries: Entry, tray: str | None = None, day: float = TODAY, **setup: Any) -> Case:
    """What the rules look at, forty days in."""
    profile = a_profile(*entries, **setup)
    return case_of(record_of(profile), replay(profile, moment(day)), pantry_of(profile), tray)


def checked(day: float = TODAY - 1, **fields: Any) -> Entry:
    """A check of tray A the day before."""
    made: Entry = entry("checked", day, **{"tray": "A", **fields})
    return made


def ticks(*signs: str) -> list[Tick]:
    """Signs that the keeper ticked."""
    return [Tick(sign) for sign in signs]


def ranked(case: Case, *signs: str) -> list[Ranked]:
    """The causes of those signs in that bin, the likeliest first."""
    return rank(ticks(*signs), answers(case))


def the(code: str, ranking: list[Ranked]) -> Ranked | None:
    """That cause among those named."""
    return next((one for one in ranking if one.cause.code == code), None)
