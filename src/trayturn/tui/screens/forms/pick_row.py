"""A choice among a few words, all in sight: digits or left and right choose, no list has to be opened."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.binding import Binding
from textual.content import Content
from textual.geometry import Size
from textual.message import Message
from textual.widget import Widget

from trayturn.tui.screens.forms.fields import Option

MOST_LINES = 3
"""Beyond this many lines only the chosen word is written out, between two arrows."""


class PickRow(Widget, can_focus=True):
    """The chosen option stands in brackets. An option without a value has the digit 0."""

    BINDINGS = [
        Binding("left", "step(-1)", "Back", show=False),
        Binding("right,space", "step(1)", "On", show=False),
        Binding("enter", "submit", "Go on", show=False),
        *(Binding(str(digit), f"pick({digit})", str(digit), show=False) for digit in range(10)),
    ]
    DEFAULT_CSS = """
    PickRow {
        height: auto;
        background: $surface;
        &:focus { background: $marked; }
    }
    """

    class Changed(Message):
        """Another option was chosen."""

        def __init__(self, row: PickRow) -> None:
            super().__init__()
            self.row = row

    class Submitted(Changed):
        """Enter was pressed: on to the next field."""

    def __init__(self, options: Sequence[Option], value: str = "", *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self.options = tuple(options)
        self.value = value
        first = 0 if self.options and not self.options[0].value else 1
        self._words = tuple(f"{n} {option.label}" for n, option in enumerate(self.options, first))
        self._first = first

    @property
    def place(self) -> int | None:
        """Which option is chosen, from 0; None while none is."""
        return next((n for n, option in enumerate(self.options) if option.value == self.value), None)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return len(self._lines(width))

    def render(self) -> Content:
        lines = self._lines(self.content_size.width)
        return Content("\n").join(
            Content.assemble(*((self._word(n), self._look(n)) for n in line)) for line in lines
        )

    def _look(self, place: int) -> str:
        """The chosen word stands out, and more so where the keys are: without colour too."""
        if self.place is None and self.has_focus:
            return "underline"
        if place != self.place:
            return ""
        return "bold reverse" if self.has_focus else "bold"

    def _lines(self, width: int) -> list[list[int]]:
        """The options by line; one line with the chosen one alone where they would fill too many."""
        lines: list[list[int]] = [[]]
        used = 0
        for n, word in enumerate(self._words):
            if lines[-1] and used + len(word) + 2 > width:
                lines.append([])
                used = 0
            lines[-1].append(n)
            used += len(word) + 2
        return lines if len(lines) <= MOST_LINES else [[self.place or 0]]

    def _word(self, place: int) -> str:
        lines = self._lines(self.content_size.width)
        if len(lines) == 1 and len(lines[0]) < len(self.options):
            left, right = ("<", ">") if getattr(self.app, "ascii", False) else ("‹", "›")
            return f" {left} {self.options[place].label} {right}  {place + 1} of {len(self.options)}"
        return f"[{self._words[place]}]" if place == self.place else f" {self._words[place]} "

    def on_focus(self) -> None:
        self.refresh()

    def on_blur(self) -> None:
        self.refresh()

    def choose(self, place: int) -> None:
        """Take the option at that place, if there is one."""
        if 0 <= place < len(self.options) and self.options[place].value != self.value:
            self.value = self.options[place].value
            self.refresh()
            self.post_message(self.Changed(self))

    def action_step(self, by: int) -> None:
        if self.options:
            self.choose(0 if self.place is None else (self.place + by) % len(self.options))

    def action_pick(self, digit: int) -> None:
        self.choose(digit - self._first)

    def action_submit(self) -> None:
        self.post_message(self.Submitted(self))

    def on_click(self, event: events.Click) -> None:
        """A click takes the word under it; where only one word shows, the next."""
        offset = event.get_content_offset(self)
        lines = self._lines(self.content_size.width)
        if offset is None or not 0 <= offset.y < len(lines):
            return
        if len(lines) == 1 and len(lines[0]) < len(self.options):
            self.action_step(1)
            return
        start = 0
        for place in lines[offset.y]:
            start += len(self._words[place]) + 2
            if offset.x < start:
                self.choose(place)
                return
