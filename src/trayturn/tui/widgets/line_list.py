"""A list drawn line by line: as quick with fifty thousand rows as with fifty, and deaf to markup."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import overload

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding
from textual.geometry import Region, Size
from textual.message import Message
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip

Span = tuple[str, str]
"""A piece of a line: its text, and the name of its look (one of `LOOKS`)."""

LOOKS = ("plain", "strong", "muted", "act", "wait", "fine", "error")


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its lines of spans, and what it stands for."""

    lines: tuple[tuple[Span, ...], ...]
    key: str = ""


class LazyRows(Sequence[Row]):
    """Rows made when they are drawn, for lists too long to write out. `keys` tells what each stands for."""

    def __init__(self, keys: Sequence[str], make: Callable[[int], Row]) -> None:
        self.keys, self.make = keys, make

    def __len__(self) -> int:
        return len(self.keys)

    @overload
    def __getitem__(self, place: int) -> Row: ...
    @overload
    def __getitem__(self, place: slice) -> tuple[Row, ...]: ...
    def __getitem__(self, place: int | slice) -> Row | tuple[Row, ...]:
        if isinstance(place, slice):
            return tuple(self.make(n) for n in range(len(self))[place])
        return self.make(range(len(self))[place])


class LineList(ScrollView, can_focus=True):
    """Rows with one marked; up and down move the mark, Enter or a click opens.

    Rows are `row_height` lines each, which is as quick for any number of rows; 0 gives each its own height.
    An empty line at the end of a row keeps it apart from the next.

    Component classes: `line-list--LOOK` for each of `LOOKS`, and `line-list--marked` for the marked row.
    """

    COMPONENT_CLASSES = {"line-list--marked", *(f"line-list--{look}" for look in LOOKS)}
    BINDINGS = [
        Binding("up", "move(-1)", "Up", show=False),
        Binding("down", "move(1)", "Down", show=False),
        Binding("pageup", "move(-10)", "Ten up", show=False),
        Binding("pagedown", "move(10)", "Ten down", show=False),
        Binding("home", "move(-1000000)", "First", show=False),
        Binding("end", "move(1000000)", "Last", show=False),
    ]
    DEFAULT_CSS = """
    LineList {
        height: 1fr;
        scrollbar-size-vertical: 1;
        scrollbar-background: $panel;
        scrollbar-color: $quiet;
        .line-list--plain { color: $foreground; }
        .line-list--strong { color: $foreground; text-style: bold; }
        .line-list--muted { color: $quiet; }
        .line-list--act { color: $act; text-style: bold; }
        .line-list--wait { color: $wait; }
        .line-list--fine { color: $text-success; }
        .line-list--error { color: $text-error; text-style: bold; }
        .line-list--marked { background: $marked; }
    }
    """

    marked: reactive[int] = reactive(0, always_update=True)

    class Marked(Message):
        """The mark moved to another row."""

        def __init__(self, line_list: LineList, key: str) -> None:
            super().__init__()
            self.line_list, self.key = line_list, key

        @property
        def control(self) -> LineList:
            return self.line_list

    class Opened(Marked):
        """The marked row was opened."""

    def __init__(self, row_height: int = 1, empty: Sequence[str] = (), *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self.row_height = row_height
        self.empty = tuple(empty)
        self.rows: Sequence[Row] = ()
        self._ends: list[int] = []

    def show(self, rows: Sequence[Row], row_height: int | None = None) -> None:
        """Draw these rows. The mark stays on what it marked, where that is still here.

        Of rows that stand where they stood, only those that say something else are drawn anew.
        """
        key, before, ends = self.marked_key, self.rows, self._ends
        self.rows = rows if isinstance(rows, LazyRows) else tuple(rows)
        self.row_height = self.row_height if row_height is None else row_height
        self._ends = [] if self.row_height else list(accumulate(len(row.lines) for row in self.rows))
        self._fit()
        keys = rows.keys if isinstance(rows, LazyRows) else [row.key for row in self.rows]
        place = keys.index(key) if key in keys else min(self.marked, max(0, len(rows) - 1))
        moved = place != self.marked or len(before) != len(self.rows) or ends != self._ends
        self.set_reactive(LineList.marked, place)
        if moved or not isinstance(before, tuple) or not isinstance(self.rows, tuple):
            self.refresh()
            return
        for n, (old, new) in enumerate(zip(before, self.rows, strict=True)):
            if old != new:
                self.refresh_lines(self._top(n), self._top(n + 1) - self._top(n))

    @property
    def marked_key(self) -> str:
        """What the marked row stands for; empty without rows."""
        return self.rows[self.marked].key if self.marked < len(self.rows) else ""

    def mark_first(self) -> None:
        """Mark the first row, without a word to anyone: the keeper has not moved the mark."""
        self.set_reactive(LineList.marked, 0)
        self.refresh()

    def mark_row(self, key: str) -> None:
        """Mark the row of a key, where it is, in the same way."""
        place = next((n for n, row in enumerate(self.rows) if row.key == key), self.marked)
        if place != self.marked:
            self.set_reactive(LineList.marked, place)
            self.scroll_to_region(Region(0, self._top(place), 1, 1), animate=False, force=True)
            self.refresh()

    def on_resize(self) -> None:
        self._fit()

    def _fit(self) -> None:
        self.virtual_size = Size(self.scrollable_content_region.width, self._top(len(self.rows)))

    def _top(self, place: int) -> int:
        """The first line of the row at that place; past the last one, how many lines there are."""
        if self.row_height:
            return place * self.row_height
        return self._ends[min(place, len(self._ends)) - 1] if place and self._ends else 0

    def _row_at(self, line: int) -> tuple[int, int]:
        """The place of the row that holds a line, and the line within it."""
        if self.row_height:
            return divmod(line, self.row_height)
        place = bisect_right(self._ends, line)
        return place, line - self._top(place)

    def validate_marked(self, place: int) -> int:
        return max(0, min(place, len(self.rows) - 1))

    def watch_marked(self, before: int, now: int) -> None:
        self.refresh()
        if not self.is_mounted:
            return
        height = self._top(now + 1) - self._top(now)
        self.scroll_to_region(Region(0, self._top(now), 1, height), animate=False, force=True)
        if before != now:
            self.post_message(self.Marked(self, self.marked_key))

    def action_move(self, by: int) -> None:
        self.marked += by

    def open_marked(self) -> None:
        """Open the marked row, if there is one."""
        if self.rows:
            self.post_message(self.Opened(self, self.marked_key))

    def on_click(self, event: events.Click) -> None:
        place, _ = self._row_at(event.y + int(self.scroll_offset.y))
        if 0 <= place < len(self.rows):
            self.marked = place
            if event.chain == 2:
                self.open_marked()

    def render_line(self, y: int) -> Strip:
        width = self.scrollable_content_region.width
        if not self.rows:
            return self._empty_line(y, width)
        place, line = self._row_at(y + int(self.scroll_offset.y))
        if place >= len(self.rows):
            return Strip.blank(width, self.rich_style)
        row = self.rows[place]
        spans = row.lines[line] if line < len(row.lines) else ()
        is_marked = place == self.marked and bool(spans)
        lead = ("▌" if self._unicode else ">") if is_marked and self.has_focus else " "
        return self._strip(((lead, "act"), *spans), width, is_marked)

    @property
    def _unicode(self) -> bool:
        return not getattr(self.app, "ascii", False)

    def _strip(self, spans: Sequence[Span], width: int, is_marked: bool) -> Strip:
        under = self.get_component_rich_style("line-list--marked") if is_marked else self.rich_style
        ground = Style(bgcolor=under.bgcolor)
        segments = [
            Segment(text, self.get_component_rich_style(f"line-list--{look}") + ground)
            for text, look in spans
        ]
        strip = Strip(segments)
        if strip.cell_length > width > 0:
            end = "…" if self._unicode else "~"
            strip = Strip([*strip.crop(0, width - 1), Segment(end, segments[-1].style)])
        return strip.adjust_cell_length(width, self.rich_style + ground)

    def _empty_line(self, y: int, width: int) -> Strip:
        text = self.empty[y] if y < len(self.empty) else ""
        return self._strip(((" " + text, "muted"),), width, False)
