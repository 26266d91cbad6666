"""What the steps of a turn day ask, and what the answers say. Pure but for the rows they are put in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from trayturn.advice.turn_day.tasks import DayView
from trayturn.advice.turn_day.telling import CLOSING
from trayturn.domain.entries import Amount, DayStep, Feel
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.procedure.turn_day import Look
from trayturn.tui.widgets.answers import Answer, Answers, Cycle, Pick, Tick
from trayturn.tui.widgets.volume_row import Volume

STRAYS, FEELS = tuple(Amount), tuple(Feel)
SMELLS = ("like earth", "sour", "ammonia", "rotten")
SQUEEZE = "Squeeze a handful: dry crumbles, damp holds together, moist gives a drop or two, wet runs."
SMELL_NOTE = "Ammonia: stop and air the room first; o on the bin's own screen finds the cause."
REASONS = ("no scraps at hand", "food is left in it", "too wet", "too hot or cold", "another day")
"""Why the new feeding tray may not be fed on the day."""
Mark = tuple[object, ...]


def mark(stack: Stack | None, view: DayView | None) -> Mark | None:
    """What tells one task from another."""
    if stack is None or view is None:
        return None
    task = view.now
    key = (task.step, task.tray, task.number) if task is not None else None
    return view.day.begun_at, key, bool(stack.separation(task.tray or "")) if task is not None else False


def questions(stack: Stack, view: DayView, seen: Look | None = None) -> list[Answer]:
    """The rows of the task that is next. What was `seen` before going back to the look stands in them."""
    step = view.now.step if view.now is not None else None
    if step is DayStep.LOOK:
        return _look(stack, seen or Look())
    if step is DayStep.FEED:
        return [Cycle("why", "If not, why", "+ and - choose a reason; e leaves it out with that.", REASONS)]
    if step is DayStep.CLOSE:
        return [Tick(f"close-{n}", line) for n, line in enumerate(CLOSING)]
    return []


def _look(stack: Stack, seen: Look) -> list[Answer]:
    bottom = stack.trays[0].id if stack.trays else ""
    rows: list[Answer] = [
        Volume(
            "sump",
            "Sump water",
            "- and + step it. Pour it out and put the tap shut.",
            seen.sump_l,
            us=stack.setup.units is Units.US,
        ),
        Pick("strays", "Strays", "Worms in the sump go back on top of the food.", tuple(STRAYS)),
        Pick("bottom", f"Tray {bottom} feels", SQUEEZE, tuple(FEELS)),
        Cycle("smell", "It smells", SMELL_NOTE, SMELLS),
    ]
    chosen = {
        "strays": STRAYS.index(seen.strays) if seen.strays is not None else None,
        "bottom": FEELS.index(seen.bottom) if seen.bottom is not None else None,
        "smell": _place(seen.smell),
    }
    rows = [replace(row, chosen=chosen[row.key]) if isinstance(row, Pick) else row for row in rows]
    return [row for row in rows if row.key != "bottom" or bottom]


def _place(smell: str) -> int | None:
    """Which of the smells it was; None where none was said."""
    said = [one.removeprefix("like ") for one in SMELLS]
    return said.index(smell) if smell in said else None


def look_of(answers: Sequence[Answer]) -> Look:
    """What the rows say; what was not answered was not looked at."""
    rows: Mapping[str, Answer] = {row.key: row for row in answers}
    sump, strays, bottom = rows.get("sump"), rows.get("strays"), rows.get("bottom")
    smell = rows.get("smell")
    return Look(
        sump.litres if isinstance(sump, Volume) else None,
        STRAYS[strays.chosen] if isinstance(strays, Pick) and strays.chosen is not None else None,
        FEELS[bottom.chosen] if isinstance(bottom, Pick) and bottom.chosen is not None else None,
        (smell.value or "").removeprefix("like ") if isinstance(smell, Pick) else "",
    )


def reason_of(answers: Sequence[Answer]) -> str:
    """Why the task is left out, where that was chosen."""
    row = next((row for row in answers if row.key == "why"), None)
    return (row.value or "") if isinstance(row, Cycle) else ""


def stinks(answers: Answers) -> bool:
    """Whether the keeper said that it smells of ammonia."""
    return look_of(answers.answers).smell == "ammonia"
