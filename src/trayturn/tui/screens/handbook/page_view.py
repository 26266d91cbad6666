"""One page of the handbook to read: it scrolls, and its digits open the pages it points to."""

from __future__ import annotations

import re
from collections.abc import Sequence

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from trayturn.advice.handbook import Article, Line, article, in_units, lay_out
from trayturn.advice.pages import Page
from trayturn.domain.setup import Units

WIDEST, NARROWEST = 78, 50
"""Longer lines are hard to read, and shorter ones cannot hold a table."""
EDGES = 3
"""What is left free beside the text: a blank on either side, and where the scrollbar goes."""
MARK = re.compile(r"\[\d+(,\d+)*\]")
LOOKS = {
    "summary": "bold",
    "heading": "bold $primary",
    "text": "",
    "head": "$quiet",
    "row": "",
    "source": "$quiet",
    "see": "$wait",
}


class PageView(VerticalScroll, can_focus=True):
    """Up and down scroll, Space turns over; a digit opens what stands under it at the end."""

    BINDINGS = [
        Binding("space", "page_down", "On", show=False),
        Binding("1", "see(1)", "See also", key_display="1-9"),
        *(Binding(str(digit), f"see({digit})", str(digit), show=False) for digit in range(2, 10)),
    ]
    DEFAULT_CSS = """
    PageView {
        padding: 0 1;
        scrollbar-gutter: stable;
        scrollbar-size-vertical: 1;
        scrollbar-background: $panel;
        scrollbar-color: $quiet;
        #page { width: auto; height: auto; text-wrap: nowrap; }
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
        self._drawn: tuple[Article | None, Units, int] | None = None

    def compose(self) -> ComposeResult:
        yield Static(id="page")

    def show(self, page: Page | None, units: Units) -> None:
        """Draw that page from its beginning, or nothing."""
        self.article, self.units = (None if page is None else article(page)), units
        self.scroll_home(animate=False)
        self._draw()

    def on_resize(self) -> None:
        self._draw()

    def _draw(self) -> None:
        """Draw at the width there is; while out of sight, at the one it comes to in the whole window."""
        width = min(WIDEST, self.scrollable_content_region.width or self.screen.size.width - EDGES)
        wanted = self.article, self.units, width
        if width >= NARROWEST and wanted != self._drawn:
            self._drawn = wanted
            self.query_one("#page", Static).update(content(lines(*wanted)))

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
            told.append(f"        {'':2}{entry}")
        else:
            told[-1] += f"  {entry}" if told[-1] == "See also" else f"   {entry}"
    return [Line(line, "see") for line in told]


def content(drawn: Sequence[Line]) -> Content:
    """The lines with their looks, the marks of sources dimmed."""
    looks = (Content.styled(line.text, LOOKS[line.look]) for line in drawn)
    return Content("\n").join(look.highlight_regex(MARK, style="$quiet") for look in looks)
