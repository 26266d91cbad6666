"""The list of topics, what the signs of the chart mean, and how much of what is said has room."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap

from trayturn.advice.outlook.result import Outlook
from trayturn.advice.outlook.topics import PAST, figure_of, name_of, topics
from trayturn.domain.setup import Units
from trayturn.domain.words import clean
from trayturn.tui.widgets.chart.drawing import (
    DOT,
    KEY,
    LIMIT,
    LINE,
    MEDIAN,
    ODD,
    PLAIN,
    SIGNS,
    WIDE,
)
from trayturn.tui.widgets.chart.plot import Plot
from trayturn.tui.widgets.line_list import Row

MORE = "Enter tells more."


def topic_rows(told: Outlook, units: Units, *, wide: bool) -> list[Row]:
    """A row a topic; in a wide window with its figure below."""
    return [Row(tuple(_lines(topic, told, units, wide)), topic) for topic in topics(told)]


def _lines(topic: str, told: Outlook, units: Units, wide: bool) -> Iterator[tuple[tuple[str, str], ...]]:
    yield ((clean(name_of(topic), 40), "plain"),)
    if wide:
        yield ((f"  {figure_of(topic, told, units)}", "muted"),)


def legend(plot: Plot | None, *, plain: bool) -> str:
    """The signs that this chart has, with what they mean; without a plot those of the past forecasts."""
    signs = PLAIN if plain else SIGNS
    if plot is None:
        named = [(MEDIAN, "middle"), (WIDE, "4 in 5"), (DOT, "what came")]
    else:
        named = [one for one in KEY if one[0] != DOT or any(dot.fits for dot in plot.dots)]
        named += [(ODD, "does not fit")] if any(not dot.fits for dot in plot.dots) else []
        named += [(LINE, "as planned")] if plot.lines else []
        named += [(LIMIT, "full")] if plot.limit is not None else []
    return "   ".join(f"{signs[look]} {word}" for look, word in named)


def fitting(lines: Sequence[str], width: int, rows: int) -> list[str]:
    """As many whole sentences as have room; where not all do, that Enter tells more."""
    heights = [max(1, len(wrap(line, max(10, width)))) for line in lines]
    if sum(heights) <= rows:
        return list(lines)
    kept, free = [], rows - 1
    for line, height in zip(lines, heights, strict=True):
        if height > free:
            break
        kept.append(line)
        free -= height
    return [*kept, MORE]


def is_past(topic: str) -> bool:
    """Whether it is drawn as bars beside each other instead of a chart."""
    return topic == PAST
