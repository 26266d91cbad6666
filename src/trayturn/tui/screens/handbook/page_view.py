"""One page of the handbook to read: it scrolls, and its digits open the pages it points to."""

from __future__ import annotations

import re
from collections.abc import Sequence

from rich.segment import Segment
from rich.style import Style
from textual.binding import Binding
from textual.geometry import Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.selection import Selection
from textual.strip import Strip

from trayturn.advice.handbook import Article, Line, article, in_units, lay_out
from trayturn.advice.pages import Page
from trayturn.domain.setup import Units

WIDEST, NARROWEST = 78, 50
"""Longer lines are hard to read, and shorter ones cannot hold a table."""
EDGES = 3
"""What is left free beside the text: a blank on either side, and where the scrollbar goes."""
BOLD = Style(bold=True)
MARKS = re.compile(r"(\[\d+(?:,\d+)*\])")
"""The numbers of sources behind what is said."""
LOOKS = {"heading": "heading", "head": "quiet", "source": "quiet", "see": "see"}
"""The component class that a line takes its look from; others look as the widget does, the summary bold."""


class PageView(ScrollView, can_focus=True):
    """Up and down scroll, Space turns over; a digit opens what stands under it at the end.

    Drawn line by line, which takes a third of the time of a text that is laid out. It can be marked with the
    mouse. Component classes: `page--heading`, `page--quiet` (sources) and `page--see`.
    """

    COMPONENT_CLASSES = {f"page--{look}" for look in LOOKS.values()}
    BINDINGS = [
        Binding("space", "page_down", "On", show=False),
        Binding("1", "see(1)", "See also", key_display="1-9"),
        *(Binding(str(digit), f"see({digit})", str(digit), show=False) for digit in range(2, 10)),
    ]
    DEFAULT_CSS = """
    PageView {
        scrollbar-gutter: stable;
        scrollbar-size-vertical: 1;
        scrollbar-background: $panel;
        scrollbar-color: $quiet;
        .page--heading { color: $primary; text-style: bold; }
        .page--quiet { color: $quiet; }
        .page--see { color: $wait; }
    }
    """

    class See(Message):
        """Another page is asked for."""

        def __init__(self, page: Page) -> None:
            super().__init__()
            self.page = page

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self.article: Article | None = None
        self.units = Units.METRIC
        self._lines: Sequence[Line] = ()
        self._strips: dict[int, Strip] = {}
        """Lines as they were drawn: a screen that opens is drawn several times."""
        self._styles_of: dict[str, Style] = {}
        self._laid_out: tuple[Article | None, Units, int] | None = None

    def show(self, page: Page | None, units: Units) -> None:
        """Draw that page from its beginning, or nothing."""
        self.article, self.units = (None if page is None else article(page)), units
        self.scroll_home(animate=False)
        self._lay_out()

    def on_resize(self) -> None:
        self._lay_out()
        self._draw_anew()

    def _lay_out(self) -> None:
        """Lay out at the width there is; while out of sight, at the one it comes to in the whole window."""
        width = min(WIDEST, (self.size.width or self.screen.size.width) - EDGES)
        wanted = self.article, self.units, width
        if width >= NARROWEST and wanted != self._laid_out:
            self._laid_out, self._lines = wanted, lines(*wanted)
            self.virtual_size = Size(width, len(self._lines))
            self._draw_anew()

    def _draw_anew(self) -> None:
        self._strips.clear()
        self.refresh()

    def notify_style_update(self) -> None:
        self._strips.clear()
        self._styles_of.clear()
        super().notify_style_update()

    def render_line(self, y: int) -> Strip:
        place = y + int(self.scroll_offset.y)
        if place not in self._strips:
            self._strips[place] = self._strip(place)
        return self._strips[place]

    def _strip(self, place: int) -> Strip:
        width = self.scrollable_content_region.width
        if place >= len(self._lines):
            return Strip.blank(width, self._style("text"))
        strip = Strip([Segment(" ", self._style("text")), *self._segments(self._lines[place])])
        span = self.text_selection.get_span(place) if self.text_selection is not None else None
        if span is not None:
            start, end = span[0], strip.cell_length if span[1] == -1 else span[1]
            before, chosen, after = strip.divide([start, end, strip.cell_length])
            marked = chosen.apply_style(self.screen.get_component_rich_style("screen--selection"))
            strip = Strip.join([before, marked, after])
        return strip.adjust_cell_length(width, self._style("text")).apply_offsets(0, place)

    def _segments(self, line: Line) -> list[Segment]:
        look, quiet = self._style(line.look), self._style("source")
        parts = MARKS.split(line.text)
        return [Segment(text, quiet if place % 2 else look) for place, text in enumerate(parts) if text]

    def _style(self, look: str) -> Style:
        """The style of a look, worked out once: a widget's own is put together from all its ancestors'."""
        if look not in self._styles_of:
            own = self.rich_style + BOLD if look == "summary" else self.rich_style
            named = LOOKS.get(look)
            self._styles_of[look] = self.get_component_rich_style(f"page--{named}") if named else own
        return self._styles_of[look]

    def get_selection(self, selection: Selection) -> tuple[str, str] | None:
        """What was marked with the mouse, as it is copied."""
        return selection.extract("\n".join(f" {line.text}" for line in self._lines)), "\n"

    def selection_updated(self, selection: Selection | None) -> None:
        self._draw_anew()

    def action_see(self, digit: int) -> None:
        """Open the page of that number."""
        if self.article is not None and digit <= len(self.article.see):
            self.post_message(self.See(self.article.see[digit - 1]))


def lines(one: Article | None, units: Units, width: int) -> list[Line]:
    """The page's lines, and at its end the numbered pages it points to."""
    if one is None:
        return []
    return [*lay_out(in_units(one, units), width), Line(""), *see_also(one.see, width)]


def see_also(pages: Sequence[Page], width: int) -> list[Line]:
    """`See also  1 Moisture  2 Layers`, over as many lines as it takes; no name is broken."""
    entries = [f"{number} {article(page).title}" for number, page in enumerate(pages, 1)]
    told = ["See also"] if entries else []
    for entry in entries:
        if len(told[-1]) + 3 + len(entry) > width:
            told.append(f"          {entry}")
        else:
            told[-1] += f"  {entry}" if told[-1] == "See also" else f"   {entry}"
    return [Line(line, "see") for line in told]
