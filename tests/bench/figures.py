"""One line of the table, and how its numbers are taken."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import median, quantiles

HEADINGS = f"{'what':<58}|{'ours':>10} |{'floor':>10} | {'ratio':>5} | {'budget':<9} | ok?"
Measure = Callable[[], float]


@dataclass(frozen=True)
class Figure:
    """Ours beside its floor. The budget is for the ratio, or with `absolute` for ours alone."""

    what: str
    ours: float
    floor: float
    budget: float
    unit: str = "ms"
    absolute: bool = False

    @property
    def ratio(self) -> float:
        return self.ours / self.floor if self.floor else float("inf")

    @property
    def within(self) -> bool:
        return (self.ours if self.absolute else self.ratio) <= self.budget

    def __str__(self) -> str:
        budget = f"{self.budget:g} {self.unit if self.absolute else 'x'}"
        ours, floor = (f"{value:.4g} {self.unit}" for value in (self.ours, self.floor))
        ok = "yes" if self.within else "NO"
        return f"{self.what:<58}|{ours:>10} |{floor:>10} | {self.ratio:5.2f} | {budget:<9} | {ok}"


def in_turns(times: int, *measures: Measure) -> list[list[float]]:
    """What each measure gives when they take turns, so that a slow moment of the machine falls on all.

    The first round is thrown away: it fills the caches.
    """
    rounds = [[measure() for measure in measures] for _ in range(times + 1)]
    return [list(column) for column in zip(*rounds[1:], strict=True)]


def medians(times: int, ours: Measure, floor: Measure) -> tuple[float, float]:
    """The median of both measures, taken in turns."""
    values, floor_values = in_turns(times, ours, floor)
    return median(values), median(floor_values)


def p95(values: Sequence[float]) -> float:
    """The value that nineteen in twenty stay below."""
    return quantiles(values, n=20, method="inclusive")[-1]


def seconds(work: Callable[[], object]) -> float:
    """How long the work takes."""
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def ms(work: Callable[[], object]) -> float:
    """How long the work takes, in milliseconds."""
    return seconds(work) * 1000
