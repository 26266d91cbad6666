"""Help: the keys of a screen, told from their own declarations."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from trayturn.tui.commands import BEGIN, COMPARE, FOUND, PAST, PUT_RIGHT, TURN_DAY, TURN_RUN, Command
from trayturn.tui.widgets.sheet import Sheet

KEY_WORDS = {
    "enter": "Enter",
    "space": "Space",
    "escape": "Esc",
    "tab": "Tab",
    "question_mark": "?",
    "plus": "+",
    "minus": "-",
    "f1": "F1",
    "left": "Left",
    "right": "Right",
}
SAME_KEY = ("equals_sign",)
"""Printed on the same key as another that is told already."""


PLACES = {
    TURN_DAY: "a turn day, planned",
    TURN_RUN: "a turn day under way",
    PUT_RIGHT: "putting right",
    BEGIN: "starting a bin",
    PAST: "the past year",
    COMPARE: "ways of turning, side by side",
    FOUND: "what was found",
}
"""Places that a keeper calls otherwise than the program does."""


class HelpScreen(Sheet[None]):
    """Every key of one screen and what it does, and three things that hold everywhere."""

    BINDINGS = [
        ("escape,q,question_mark,f1,enter", "close", "Close"),
        ("up", "scroll(-1)", "Up"),
        ("down,space", "scroll(1)", "Down"),
        ("pageup", "scroll(-10)", "Ten up"),
        ("pagedown", "scroll(10)", "Ten down"),
    ]

    DEFAULT_CSS = """
    HelpScreen #sheet { width: 100%; }
    """

    def __init__(self, place: str, commands: Sequence[Command]) -> None:
        super().__init__(
            f"Keys on this screen: {PLACES.get(place, place)}", "Up and down scroll   Esc closes"
        )
        self.commands = tuple(commands)

    def compose_body(self) -> ComposeResult:
        yield Static(_keys(self.commands), id="keys")
        yield Static(Content("\n".join(["", *everywhere(self.house.shelf.home)])), id="everywhere")

    def action_close(self) -> None:
        self.dismiss(None)

    def action_scroll(self, by: int) -> None:
        self.query_one("#sheet-body").scroll_relative(y=by, animate=False)


def key_words(command: Command) -> str:
    """The command's keys as they are printed on a keyboard: `+ or Right`; `/` for one that has none."""
    words = [KEY_WORDS.get(key, key) for key in command.keys.split(",") if key not in SAME_KEY]
    return " or ".join(words) if command.keys else "/"


def _keys(commands: Sequence[Command]) -> Content:
    width = max((len(key_words(command)) for command in commands), default=0) + 2
    lines = (Content.assemble((f"{key_words(one):<{width}}", "bold"), one.help) for one in commands)
    return Content("\n").join(lines)


def everywhere(home: Path) -> list[str]:
    """What holds on every screen."""
    return [
        "/ opens the palette: every command by name, the themes, and drawing with letters only.",
        "Drag the mouse to mark text, ctrl+c copies it; with Shift (Option on a Mac) the terminal marks it.",
        f"Your bins are plain text files in {home}; q leaves at any time, since all is on disk already.",
    ]
