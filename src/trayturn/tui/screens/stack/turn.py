"""A turn before it is written down: what every tray becomes."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from trayturn.advice.turning import Move, NextTurn, next_turn, turn_entries
from trayturn.domain.entries import Stage
from trayturn.domain.stack import Stack

if TYPE_CHECKING:
    from trayturn.tui.app import TrayturnApp

BECOMES = {
    Stage.BEDDING: "bedding",
    Stage.FEEDING: "the feeding tray",
    Stage.FINISHING: "finishes",
    Stage.SEPARATING: "is being separated",
    Stage.SPARE: "leaves the stack",
}


class TurnScreen(ModalScreen[None]):
    """Space writes the turn down; Escape leaves everything as it is."""

    CSS_PATH = "turn.tcss"
    BINDINGS = [
        Binding("space,enter", "write", "Write it down"),
        Binding("escape,q", "leave", "Leave"),
    ]

    def __init__(self, key: str) -> None:
        super().__init__()
        self.key = key

    def compose(self) -> ComposeResult:
        with Vertical(id="box"):
            yield Static(id="title")
            yield Static(id="moves")
            yield Static(id="why")
            yield Static(Content("Space writes the turn down. Esc leaves all as it is."), id="keys")

    @property
    def house(self) -> TrayturnApp:
        return cast("TrayturnApp", self.app)

    @property
    def stack(self) -> Stack | None:
        return self.house.shelf.stack(self.key)

    def on_mount(self) -> None:
        if (stack := self.stack) is None:
            return
        plan = next_turn(stack)
        self.query_one("#title", Static).update(Content(plan.what))
        self.query_one("#moves", Static).update(Content("\n".join(move_lines(plan))))
        self.query_one("#why", Static).update(Content(" ".join(plan.why)))

    def action_write(self) -> None:
        stack = self.stack
        entries = turn_entries(stack, self.house.now) if stack is not None else []
        if not entries:
            self.house.say("There is nothing to turn yet.")
        elif self.house.save(self.key, entries, "Turn saved. u takes it back"):
            self.dismiss()

    def action_leave(self) -> None:
        self.dismiss()


def move_lines(plan: NextTurn) -> list[str]:
    """The moves, top of the new stack first, those that leave at the end."""
    ranked = sorted(plan.moves, key=lambda move: -(move.to_level or 0))
    return [_line(move) for move in ranked] or ["No tray moves yet."]


def _line(move: Move) -> str:
    before = f"level {move.from_level}" if move.from_level else "new"
    after = f"level {move.to_level}" if move.to_level else "off"
    return f"Tray {move.tray:<4} {before:>7} -> {after:<8} {BECOMES[move.to_stage]}"
