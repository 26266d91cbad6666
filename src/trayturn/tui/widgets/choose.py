"""A sheet of a few choices, one a row: Enter takes the marked one, Esc none."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events, on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from trayturn.domain.words import clean
from trayturn.tui.widgets.line_list import LineList, Row
from trayturn.tui.widgets.sheet import Sheet

Choice = tuple[str, str, str]
"""What a choice gives, what it is called, and a few words after it."""
DIGITS = 9
"""So many lines have a digit of their own."""


class Choose(Sheet[str | None]):
    """Gives the key of the choice that was taken, or None. The line of `marked` is marked at first.

    What is typed moves the mark and takes nothing: a digit to the so-manyth line, letters to the line that
    begins with them. Where names begin with digits, digits are letters. No letter gets past the sheet.
    """

    BINDINGS = [("escape", "leave", "Leave")]
    DEFAULT_CSS = """
    Choose LineList { height: auto; max-height: 14; }
    Choose #typed { height: 1; color: $quiet; text-wrap: nowrap; text-overflow: ellipsis; }
    """

    def __init__(self, title: str, choices: Sequence[Choice], marked: str = "") -> None:
        self.choices, self.begin_at = tuple(choices), marked
        self.names = [clean(name) for _, name, _ in self.choices]
        self.numbered = not any(name[:1].isdecimal() for name in self.names)
        self.typed = ""
        ways = "A digit or first letters mark" if self.numbered else "What is typed marks the line of it"
        super().__init__(title, f"Enter takes the marked one   {ways}   Esc leaves")

    def compose_body(self) -> ComposeResult:
        """The choices."""
        yield LineList(id="choices")

    def compose_foot(self) -> ComposeResult:
        """What has been typed so far."""
        yield Static(id="typed")

    def on_mount(self) -> None:
        """Draw the choices, with the mark where it was asked for."""
        super().on_mount()
        choices = self.query_one(LineList)
        choices.show([self._row(place) for place in range(len(self.choices))])
        choices.mark_row(self.begin_at)
        self.set_focus(choices)

    def _row(self, place: int) -> Row:
        key, _, more = self.choices[place]
        width = max(map(len, self.names)) + 3
        digit = (f"{place + 1} " if place < DIGITS else "  ") if self.numbered else ""
        return Row(
            (((digit, "muted"), (f"{self.names[place]:<{width}}", "plain"), (clean(more), "muted")),), key
        )

    def on_key(self, event: events.Key) -> None:
        """Letters and Enter end here: what goes further may meet the screen beneath, once this is gone."""
        if self.is_current and not (event.is_printable or event.key in ("enter", "backspace")):
            return
        event.stop()
        event.prevent_default()
        if not self.is_current:
            return
        if event.key == "enter":
            self.action_take()
        elif event.key == "backspace":
            self._go_to(self.typed[:-1])
        elif event.character:
            self._typed(event.character)

    def _typed(self, character: str) -> None:
        if character.isdecimal() and self.numbered and not self.typed:
            if 0 < (place := int(character)) <= len(self.choices):
                self.query_one(LineList).mark_row(self.choices[place - 1][0])
            return
        self._go_to((self.typed + character).lstrip())

    def _go_to(self, typed: str) -> None:
        """Mark the first line that begins with what is typed; where none does, the mark stays."""
        self.typed = typed
        places = [n for n, name in enumerate(self.names) if name.casefold().startswith(typed.casefold())]
        if typed and places:
            self.query_one(LineList).mark_row(self.choices[places[0]][0])
        known = "" if places or not typed else "   (no line begins so)"
        self.query_one("#typed", Static).update(Content(f"Typed: {clean(typed)}{known}" if typed else ""))

    @on(LineList.Marked)
    def _moved(self) -> None:
        """The mark was moved by hand: typing begins anew."""
        self._go_to("")

    @on(LineList.Opened)
    def action_take(self) -> None:
        """Give the marked choice."""
        self.dismiss(self.query_one(LineList).marked_key or None)

    def action_leave(self) -> None:
        """Give none."""
        self.dismiss(None)
