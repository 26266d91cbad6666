"""The line above the keys that shows a running rest on every screen."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from textual.content import Content
from textual.widgets import Static

if TYPE_CHECKING:
    from trayturn.procedure.rests import RunningRest


class RestBar(Static):
    """Hidden while nothing rests. Once a rest is over it says so, in words and with a mark."""

    DEFAULT_CSS = """
    RestBar {
        height: 1;
        padding: 0 1;
        display: none;
        background: $wait-ground;
        color: $on-wait;
        text-wrap: nowrap;
        text-overflow: ellipsis;
        &.-shown { display: block; }
        &.-over { background: $act-ground; color: $on-act; text-style: bold; }
    }
    """

    def show(self, rests: Sequence[RunningRest], now: datetime) -> None:
        """Draw the most pressing rest, and how many more there are."""
        self.set_class(not rests and (self.has_class("-shown") or self.has_class("-gone")), "-gone")
        self.set_class(bool(rests), "-shown")
        if not rests:
            self.update(Content(""), layout=False)
            return
        first = rests[0]
        self.set_class(first.over, "-over")
        mark = "! " if first.over else ("◷ " if not getattr(self.app, "ascii", False) else "~ ")
        more = f"  (+{len(rests) - 1} more)" if len(rests) > 1 else ""
        hush = "  m hushes" if first.over else ""
        self.update(Content(f"{mark}{first.words(now)}{hush}{more}"), layout=False)
