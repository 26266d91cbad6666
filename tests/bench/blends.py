"""A blend solved for two goals: twenty ingredients and two addends, against summing the same masses."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from tests.bench.figures import Figure, medians, ms
from trayturn.science.blend import WATER, Blend, Part
from trayturn.science.goals import c_to_n_goal, moisture_goal, solve
from trayturn.science.materials import load_materials

WHOLE = 1.0
"""Milliseconds that one solution may take."""
TIMES = 50


def figures(folder: Path) -> Iterator[Figure]:
    table = load_materials()
    foods = [row.stuff for row in table.rows if row.source.startswith("USDA SR28")][:20]
    blend = Blend(tuple(Part(stuff, 0.1 * place) for place, stuff in enumerate(foods, 1)))
    goals, addends = [moisture_goal(0.86), c_to_n_goal(30)], [table.find("shredded cardboard").stuff, WATER]

    def solved() -> float:
        return ms(lambda: [solve(blend, goals, addends) for _ in range(TIMES)]) / TIMES

    def summed() -> float:
        return ms(lambda: [sum(part.kg for part in blend.parts) for _ in range(TIMES)]) / TIMES

    ours, floor = medians(9, solved, summed)
    yield Figure("a blend of 20 ingredients solved for two goals", ours, floor, WHOLE, absolute=True)
