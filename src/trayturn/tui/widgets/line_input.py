"""One line to type in, where a paste keeps everything and the cursor does not blink."""

from __future__ import annotations

import unicodedata

from textual import events
from textual.widgets import Input


class LineInput(Input):
    """An input of one row. Pasted lines are joined, since dropping all but the first would lose words."""

    DEFAULT_CSS = """
    LineInput {
        background: $surface;
        color: $foreground;
        &.-textual-compact { padding: 0 1; }
        &:focus { background: $marked; background-tint: $foreground 0%; }
        .input--placeholder { color: $quiet; }
    }
    """

    def __init__(self, value: str = "", hint: str = "", *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(value, hint, select_on_focus=False, compact=True, id=id)
        self.cursor_blink = False

    def _on_paste(self, event: events.Paste) -> None:
        event.prevent_default()
        event.stop()
        text = one_line(event.text)
        if self.selection.is_empty:
            self.insert_text_at_cursor(text)
        else:
            self.replace(text, *self.selection)


def one_line(text: str) -> str:
    """Text without control characters, its lines joined by blanks."""
    joined = " ".join(text.splitlines()).replace("\t", " ")
    return "".join(ch for ch in joined if unicodedata.category(ch) != "Cc")
