"""The list of topics, and what the signs of a drawing mean."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.outlook.result import Outlook
from trayturn.advice.outlook.topics import HARVESTS, PAST, figure_of, name_of, topics
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


def topic_rows(told: Outlook, units: Units, *, wide: bool) -> list[Row]:
    """A row a topic; in a wide window with its figure below."""
    return [Row(tuple(_lines(topic, told, units, wide)), topic) for topic in topics(told)]


def _lines(topic: str, told: Outlook, units: Units, wide: bool) -> Iterator[tuple[tuple[str, str], ...]]:
    yield ((clean(name_of(topic), 40), "plain"),)
    if wide:
        yield ((f"  {figure_of(topic, told, units)}", "muted"),)


def legend(topic: str, plot: Plot | None, *, compared: bool, plain: bool) -> str:
    """The signs that are drawn, with what they mean; without a plot those of bands beside each other."""
    if topic == PAST:
        named = [(MEDIAN, "middle"), (WIDE, "4 in 5"), (DOT, "what came")]
    elif plot is None:
        named = [*KEY[:3], *([(DOT, "as planned")] if compared else [])]
    else:
        named = list(_signs(plot))
    signs = PLAIN if plain else SIGNS
    return "  ".join(f"{signs[look]} {word}" for look, word in named)


def _signs(plot: Plot) -> Iterator[tuple[str, str]]:
    yield from (one for one in KEY if one[0] != DOT or any(dot.fits for dot in plot.dots))
    if any(not dot.fits for dot in plot.dots):
        yield ODD, "does not fit"
    if plot.lines:
        yield LINE, "as planned"
    if plot.limit is not None:
        yield LIMIT, "full"


def as_bands(topic: str) -> bool:
    """Whether it is drawn as bands beside each other instead of a chart."""
    return topic in (HARVESTS, PAST)
