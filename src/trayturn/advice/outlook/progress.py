"""How far the reckoning of an outlook is, in words."""

from __future__ import annotations

from trayturn.advice.outlook.fitted import FIT_RUNS
from trayturn.advice.outlook.making import AFTER_FIT

ROUNDS = FIT_RUNS - 1
"""Runs of the past that are told one by one; in the last one the bin comes to stand as it does today."""


def work_words(done: int, of: int) -> str:
    """What is being done once so many steps of so many are: `fitting, 3 of 5`."""
    past = of - AFTER_FIT - FIT_RUNS
    if done < FIT_RUNS:
        return f"fitting, {max(1, done)} of {ROUNDS}"
    if done < FIT_RUNS + past:
        return f"looking back at past forecasts, {done - FIT_RUNS + 1} of {past}"
    return "running the plan ahead" if done == FIT_RUNS + past else "finding what to measure next"
