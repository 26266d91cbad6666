"""The rows of a turn day's plan: how many trays, what fills the fresh one, and each tray, top first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from trayturn.advice.stock.habits import main_bedding
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
            (f"{self.label:<{width}}", "muted"),
            (f"{self.becomes:<19}", "strong"),
            (f" {self.was}", "muted"),
        )


def tray_of(row: Answer | None) -> str | None:
    """The tray that a row is about."""
    return row.key.removeprefix("tray:") if isinstance(row, TrayRow) else None


def rows_of(stack: Stack, plan: DayPlan, wish: Wish, counts: Mapping[int, Wish]) -> list[Answer]:
    """All rows of the plan as it stands."""
    rows: list[Answer] = []
    if not plan.by_hand and len(counts) > 1:
        rows.append(_count_row(wish, counts))
    if plan.fresh:
        rows.append(_bedding_row(stack, plan, wish))
    rows += [_row(stack, plan, tray) for tray in reversed(plan.whole)]
    return rows


def _count_row(wish: Wish, counts: Mapping[int, Wish]) -> Cycle:
    usual = next((n for n, one in counts.items() if one == Wish()), 0)
    options = tuple(_count_words(n, usual) for n in counts)
    keys = [(one.bring, one.more) for one in counts.values()]
    chosen = keys.index((wish.bring, wish.more)) if (wish.bring, wish.more) in keys else None
    return Cycle(COUNT, "After the turn", "- and +: one tray fewer, or one more.", options, chosen)


def _count_words(number: int, usual: int) -> str:
    if number == usual:
        return f"{count(number, 'tray')}, as usual"
    way = "fewer" if number < usual else "more"
    return f"{count(number, 'tray')}, {abs(number - usual)} {way}"


def _bedding_row(stack: Stack, plan: DayPlan, wish: Wish) -> Mass:
    us = stack.setup.units is Units.US
    material = clean(bedding_name(stack, wish), 24)
    which = plan.fresh[0] if len(plan.fresh) == 1 else "each fresh one"
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
        if tray is not None and tray.stage is Stage.SEPARATING:
            becomes, was = "being separated", "goes on"
    else:
        level = plan.order.index(tray_id) + 1
        becomes = f"level {level}, {plan.stages[tray_id]}"
    note = "+ and - move it up and down, g gives it another stage; b is the usual plan again."
    return TrayRow(f"tray:{tray_id}", f"Tray {tray_id}", note, becomes, was)
