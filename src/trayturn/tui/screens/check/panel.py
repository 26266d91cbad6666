"""What stands beside the list: the marked reading against its range and its history, and what to do."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from textwrap import wrap

from trayturn.advice.checking.history import Point
from trayturn.advice.checking.kinds import LABELS, OF_THE_BIN, Kind
from trayturn.advice.checking.moisture import SQUEEZE, SQUEEZE_SURE
from trayturn.advice.checking.ranges import Range, range_of
from trayturn.advice.checking.verdict import Level, Verdict
from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass, show_temperature, show_volume, three_figures
from trayturn.domain.words import count, day
from trayturn.tui.screens.check.rows import LOOKS, Look, fault_of, series
from trayturn.tui.widgets.line_list import Span
from trayturn.tui.widgets.scale import Scale, scale_lines
from trayturn.tui.widgets.spark import ends, spark

Lines = list[tuple[Span, ...]]
WORDS = {
    Kind.STRAYS: ("none", "few", "many"),
    Kind.WORMS: ("none", "few", "many"),
    Kind.SMELL: ("earthy", "other", "bad"),
}
"""What a chart's foot, middle and top stand for where the readings are words."""


def panel(kind: Kind, look: Look, saved: Sequence[str] = ()) -> Lines:
    """The marked reading in full, after what was just saved.

    What matters most stands first: in a small window the rest may be cut.
    """
    parts: list[Lines] = [_prose(saved, look.width, "wait"), _title(kind, look)]
    if (fault := fault_of(kind, look)) is not None:
        parts.append(_prose([fault], look.width, "error"))
    verdict = look.verdicts.get(kind)
    squeeze = _squeeze(look.width) if kind is Kind.MOISTURE else []
    judged = _verdict(verdict, look) if verdict is not None else []
    pictures = [_scale(kind, look), _chart(kind, look, verdict)]
    parts += [judged, *pictures, squeeze] if _read_today(kind, look) else [squeeze, *pictures, judged]
    if look.wide:
        parts.append(_prose(_sources(kind, look, verdict), look.width, "muted"))
    return _joined(parts)


def _read_today(kind: Kind, look: Look) -> bool:
    """Whether there is a fresh verdict to be seen first; before that, how the reading is taken."""
    points, now = look.scene.points(kind), look.scene.stack.as_of
    return kind is not Kind.MOISTURE or bool(points and day(points[-1].at, now) == "today")


def _squeeze(width: int) -> Lines:
    return [*_prose(SQUEEZE, width, "plain"), *_prose([SQUEEZE_SURE], width, "muted")]


def _joined(parts: Iterable[Lines]) -> Lines:
    lines: Lines = []
    for part in filter(None, parts):
        lines += [*([((("", "plain"),))] if lines else []), *part]
    return lines


def _title(kind: Kind, look: Look) -> Lines:
    tray = look.scene.tray
    whose = "the bin" if tray is None or kind in OF_THE_BIN else f"tray {tray.id}"
    return [((f"{LABELS[kind]}", "strong"), (f"  {whose}", "muted"))]


def _prose(texts: Sequence[str], width: int, style: str) -> Lines:
    return [((line, style),) for text in texts for line in wrap(text, width) or [""]]


def _verdict(verdict: Verdict, look: Look) -> Lines:
    when = day(verdict.at, look.scene.stack.as_of)
    of = "" if verdict.kind in look.scene.now else f" (read {when})"
    lines = _prose([f"{verdict.what}{of}"], look.width, LOOKS[verdict.level])
    style = "act" if verdict.level is Level.ACT else "plain"
    for text in verdict.do:
        head, *rest = wrap(text, look.width - 2)
        lines.append((("> ", style), (head, "plain")))
        lines += [((f"  {line}", "plain"),) for line in rest]
    return lines


def _scale(kind: Kind, look: Look) -> Lines:
    """The range drawn; nothing for readings that are no numbers."""
    known = range_of(kind, look.scene.stack.setup)
    if known is None:
        return []
    scene, past = look.scene, look.scene.past(kind)
    now = _now(kind, look)
    before = past[-1] if past else None
    units = scene.units
    return scale_lines(
        Scale(known.shown, known.limits, known.best),
        (now.number, f"now {_figure(kind, now.number, units)}") if now is not None else None,
        (before.number, f"last {_figure(kind, before.number, units)}") if before is not None else None,
        [(number, _figure(kind, number, units, bare=True)) for number in _marks(known)],
        look.width,
        look.plain,
    )


def _now(kind: Kind, look: Look) -> Point | None:
    """The reading being taken, where it is believed."""
    points = look.scene.points(kind)
    return points[-1] if kind in look.scene.now else None


def _marks(known: Range) -> list[float]:
    return sorted({*known.limits, *known.best})


def _figure(kind: Kind, number: float, units: Units, *, bare: bool = False) -> str:
    if kind is Kind.TEMPERATURE:
        text = show_temperature(number, units)
        return text.split()[0] if bare else text
    if kind is Kind.SUMP:
        return show_volume(number, units) if number else "0"
    if kind is Kind.WEIGHT:
        return show_mass(number, units)
    if kind is Kind.MOISTURE:
        return f"{number:.0f}" if bare else f"{number:.0f} %"
    return three_figures(number)


def _chart(kind: Kind, look: Look, verdict: Verdict | None) -> Lines:
    """The readings in time with their dates, and whether they rise or fall."""
    points = look.scene.points(kind)
    if not points:
        return [(("No reading yet: its history will stand here.", "muted"),)]
    lines: Lines = []
    if len(points) > 1:
        lines = _drawn(points, look)
    if verdict is not None and verdict.trend is not None:
        lines += _prose([verdict.trend.words(look.scene.units)], look.width, "wait")
    elif len(points) == 1:
        lines += _prose(["One reading so far: two make a history."], look.width, "muted")
    return lines


def _drawn(points: tuple[Point, ...], look: Look) -> Lines:
    times, numbers, least = series(points)
    height, now = (6 if look.wide else 2), look.scene.stack.as_of
    axis = _axis(points, look)
    gutter = max(map(len, axis)) + 1
    chart = spark(times, numbers, look.width - gutter - 1, height, least, look.plain)
    side = [axis[0], *[""] * (height - 2), axis[1]]
    bar = "|" if look.plain else "│"
    lines: Lines = [
        ((f"{label:>{gutter - 1}}{bar}", "muted"), (line, "wait"))
        for label, line in zip(side, chart, strict=True)
    ]
    first, last = day(points[0].at, now), day(points[-1].at, now)
    by_feel = sum(point.by_feel for point in points)
    told = f"{first}{last:>{max(1, look.width - gutter - len(first))}}"
    lines.append(((" " * gutter + told, "muted"),))
    if by_feel > 0:
        lines += _prose(
            [f"{count(by_feel, 'reading')} of {len(points)} by the squeeze."], look.width, "muted"
        )
    return lines


def _axis(points: tuple[Point, ...], look: Look) -> tuple[str, str]:
    """What the top and the foot of the chart stand for."""
    kind, units = points[-1].kind, look.scene.units
    _, numbers, least = series(points)
    foot, top = ends(numbers, least)
    if kind in WORDS:
        words = WORDS[kind]
        return words[min(2, math.ceil(top))], words[max(0, math.floor(foot))]
    if kind is Kind.PESTS:
        return count(math.ceil(top), "kind"), str(max(0, math.floor(foot)))
    return _figure(kind, top, units), _figure(kind, max(0.0, foot), units)


def _sources(kind: Kind, look: Look, verdict: Verdict | None) -> Sequence[str]:
    if verdict is not None and verdict.why:
        return verdict.why
    known = range_of(kind, look.scene.stack.setup)
    return known.lines if known is not None else ()
