"""The yield of one turn after another as bars, with the keeper's own mean across them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip
from textual.widget import Widget

from trayturn.advice.ledger.sums import ratio

ROWS, STEPS = 5, 8
"""Lines that the highest bar fills, and parts that a line has."""
PARTS = " ▁▂▃▄▅▆▇█"
AXIS, SLOT, WORDS = 6, 5, 12
"""Columns for the foot of the scale, for a bar with its gap, and for the words of the mean at the right."""
UNKNOWN = "?"


@dataclass(frozen=True, slots=True)
class Bar:
    """One turn: its tray and its yield; None where that is not known."""

    label: str
    value: float | None


class YieldBars(Widget):
    """Bars from left to right, the newest last; of many the last ones that have room.

    Component classes: `yield-bars--bar`, `yield-bars--marked` for the marked turn, `yield-bars--mean` for the
    mean, and `yield-bars--label` for words and scale.
    """

    COMPONENT_CLASSES = {f"yield-bars--{name}" for name in ("bar", "marked", "mean", "label")}
    DEFAULT_CSS = """
    YieldBars {
        height: 7;
        .yield-bars--bar { color: $primary; }
        .yield-bars--marked { color: $act; text-style: bold; }
        .yield-bars--mean { color: $quiet; }
        .yield-bars--label { color: $quiet; }
    }
    """

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self.bars: tuple[Bar, ...] = ()
        self.marked: int | None = None
        self.mean: float | None = None
        self.caption = ""

    def show(self, bars: Sequence[Bar], marked: int | None, mean: float | None, caption: str) -> None:
        """Draw these bars, the one at the place `marked` standing out."""
        self.bars, self.marked, self.mean, self.caption = tuple(bars), marked, mean, caption
        self.refresh()

    @property
    def _ascii(self) -> bool:
        return bool(getattr(self.app, "ascii", False))

    def render_line(self, y: int) -> Strip:
        ground = Style(bgcolor=self.rich_style.bgcolor)
        segments = [Segment(text, self._look(look) + ground) for text, look in self._spans(y)]
        return Strip(segments).adjust_cell_length(self.size.width, self.rich_style)

    def _look(self, name: str) -> Style:
        return self.get_component_rich_style(f"yield-bars--{name}")

    def _spans(self, y: int) -> list[tuple[str, str]]:
        if not self.bars or y > ROWS + 1:
            return []
        if y == 0:
            return [(f"{self.caption}, the highest {ratio(self._top)}", "label")]
        if y == ROWS + 1:
            return [(" " * AXIS, "label"), *((self._label(place), self._of(place)) for place in self._shown)]
        return self._row(ROWS - y)

    @property
    def _shown(self) -> range:
        """The places of the bars that have room, so that the marked one is among them."""
        room = max(1, (self.size.width - AXIS - WORDS) // SLOT)
        end = len(self.bars)
        if self.marked is not None and self.marked < end - room:
            end = self.marked + room
        return range(max(0, end - room), end)

    @property
    def _top(self) -> float:
        """What the highest line stands for."""
        return max((bar.value for bar in self.bars if bar.value is not None), default=0.0) or 1.0

    def _of(self, place: int) -> str:
        return "marked" if place == self.marked else "bar"

    def _label(self, place: int) -> str:
        mark = ">" if place == self.marked else " "
        return f"{mark}{self.bars[place].label[: SLOT - 2]:<{SLOT - 1}}"

    def _row(self, level: int) -> list[tuple[str, str]]:
        """One line of the bars; levels are counted from the foot."""
        spans = [(f"{'' if level else '0':>{AXIS - 1}} ", "label")]
        rest = self._mean_sign(level)
        at_mean = bool(rest)
        for place in self._shown:
            cell, look = self._cell(place, level), self._of(place)
            free = cell == " " and at_mean
            spans.append(((rest if at_mean else " "), "mean"))
            spans.append(((rest if free else cell) * (SLOT - 2), "mean" if free else look))
            spans.append(((rest if at_mean else " "), "mean"))
        if at_mean:
            spans.append((f" mean {ratio(self.mean)}", "mean"))
        return spans

    def _mean_sign(self, level: int) -> str:
        """The sign of the mean in the line where it lies, low, half way up or high in it; else empty."""
        height = self.mean / self._top * ROWS if self.mean is not None else -1.0
        if height < 0 or level != min(ROWS - 1, int(height)):
            return ""
        return "-" if self._ascii else "▁─▔"[min(2, int(3 * (height - level)))]

    def _cell(self, place: int, level: int) -> str:
        """How far a bar fills a line, as a sign; a question mark at the foot of what is not known."""
        value = self.bars[place].value
        if value is None:
            return UNKNOWN if level == 0 else " "
        filled = round(value / self._top * ROWS * STEPS) - level * STEPS
        if self._ascii:
            return "#" if filled >= STEPS / 2 else " "
        return PARTS[max(0, min(STEPS, filled))]
