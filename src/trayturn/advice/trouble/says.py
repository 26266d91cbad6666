"""How a question to the journal is answered."""

from __future__ import annotations

from datetime import datetime

from trayturn.advice.phrases import when
from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.parts import Found, Says
from trayturn.domain.setup import Units


def judged(words: str, *rests_on: str, is_for: bool, is_against: bool) -> Found:
    """A finding from a figure that is known."""
    says = Says.FOR if is_for else Says.AGAINST if is_against else Says.NEITHER
    return Found(says, words, rests_on)


def unknown(words: str) -> Found:
    """Nobody wrote down what would tell."""
    return Found(Says.UNKNOWN, words)


def of(moment: datetime, case: Case) -> str:
    """A day to point at: `of Tue 3 Mar, 12 days ago`."""
    return f"of {when(moment, case.now).removeprefix('on ')}"


def inches(number: float, case: Case) -> str:
    """A length that its source gives in inches, as the keeper reads it: `1.5 in`, or `3.8 cm`."""
    return f"{number:g} in" if case.units is Units.US else f"{round(2.54 * number, 1):g} cm"
