"""Several separations at a glance: where hands are needed, in words and drawn; nothing while there is one."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.side_by_side import SideBySide, side_by_side
from trayturn.advice.side_by_side.words import lines
from trayturn.tui.widgets.timeline.widget import Timeline

if TYPE_CHECKING:
    from trayturn.tui.app import TrayturnApp

WIDE = 120
"""Columns from which all of it is said; below, what to do now and when all is done."""
EVERY_S = 15
"""The order of work is reckoned anew with every entry, and as often as this while time passes."""


class SideView(Vertical):
    """The order of work of all bins, below what a screen is about."""

    DEFAULT_CSS = """
    SideView { height: auto; margin-top: 1; }
    SideView #order { height: auto; color: $foreground; }
    """

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self.plan: SideBySide | None = None
        self._reckoned: object = None

    def compose(self) -> ComposeResult:
        yield Static(id="order")
        yield Timeline(id="timeline")

    def look(self, house: TrayturnApp, planned: Iterable[tuple[str, str]] = ()) -> None:
        """Reckon and draw, where two or more trays are separated or are to be."""
        stacks, wanted = house.shelf.stacks(), tuple(planned)
        under_way = [(stack.key, one) for stack in stacks for one in stack.separations]
        now = house.now
        key = (under_way, wanted, int(now.timestamp()) // EVERY_S, self.app.size.width >= WIDE)
        if key == self._reckoned:
            return
        self._reckoned = key
        several = len(under_way) + len(wanted) > 1
        self.plan = side_by_side(stacks, now, wanted) if several else None
        self.display = self.plan is not None
        if self.plan is not None:
            told = lines(self.plan)
            shown = told if self.app.size.width >= WIDE else [told[0], told[-1]]
            self.query_one("#order", Static).update(Content("\n".join(shown)))
        self.query_one(Timeline).show(self.plan)

    def elsewhere(self, key: str, tray: str) -> tuple[str, str] | None:
        """The bin and tray that need hands next, other than this one."""
        trays = self.plan.trays if self.plan is not None else []
        return next(((bin_, one) for bin_, _, one in trays if (bin_, one) != (key, tray)), None)
