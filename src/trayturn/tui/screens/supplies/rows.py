"""The table of supplies: a row each, with a small bar of stock against need, and a word for it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from rich.cells import set_cell_size

from trayturn.advice.bands import Band, rough_mass
from trayturn.advice.stock.outlook import Outlook
from trayturn.advice.stock.words import lasts_words, state_word
from trayturn.domain.setup import Units
from trayturn.domain.words import clean
from trayturn.tui.widgets.line_list import Row, Span

ANOTHER = "another"
"""The key of the last row, which opens the form for any supply."""
WIDTHS = (22, 9, 9, 13, 10)
HEADINGS = ("supply", "in stock", "a week", "lasts until", "next tray")
BAR = 6
LOOK = {"short": "act", "none left": "act", "count it": "wait", "enough": "fine"}


def heading() -> str:
    """What stands over the columns; one column further in, as the rows are."""
    cells = zip(HEADINGS, WIDTHS, strict=True)
    return " " + "".join(f"{word:<{width}}" for word, width in cells) + "for the month"


def supply_rows(found: Sequence[Outlook], now: datetime, units: Units, *, ascii_only: bool) -> list[Row]:
    """One row a supply, its key its code; and one to write down another."""
    rows = [Row((_line(one, now, units, ascii_only),), one.code) for one in found]
    return [*rows, Row(((("Another supply, or several at once", "muted"),),), ANOTHER)]


def _line(one: Outlook, now: datetime, units: Units, ascii_only: bool) -> tuple[Span, ...]:
    word = state_word(one)
    texts = (
        set_cell_size(clean(one.name, 60), WIDTHS[0] - 2),
        "?" if one.supply.kg is None else rough_mass(one.supply.kg, units) if one.supply.kg else "none",
        _mid(one.record.per_week, units),
        lasts_words(one, now),
        _mid(one.turn, units),
    )
    looks = ("strong", "plain", "plain", "plain", "plain")
    cells = zip(texts, WIDTHS, looks, strict=True)
    spans: list[Span] = [(set_cell_size(text, width), look) for text, width, look in cells]
    return (*spans, (bar(one, ascii_only), LOOK[word]), (f" {word}", LOOK[word]))


def _mid(band: Band | None, units: Units) -> str:
    """The middle of a band; a dash where there is none."""
    return rough_mass(band.mid, units) if band is not None and band.mid else "-"


def bar(one: Outlook, ascii_only: bool) -> str:
    """The stock as a share of what the month and the turn in sight need; full where nothing is needed."""
    full, rest = ("#", ".") if ascii_only else ("█", "░")
    if one.supply.kg is None:
        return "?" + rest * (BAR - 1)
    need = max(one.month.mid, one.supply.kg + (one.gather_kg or 0.0) if one.short else 0.0)
    share = one.supply.kg / need if need else 1.0
    cells = BAR if share >= 1 else min(BAR - 1, int(share * BAR))
    return full * cells + rest * (BAR - cells)
