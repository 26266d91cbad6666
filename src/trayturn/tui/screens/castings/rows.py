"""The rows of the castings screen: lots in columns, and castings not yet kept as a lot."""

from __future__ import annotations

from collections.abc import Sequence

from trayturn.advice.castings.coming import short_next
from trayturn.advice.castings.drying import moisture_now
from trayturn.advice.castings.stages import next_for
from trayturn.advice.castings.taking_up import tub_key, tub_line
from trayturn.advice.castings.words import jars_left, left_words
from trayturn.advice.due.hatching import Tub
from trayturn.advice.phrases import days_since
from trayturn.domain.entries import LotStage
from trayturn.domain.lots import Lot
from trayturn.domain.stack import Stack
from trayturn.tui.widgets.line_list import Row

READ_IN = (LotStage.HATCHING, LotStage.DRYING)
"""Stages in which the moisture last read still says something."""
WIDTHS = (10, 6, 12, 6, 6)
HEADS = ("Stage", "Days", "Left", "Wet", "Jars")


def heading(lots: Sequence[Lot]) -> str:
    """The names of the columns."""
    return f" {'Lot':<{_first(lots)}}{_columns(HEADS)}Next"


def lot_rows(lots: Sequence[Lot], tubs: Sequence[Tub], stack: Stack) -> list[Row]:
    """Lots as they come, and after them what can be taken up as one."""
    width = _first(lots)
    return [*(_row(lot, stack, width) for lot in lots), *(_tub(tub, stack) for tub in tubs)]


def _first(lots: Sequence[Lot]) -> int:
    return max([len("Lot"), *(len(lot.code) for lot in lots)]) + 2


def _columns(cells: Sequence[str]) -> str:
    return "".join(f"{cell:<{width}}" for cell, width in zip(cells, WIDTHS, strict=True))


def _row(lot: Lot, stack: Stack, width: int) -> Row:
    coming, wet = next_for(lot, stack), moisture_now(lot) if lot.stage in READ_IN else None
    now = coming is not None and coming.due is not None and coming.due <= stack.as_of
    cells = (
        str(lot.stage),
        str(days_since(lot.stage_since, stack.as_of)),
        left_words(lot, stack),
        f"{wet:.0f} %" if wet is not None else "-",
        str(jars_left(lot)) if lot.jars else "-",
    )
    spans = (
        (f"{lot.code:<{width}}", "strong"),
        (_columns(cells), "plain"),
        (short_next(coming, stack), "act" if now else "muted"),
    )
    return Row((spans,), lot.code)


def _tub(tub: Tub, stack: Stack) -> Row:
    return Row(((("Space takes it up: ", "act"), (tub_line(tub, stack), "plain")),), tub_key(tub))
