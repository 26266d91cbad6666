"""A timeline in cells: a row a tray, a column a few minutes, letters for work and dots for rest."""

from __future__ import annotations

from trayturn.advice.side_by_side import SideBySide
from trayturn.domain.words import clock

LETTERS = {"loosen": "L", "skim": "S", "decide": "D", "settle": "T", "clean up": "C", "get ready": "G"}
KEY = "L loosen  S skim  D decide  T tidy up  C clean up  G get ready"
REST, NOTHING = "·", " "
PLAIN_REST = "."
LABEL, LEAST = 4, 12
Span = tuple[str, str]


def rows(plan: SideBySide, width: int, plain: bool = False) -> list[list[Span]]:
    """The rows: one a tray, then the clock below them, then what the letters mean."""
    several = len({key for key, _, _ in plan.trays}) > 1
    names = {(key, tray): _label(name, tray, several) for key, name, tray in plan.trays}
    left = max((len(name) for name in names.values()), default=0) + 1
    room = width - left
    if room < LEAST or not plan.slots:
        return []
    minutes = max(1.0, (plan.done[1] - plan.now).total_seconds() / 60)
    drawn = [
        [(f"{names[key, tray]:<{left}}", "label"), *_row(plan, key, tray, room, minutes, plain)]
        for key, _, tray in plan.trays
    ]
    ends = clock(plan.done[1], plan.now)
    begins = clock(plan.now, plan.now)
    middle = " " * max(1, room - len(begins) - len(ends))
    return [
        *drawn,
        [(" " * left, "label"), (f"{begins}{middle}{ends}"[:room], "label")],
        [(_key(plan, plain)[:width], "label")],
    ]


def _key(plan: SideBySide, plain: bool) -> str:
    """What the signs in sight mean."""
    used = {LETTERS[slot.what] for slot in plan.slots}
    told = (part for part in KEY.split("  ") if part[0] in used)
    return "  ".join((f"{PLAIN_REST if plain else REST} rest", *told))


def _label(name: str, tray: str, several: bool) -> str:
    return f"{name[:10]} {tray}" if several else f"Tray {tray}"


def _row(plan: SideBySide, key: str, tray: str, room: int, minutes: float, plain: bool) -> list[Span]:
    """One tray: every column shows what most of its minutes are."""
    cells, free = [(NOTHING, "none")] * room, 0
    for slot in plan.of(key, tray):
        start, end, until = (
            (moment - plan.now).total_seconds() / 60 / minutes * room
            for moment in (slot.start, slot.end, slot.rest_until)
        )
        for x in range(round(end), min(room, round(until))):
            cells[x] = (PLAIN_REST if plain else REST, "rest")
        # Work is never too short to be seen, nor hidden by what comes right after it.
        first = min(room - 1, max(free, round(start)))
        free = min(room, max(round(end), first + 1))
        cells[first:free] = [(LETTERS[slot.what], "work")] * (free - first)
    return _joined(cells)


def _joined(cells: list[Span]) -> list[Span]:
    """Cells of one look as one span."""
    spans: list[Span] = []
    for sign, look in cells:
        if spans and spans[-1][1] == look:
            spans[-1] = (spans[-1][0] + sign, look)
        else:
            spans.append((sign, look))
    return spans
