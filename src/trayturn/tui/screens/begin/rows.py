"""The steps of the plan for a new bin as rows: what is done, what is next, what is looked to."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from trayturn.advice.starting_steps import PlanStep
from trayturn.tui.widgets.line_list import Row, Span

OF_WORK = {"tray": ("soak", "fill"), "worms": ("worms",), "meal": ("meal",)}
"""The steps that a piece of work writes down."""


def step_rows(steps: Sequence[PlanStep], work: str | None, width: int) -> list[Row]:
    """Each step wrapped to the width, its key its code. Done and next are marked by a word, not by colour."""
    return [_row(step, step.code in OF_WORK.get(work or "", ()), max(20, width)) for step in steps]


def _row(step: PlanStep, is_next: bool, width: int) -> Row:
    word = "done" if step.done else "next" if is_next else ""
    look = "fine" if step.done else "act"
    head: tuple[Span, ...] = ((f"{word:<6}", look), (step.title, "strong"))
    body = wrap(step.what, width - 7)
    return Row((head, *((("      ", "plain"), (line, "plain")) for line in body)), step.code)
