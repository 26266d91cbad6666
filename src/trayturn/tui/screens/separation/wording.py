"""The words of the separation screen, step by step."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from trayturn.advice.due import due_list
from trayturn.advice.passes import advised_to_stop, ahead, ahead_words, empty_kg
from trayturn.advice.story import tray_line
from trayturn.advice.turn_day.jobs import job_lines
from trayturn.domain.entries import Outcome, Stage, Step
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.words import listed
from trayturn.procedure.stepper import TOOLS, StepView
from trayturn.procedure.summary import pass_lines, whole_summary
from trayturn.tui.screens.separation.picking import enter_does
from trayturn.tui.widgets.answer_rows import Answer, Count, Cycle, Mass

JOBS = 2
"""So many jobs are named for a rest."""


@dataclass(frozen=True, slots=True)
class Said:
    """Where the keeper is, the one sentence to do now, a few lines under it, and what the keys do.

    While a step is on, what the keys do is `hint`.
    """

    place: str
    to_do: str
    lines: tuple[str, ...] = ()
    hint: str = ""


def words(
    stack: Stack,
    tray: str,
    sep: Separation | None,
    shown: StepView | None,
    *,
    wide: bool,
    free: timedelta | None = None,
) -> Said:
    """Everything the screen says at this moment; a wide window has room for more that is next.

    For a rest jobs are named that fit while hands are `free`.
    """
    if sep is None:
        return _not_begun(stack, tray)
    if sep.ended_at is not None or shown is None:
        return _ended(stack, sep, wide=wide)
    return Said(shown.place, shown.to_do, _lines(stack, sep, shown, free))


def _not_begun(stack: Stack, tray_id: str) -> Said:
    tray = stack.tray(tray_id)
    lines = [tray_line(tray, stack)] if tray else []
    if tray is not None and tray.stage is not Stage.FINISHING:
        lines.append(f"It is still {tray.stage}: a tray is usually separated after it has finished.")
    return Said(
        "Before you begin",
        f"Separate tray {tray_id} from its worms?",
        tuple(lines),
        "Space begins. Esc leaves.",
    )


def _ended(stack: Stack, sep: Separation, *, wide: bool) -> Said:
    """The summary, and what comes next in this bin."""
    away = f"Done. Tray {sep.tray} is empty and spare."
    to_do = f"Tray {sep.tray} is back at its level." if sep.outcome is Outcome.PUT_BACK else away
    next_up = [f"Next: {one.what}" for one in due_list(stack)[: 3 if wide else 2]]
    told = (*whole_summary(stack, sep), "", *next_up, "", *pass_lines(sep, stack.setup.units))
    return Said("Summary", to_do, told, "Space leaves.")


def _lines(stack: Stack, sep: Separation, shown: StepView, free: timedelta | None) -> tuple[str, ...]:
    if shown.step is Step.GET_READY:
        return (f"At hand: {listed(TOOLS)}.",)
    if shown.step is Step.DECIDE:
        stops, why = advised_to_stop(sep, empty_kg(stack, sep.tray))
        return (
            why,
            "Advice: stop here." if stops else "Advice: one more pass.",
            *ahead_words(ahead(stack, sep), shown.step),
            *pass_lines(sep, stack.setup.units)[-2:],
        )
    if shown.step in (Step.SKIM, Step.SETTLE, Step.CLEAN_UP):
        return ahead_words(ahead(stack, sep), shown.step)
    if shown.step in (Step.LOOSEN, Step.REST):
        passes = tuple(pass_lines(sep, stack.setup.units)[-2:])
        fitting = job_lines(stack, free, stack.as_of, JOBS) if shown.step is Step.REST else ()
        return (*passes, *fitting)
    return ()


def hint(shown: StepView, marked: Answer | None, *, ticked: bool) -> str:
    """What the keys do at this step and on the marked row; `ticked` is whether nothing is left to tick."""
    enter, keys = enter_does(marked), _row_keys(marked)
    if shown.clock_set_back:
        return "+ gives it its whole time again from now, e ends it."
    if shown.step is Step.GET_READY:
        space = "All ticked: Space starts the loosening" if ticked else "Space ticks line by line"
        return f"{space}. {keys}".rstrip()
    if shown.step is Step.REST and shown.running:
        return "+ and - move the end by 5 minutes, e ends it now. You may leave: the rest goes on."
    if shown.step is Step.LOOSEN and shown.running:
        return f"Space: {shown.done_word.lower()}. + and - move the end by 1 minute."
    if shown.step is Step.SKIM:
        if not enter:
            return "1, 2 or 3: how many worms. Down: what else came out. Space: skimmed."
        return f"{keys}Space: skimmed."
    if shown.step is Step.DECIDE:
        if not enter:
            return "1 or 2 chooses, Down: the next rest. Space goes on."
        return f"{keys}Space goes on."
    if shown.step is Step.SETTLE:
        return f"Up and down move. {keys}Space: all settled."
    return f"Space: {shown.done_word.lower()}."


def _row_keys(marked: Answer | None) -> str:
    """`- and + change, Enter picks. `: what they do with the marked row."""
    change = "- and + change" if isinstance(marked, Count | Cycle | Mass) else ""
    keys = ", ".join(part for part in (change, enter_does(marked)) if part)
    return f"{keys}. " if keys else ""
