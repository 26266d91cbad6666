"""The rows of a turn day's plan: how many trays, what fills the fresh one, and each tray, top first."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass

from trayturn.advice.stock.habits import main_bedding
from trayturn.advice.turn_day.counting import Choice
from trayturn.advice.turn_day.plan import DayPlan, Wish
from trayturn.domain.entries import Stage
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.units import OUNCE_KG
from trayturn.domain.words import clean, count
from trayturn.tui.widgets.answers import Answer, Cycle, Mass
from trayturn.tui.widgets.line_list import Span

COUNT, BEDDING = "count", "bedding"


@dataclass(frozen=True, slots=True)
class TrayRow(Answer):
    """What one tray becomes. Its key is the tray's id behind a colon."""

    becomes: str = ""
    was: str = ""

    def spans(self, width: int, ascii_only: bool) -> tuple[Span, ...]:
        return (
            (f"{self.label:<{min(width, 16)}}", "muted"),
            (f"{self.becomes:<19}", "strong"),
            (f" {self.was}", "muted"),
        )


def tray_of(row: Answer | None) -> str | None:
    """The tray that a row is about."""
    return row.key.removeprefix("tray:") if isinstance(row, TrayRow) else None


def rows_of(stack: Stack, plan: DayPlan, wish: Wish, choices: Sequence[Choice]) -> list[Answer]:
    """All rows of the plan as it stands."""
    rows: list[Answer] = []
    if not plan.by_hand and len(choices) > 1:
        rows.append(_count_row(wish, choices))
    if plan.fresh or plan.comes_back:
        rows.append(_bedding_row(stack, plan, wish))
    rows += [_row(stack, plan, tray) for tray in reversed(plan.whole)]
    return rows


def _count_row(wish: Wish, choices: Sequence[Choice]) -> Cycle:
    """How many trays stand after the turn. Its note says what that does, and what is suggested."""
    usual = next((one.number for one in choices if one.wish == Wish()), 0)
    options = tuple(_count_words(one, usual) for one in choices)
    keys = [(one.wish.bring, one.wish.more) for one in choices]
    chosen = keys.index((wish.bring, wish.more)) if (wish.bring, wish.more) in keys else None
    note = choices[chosen].does if chosen is not None else "- and +: one tray fewer, or one more."
    suggested = next((one for one in choices if one.why), None)
    if suggested is not None and suggested.wish.bring != wish.bring:
        note = f"Suggested is one fewer (-): {suggested.why}."
    return Cycle(COUNT, "After the turn", note, options, chosen)


def _count_words(one: Choice, usual: int) -> str:
    if one.number == usual:
        return f"{count(one.number, 'tray')}, as usual"
    way = "fewer" if one.number < usual else "more"
    suggested = ", suggested" if one.why else ""
    return f"{count(one.number, 'tray')}, {abs(one.number - usual)} {way}{suggested}"


def _bedding_row(stack: Stack, plan: DayPlan, wish: Wish) -> Mass:
    us = stack.setup.units is Units.US
    material = clean(bedding_name(stack, wish), 24)
    fresh = (*plan.fresh, *((plan.comes_back,) if plan.comes_back else ()))
    which = fresh[0] if len(fresh) == 1 else "each fresh one"
    note = "What each fresh tray is filled with, dry. Enter types it."
    kg = next(iter(wish.bedding_kg.values()), None)
    return Mass(BEDDING, f"{which} gets {material}", note, kg, 4 * OUNCE_KG if us else 0.05, us)


def bedding_name(stack: Stack, wish: Wish) -> str:
    """The bedding that fills a fresh tray."""
    return next(iter(wish.bedding_kg), None) or main_bedding(stack)


def _row(stack: Stack, plan: DayPlan, tray_id: str) -> TrayRow:
    tray = stack.tray(tray_id)
    stood = tray is not None and tray.on_stack
    was = f"was {tray.stage} on {tray.level}" if stood and tray is not None else "comes in fresh"
    if tray_id in plan.separating:
        becomes = "to be separated"
        if tray_id == plan.comes_back:
            was = f"was on {tray.level if tray else 1}; back on {plan.at_last.index(tray_id) + 1}"
        if tray is not None and tray.stage is Stage.SEPARATING:
            becomes, was = "being separated", "goes on"
    else:
        level = plan.at_last.index(tray_id) + 1
        becomes = f"level {level}, {plan.stages[tray_id]}"
    note = "+ and - move it up and down, g gives another stage, b is the usual plan."
    return TrayRow(f"tray:{tray_id}", f"Tray {tray_id}", note, becomes, was)


MORE = "Enter shows the rest: lifts, stock, tools, cautions."


def fitting(lines: Sequence[str], width: int, rows: int) -> list[str]:
    """The lines that fit into so many rows; where some do not, the last row says how to see them."""
    kept: list[str] = []
    used = 0
    for place, line in enumerate(lines):
        takes = max(1, len(textwrap.wrap(line, max(1, width), break_on_hyphens=False)))
        last = place == len(lines) - 1
        if used + takes > rows - (not last):
            return [*kept, MORE]
        kept.append(line)
        used += takes
    return kept
