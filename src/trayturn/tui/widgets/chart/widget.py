"""A band chart as one widget."""

from __future__ import annotations

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip
from textual.widget import Widget

from trayturn.tui.widgets.chart.drawing import GROUND, LOOKS, Cell, draw, runs
from trayturn.tui.widgets.chart.plot import Plot

PREFIX = "band-chart--"


class BandChart(Widget):
    """A `Plot`, drawn to the size there is. Component classes: `band-chart--NAME` for each of `LOOKS`."""

    COMPONENT_CLASSES = {PREFIX + look for look in LOOKS}
    DEFAULT_CSS = """
    BandChart {
        height: 1fr;
        width: 1fr;
        .band-chart--wide { color: $secondary 70%; }
        .band-chart--middle { color: $secondary; }
        .band-chart--median { color: $foreground; text-style: bold; }
        .band-chart--line { color: $primary; text-style: bold; }
        .band-chart--mark { color: $act; }
        .band-chart--limit { color: $error; }
        .band-chart--dot { color: $act; text-style: bold; }
        .band-chart--odd { color: $error; text-style: bold; }
        .band-chart--axis { color: $quiet; }
    }
    """

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self.plot: Plot | None = None
        self._drawn: tuple[object, list[list[Cell]]] | None = None
        self._looks: dict[str, Style] = {}

    def show(self, plot: Plot | None) -> None:
        """Draw that; nothing where there is nothing."""
        if plot != self.plot:
            self.plot, self._drawn = plot, None
            self.refresh()

    def render_line(self, y: int) -> Strip:
        rows = self._rows()
        width = self.content_size.width
        if y >= len(rows):
            return Strip.blank(width, self._look(GROUND))
        return Strip([Segment(text, self._look(look)) for text, look in runs(rows[y])], width)

    def _rows(self) -> list[list[Cell]]:
        """All rows, drawn once for a size."""
        if self.plot is None:
            return []
        plain = bool(getattr(self.app, "ascii", False))
        key = (self.content_size, plain)
        if self._drawn is None or self._drawn[0] != key:
            self._drawn = key, draw(self.plot, *self.content_size, plain=plain)
        return self._drawn[1]

    def notify_style_update(self) -> None:
        super().notify_style_update()
        self._looks.clear()

    def _look(self, look: str) -> Style:
        if look not in self._looks:
            ground = self.rich_style
            own = self.get_component_rich_style(PREFIX + look) if look != GROUND else Style()
            self._looks[look] = own + Style(bgcolor=ground.bgcolor)
        return self._looks[look]
