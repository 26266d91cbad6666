"""The timeline as one widget."""

from __future__ import annotations

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip
from textual.widget import Widget

from trayturn.advice.side_by_side import SideBySide
from trayturn.tui.widgets.timeline.drawing import Span, rows

LOOKS = ("label", "work", "rest")
MOST_TRAYS = 6


class Timeline(Widget):
    """The order of work. Component classes: `timeline--label`, `timeline--work`, `timeline--rest`."""

    COMPONENT_CLASSES = {f"timeline--{look}" for look in LOOKS}
    DEFAULT_CSS = """
    Timeline {
        height: auto;
        width: 1fr;
        .timeline--label { color: $quiet; }
        .timeline--work { color: $act; text-style: bold reverse; }
        .timeline--rest { color: $wait; }
    }
    """

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self.plan: SideBySide | None = None
        self._drawn: tuple[object, list[list[Span]]] | None = None
        self._looks: dict[str, Style] = {}

    def show(self, plan: SideBySide | None) -> None:
        """Draw that order of work; nothing where there is none."""
        if plan == self.plan:
            return
        height = self._height(self.plan)
        self.plan, self._drawn = plan, None
        self.refresh(layout=height != self._height(plan))

    def _height(self, plan: SideBySide | None) -> int:
        return min(MOST_TRAYS, len(plan.trays)) + 2 if plan is not None and plan.slots else 0

    def get_content_height(self, container: object, viewport: object, width: int) -> int:
        return self._height(self.plan)

    def render_line(self, y: int) -> Strip:
        drawn = self._rows()
        width = self.content_size.width
        spans = drawn[y] if y < len(drawn) else []
        return Strip([Segment(text, self._look(look)) for text, look in spans]).adjust_cell_length(
            width, self._look("")
        )

    def _rows(self) -> list[list[Span]]:
        if self.plan is None:
            return []
        plain = bool(getattr(self.app, "ascii", False))
        key = (self.content_size.width, plain)
        if self._drawn is None or self._drawn[0] != key:
            self._drawn = key, rows(self.plan, self.content_size.width, plain)
        return self._drawn[1]

    def notify_style_update(self) -> None:
        super().notify_style_update()
        self._looks.clear()

    def _look(self, look: str) -> Style:
        if look not in self._looks:
            ground = Style(bgcolor=self.rich_style.bgcolor)
            own = self.get_component_rich_style(f"timeline--{look}") if look in LOOKS else Style()
            self._looks[look] = own + ground
        return self._looks[look]
