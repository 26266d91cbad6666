"""A line to type in that is laid over the marked row of a list."""

from __future__ import annotations

from textual.widgets import Input

from trayturn.tui.widgets.line_input import LineInput
from trayturn.tui.widgets.line_list import LineList


class OverRow(LineInput):
    """Out of sight until it is laid over a row. The list and it stand on two layers of one container."""

    DEFAULT_CSS = """
    OverRow { height: 1; display: none; }
    """

    @property
    def is_open(self) -> bool:
        return bool(self.display)

    def lay_over(self, rows: LineList, column: int, text: str, hint: str) -> None:
        """Show it over the first line of the marked row, with that text in it and the cursor behind."""
        self.placeholder = hint
        with self.prevent(Input.Changed):
            self.value = text
        top = sum(len(row.lines) for row in rows.rows[: rows.marked])
        self.styles.offset = (column, top - int(rows.scroll_offset.y))
        self.display = True
        self.focus()
        self.action_end()
