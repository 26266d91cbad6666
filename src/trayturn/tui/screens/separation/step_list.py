"""The steps of a separation as a list: done, now, next, each with a mark and a word."""

from __future__ import annotations

from textual.content import Content

from trayturn.domain.entries import Step
from trayturn.domain.stack import Separation
from trayturn.procedure.stepper import ORDER, TITLES

MARKS = {False: {"done": "✓", "now": "▸", "next": "·"}, True: {"done": "x", "now": ">", "next": "."}}
PASS_STEPS = ORDER[1:5]


def step_list(sep: Separation | None, ended: bool, ascii_only: bool) -> Content:
    """The seven steps and the summary; the pass under way stands beside the steps it repeats."""
    now = sep.step.step if sep is not None and sep.step is not None else None
    lines = [_line(step, now, ended, sep, ascii_only) for step in ORDER]
    mark = MARKS[ascii_only]["now" if ended else "next"]
    lines.append(Content.styled(f" {mark}   Summary", "bold" if ended else "$quiet"))
    return Content("\n").join(lines)


def _line(step: Step, now: Step | None, ended: bool, sep: Separation | None, ascii_only: bool) -> Content:
    place = ORDER.index(step)
    state = (
        "done"
        if ended or (now is not None and place < ORDER.index(now))
        else "now"
        if step is now
        else "next"
    )
    text = f" {MARKS[ascii_only][state]} {place + 1} {TITLES[step]}"
    if sep is not None and step in PASS_STEPS and now in PASS_STEPS and step is now:
        text += f", pass {sep.pass_number}"
    look = {"done": "$quiet", "now": "bold $act", "next": "$foreground"}[state]
    return Content.styled(text, look)
