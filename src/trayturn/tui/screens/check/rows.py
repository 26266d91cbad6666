"""The list of readings: each with its value or the last one, how it stands, and its own history in small."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from textwrap import wrap

from trayturn.advice.checking.history import Point
from trayturn.advice.checking.kinds import LABELS, Kind, said
from trayturn.advice.checking.plausible import Doubt
from trayturn.advice.checking.scene import Scene
from trayturn.advice.checking.trend import MAY_BE_OFF
from trayturn.advice.checking.verdict import Level, Verdict
from trayturn.domain.words import due
from trayturn.tui.screens.check.draft import Draft
from trayturn.tui.widgets.line_list import Row, Span
from trayturn.tui.widgets.spark import spark

TYPED = "typed"
"""The key of the last row, which leads to the form for other days."""
LABEL, SPARK = 13, 12
LOOKS = {Level.NOTED: "plain", Level.FINE: "fine", Level.WATCH: "plain", Level.ACT: "act"}
MARKS = {Level.NOTED: " ", Level.FINE: " ", Level.WATCH: "~", Level.ACT: "!"}
TYPED_ROW = "Another day, or a note: the typed form"


@dataclass(frozen=True, slots=True)
class Look:
    """What the rows are drawn of, and how: `width` in columns, all `lines` of a row open where it is wide."""

    scene: Scene
    draft: Draft
    verdicts: Mapping[Kind, Verdict]
    doubts: Mapping[Kind, Doubt]
    width: int
    wide: bool
    plain: bool


def rows(look: Look) -> list[Row]:
    """One row a kind, two lines each or four in a wide window, and the way to the typed form."""
    return [*(_row(kind, look) for kind in Kind), Row((((TYPED_ROW, "muted"),),), TYPED)]


def _row(kind: Kind, look: Look) -> Row:
    fault = fault_of(kind, look)
    told = _judged(kind, look) if fault is None else _wrapped(fault, look, "error")
    height = 4 if look.wide else 2
    return Row((_first(kind, look), *told, *((("", "plain"),),) * height)[:height], kind)


def _first(kind: Kind, look: Look) -> tuple[Span, ...]:
    """The label and the value; in a wide window the history in small at the end of the line."""
    label = (f"{LABELS[kind]:<{LABEL}}", "strong" if kind in look.draft.values else "muted")
    value, style = _value(kind, look)
    if not look.wide:
        return label, (value, style)
    room = look.width - LABEL - SPARK - 1
    shown = value if len(value) <= room else f"{value[: room - 4]} ..."
    return label, (f"{shown:<{room}}", style), (mini(look.scene.points(kind), look.plain), "wait")


def fault_of(kind: Kind, look: Look) -> str | None:
    """What is wrong with the reading, with its mark: x where it is refused, ? where it is asked about."""
    if kind in look.draft.faults:
        return f"x {look.draft.faults[kind]}"
    one = look.doubts.get(kind)
    return None if one is None else f"{'x' if one.impossible else '?'} {one.what}"


def _value(kind: Kind, look: Look) -> Span:
    draft, scene = look.draft, look.scene
    if kind in draft.values:
        return said(kind, draft.values[kind], scene.units), "strong"
    if kind in draft.texts:
        return draft.texts[kind], "error"
    past = scene.past(kind)
    if not past:
        return "not read yet", "muted"
    last = past[-1]
    return f"{said(kind, last.value, scene.units)}, {due(last.at, scene.stack.as_of)}", "muted"


def _judged(kind: Kind, look: Look) -> list[tuple[Span, ...]]:
    verdict = look.verdicts.get(kind)
    if verdict is None:
        return []
    mark = (f"{MARKS[verdict.level]} ", "act" if verdict.level is Level.ACT else "plain")
    if not look.wide:
        small = (f"  {mini(look.scene.points(kind), look.plain)}", "wait")
        return [(mark, (f"{verdict.word:<20}", LOOKS[verdict.level]), small)]
    what = wrap(verdict.what, look.width - 4)
    do = wrap(" ".join(verdict.do), look.width - 4)
    lines = [*((line, LOOKS[verdict.level]) for line in what), *((line, "plain") for line in do)]
    if len(lines) > 3:
        cut = wrap(lines[2][0], look.width - 8)[0]
        lines[2] = (f"{cut} ...", lines[2][1])
    marks = (mark, *((("  ", "plain"),) * 2))
    return [(before, line) for before, line in zip(marks, lines, strict=False)]


def _wrapped(text: str, look: Look, style: str) -> list[tuple[Span, ...]]:
    """In a wide window the whole of it; otherwise its beginning, and the whole of it stands beside."""
    if not look.wide:
        return [((text, style),)]
    return [((line, style),) for line in wrap(text, look.width - 2, subsequent_indent="  ")[:3]]


def mini(points: tuple[Point, ...], plain: bool) -> str:
    """The history in one line; nothing for fewer than two readings."""
    if len(points) < 2:
        return ""
    times, numbers, least = series(points)
    return spark(times, numbers, SPARK, 1, least, plain)[0]


def series(points: tuple[Point, ...]) -> tuple[list[float], list[float], float]:
    """The readings as a chart takes them, and the least span that it is drawn over."""
    kind = points[-1].kind
    least = 4 * MAY_BE_OFF.get(kind, 0.5)
    return [point.at.timestamp() for point in points], [point.number for point in points], least
