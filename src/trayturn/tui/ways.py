"""The ways from one screen to another: each screen is imported when it is first asked for."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from textual.screen import Screen

    from trayturn.tui.app import TrayturnApp

SCREENS = {
    "turn_day": "turn_day.plan_screen:PlanScreen",
    "turn_day_run": "turn_day.run_screen:RunScreen",
    "separation": "separation.screen:SeparationScreen",
    "castings": "castings.screen:CastingsScreen",
    "compare": "compare.screen:CompareScreen",
    "begin": "begin.screen:BeginScreen",
    "feed": "feed.screen:FeedScreen",
    "check": "check.screen:CheckScreen",
    "put_right": "put_right.screen:PutRightScreen",
    "supplies": "supplies.screen:SuppliesScreen",
    "due": "due.screen:DueScreen",
    "past": "past.screen:PastScreen",
    "ledger": "ledger.screen:LedgerScreen",
    "outlook": "outlook.screen:OutlookScreen",
    "found": "found.screen:FoundScreen",
    "handbook": "handbook.screen:HandbookScreen",
}
"""Each screen by its place: the module and class, below `trayturn.tui.screens`."""


def go(house: TrayturnApp, place: str, *about: str | None) -> None:
    """Open a screen on what it is about: a bin's key and perhaps a tray, or a page of the handbook."""
    module, name = SCREENS[place].split(":")
    made: Screen[object] = getattr(import_module(f"trayturn.tui.screens.{module}"), name)(*about)
    house.push_screen(made)
