"""A year of weeks drawn at a glance: a column a week, a row for each thing that was done."""

from __future__ import annotations

from collections.abc import Sequence

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.message import Message
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from trayturn.advice.past import Week
from trayturn.advice.past.words import LEVELS, ROWS, levels, months

SHADES = "·░▒▓█"
ASCII_SHADES = "-.:+#"
"""From none to the most of a row. Each shade is a sign of its own, so that it is read without colour."""
LABEL = 10
"""Columns for the word before each row."""


class YearStrip(Widget):
    """One column a week, the last one the present week; `marked` is the place of the marked one.

    Component classes: `year-strip--label`, `year-strip--month`, `year-strip--none` for a week without,
    `year-strip--1` to `year-strip--4` for the shades, and `year-strip--marked` for the marked week.
    """

    COMPONENT_CLASSES = {
        "year-strip--label",
        "year-strip--month",
        "year-strip--none",
        "year-strip--marked",
        *(f"year-strip--{level}" for level in range(1, LEVELS + 1)),
    }
    DEFAULT_CSS = """
    YearStrip {
        height: 7;
        width: 64;
        .year-strip--label { color: $quiet; }
        .year-strip--month { color: $quiet; text-style: bold; }
        .year-strip--none { color: $quiet; text-style: dim; }
        .year-strip--1 { color: $primary; }
        .year-strip--2 { color: $primary; }
        .year-strip--3 { color: $primary; }
        .year-strip--4 { color: $primary; text-style: bold; }
        .year-strip--marked { background: $marked; color: $act; text-style: bold; }
    }
    """

    marked: reactive[int] = reactive(0)

    class Marked(Message):
        """A click marked another week."""

        def __init__(self, place: int) -> None:
            super().__init__()
            self.place = place

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self.weeks: tuple[Week, ...] = ()
        self._months = ""
        self._levels: list[list[int]] = []
        self._looks: dict[tuple[str, bool], Style] = {}

    def show(self, weeks: Sequence[Week], marked: int) -> None:
        """Draw these weeks."""
        self.weeks = tuple(weeks)
        self._months = months(weeks)
        self._levels = [levels([of(week.sums) for week in weeks]) for _, of in ROWS]
        self.marked = marked
        self.refresh()

    def on_click(self, event: events.Click) -> None:
        place = event.x - LABEL
        if 0 <= place < len(self.weeks):
            self.post_message(self.Marked(place))

    def render_line(self, y: int) -> Strip:
        """One row of the year: the bins, or the months above them."""
        if not self.weeks:
            return Strip.blank(self.size.width, self._look())
        rows = len(ROWS)
        if y == 0:
            segments = self._month_line()
        elif y <= rows:
            segments = self._row(y - 1)
        elif y == rows + 1:
            segments = self._mark_line()
        else:
            segments = []
        return Strip(segments).adjust_cell_length(self.size.width, self._look())

    def notify_style_update(self) -> None:
        super().notify_style_update()
        self._looks.clear()

    def _look(self, name: str = "", *, marked: bool = False) -> Style:
        """A look, on the ground of the marked week where it is that one. Kept: to look it up takes time."""
        kept = self._looks.get((name, marked))
        if kept is None:
            under = self.get_component_rich_style("year-strip--marked") if marked else self.rich_style
            look = self.get_component_rich_style(f"year-strip--{name}") if name else Style()
            kept = self._looks[name, marked] = look + Style(bgcolor=under.bgcolor)
        return kept

    @property
    def _ascii(self) -> bool:
        return bool(getattr(self.app, "ascii", False))

    def _month_line(self) -> list[Segment]:
        return [Segment(" " * LABEL, self._look()), Segment(self._months, self._look("month"))]

    def _row(self, row: int) -> list[Segment]:
        shades = ASCII_SHADES if self._ascii else SHADES
        segments = [Segment(f"{ROWS[row][0]:<{LABEL}}", self._look("label"))]
        for place, (week, level) in enumerate(zip(self.weeks, self._levels[row], strict=True)):
            sign = shades[level] if week.lived else " "
            look = self._look(str(level) if level else "none", marked=place == self.marked)
            segments.append(Segment(sign, look))
        return segments

    def _mark_line(self) -> list[Segment]:
        sign = "^" if self._ascii else "▲"
        return [Segment(" " * (LABEL + self.marked), self._look()), Segment(sign, self._look("marked"))]
