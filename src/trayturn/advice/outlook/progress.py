"""How far the reckoning of an outlook is, in words."""

from __future__ import annotations

from trayturn.advice.outlook.fitted import FIT_RUNS

ROUNDS = FIT_RUNS - 1
"""Runs of the past that are told one by one; in the last one the bin comes to stand as it does today."""
AFTER = ("looking back at past forecasts", "running the plan ahead", "finding what to measure next")


def work_words(done: int) -> str:
    """What is being done once so many steps are: `fitting, 3 of 5`."""
    if done < FIT_RUNS:
        return f"fitting, {max(1, done)} of {ROUNDS}"
    return AFTER[min(done - FIT_RUNS, len(AFTER) - 1)]
