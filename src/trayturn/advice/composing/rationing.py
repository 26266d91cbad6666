"""Too much at once: what goes in now and in which order, and what waits for when."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from trayturn.advice.composing.draft import EATEN, Draft, Line
from trayturn.advice.composing.ground import Ground
from trayturn.advice.composing.load import load_of, takes_of
from trayturn.advice.composing.steps import CLOSE, rounded_down
from trayturn.advice.composing.telling import SPEED
from trayturn.science.materials import SPEEDS

LEAKS = 0.9
"""From this moisture on scraps are said to leak. Our choice."""
LIMITED = 0.2
"""At most this share of a meal is of what is to be limited. Our choice."""
KEEPING = "Keeps longest in the freezer, or chopped and cold with the lid on. Common practice, no source."
MOST_FEEDINGS = 24
"""Further ahead than this nothing is planned: it spoils before."""


@dataclass(frozen=True, slots=True)
class Now:
    """What goes in now, kg, and why."""

    name: str
    kg: float
    why: str


@dataclass(frozen=True, slots=True)
class Later:
    """What waits, kg. `day` is None for what is best not fed at all, or not for a long time."""

    name: str
    kg: float
    day: datetime | None
    why: str


@dataclass(frozen=True, slots=True)
class Rationed:
    """The draft with what goes in now; the same in its order, what spoils first first; and all that waits."""

    draft: Draft
    now: tuple[Now, ...]
    later: tuple[Later, ...]


def ration_out(draft: Draft, ground: Ground, room_kg: float | None = None) -> Rationed:
    """Split what there is to eat into now and later; nothing is lost.

    There is all of every line: what goes in, and what waits. First goes what spoils and leaks soonest; what
    is to be limited takes a small share; what is to be avoided stays out. `room_kg` is what the worms take
    beside what is uneaten.
    """
    load = load_of(draft, ground)
    room = load.room_kg if room_kg is None else max(0.0, room_kg)
    food = [line for line in draft.of(*EATEN) if _whole(line) > 0 and not ground.mineral(line)]
    ranked = sorted(food, key=lambda line: _soonest(line, ground))
    now = _fill(ranked, room, ground)
    left = [(line, _whole(line) - now[line.key]) for line in ranked]
    lines = tuple(replace(line, kg=now[line.key], held_kg=_whole(line)) for line in ranked)
    others = tuple(line for line in draft.lines if line not in food)
    going = [Now(line.name, now[line.key], _reason(line, ground)) for line in ranked]
    whole = replace(draft, lines=(*lines, *others))
    return Rationed(whole, tuple(one for one in going if one.kg > CLOSE), _later(left, ground))


def _whole(line: Line) -> float:
    """All there is of a line: what goes in and what waits."""
    return max(line.kg, line.held_kg)


def _guidance(line: Line, ground: Ground) -> str:
    row = ground.pantry.meant(line.name)
    return row.guidance if row is not None else "ok"


def _soonest(line: Line, ground: Ground) -> tuple[int, int, float]:
    """What to sort by: allowed first, then quick to rot, then wet."""
    row = ground.row(line)
    speed = SPEEDS.index(row.breakdown) if row is not None and row.breakdown in SPEEDS else len(SPEEDS)
    wet = row.moisture if row is not None and row.moisture is not None else 0.0
    return ("ok", "limit", "avoid").index(_guidance(line, ground)), speed, -wet


def _fill(ranked: list[Line], room: float, ground: Ground) -> dict[str, float]:
    """How much of each goes in now."""
    limited, now = LIMITED * room, dict[str, float]()
    for line in ranked:
        guidance = _guidance(line, ground)
        most = {"ok": room, "limit": min(room, limited), "avoid": 0.0}[guidance]
        whole = _whole(line)
        kg = now[line.key] = whole if whole <= most else rounded_down(most, ground.units)
        room -= kg
        limited -= kg if guidance == "limit" else 0.0
    return now


def _reason(line: Line, ground: Ground) -> str:
    """Why it is fed now."""
    row = ground.row(line)
    if _guidance(line, ground) == "limit":
        return "a little, since it is to be limited"
    speed = SPEED.get(row.breakdown, "keeps") if row is not None else "keeps"
    wet = " and leaks" if row is not None and (row.moisture or 0) >= LEAKS else ""
    return f"{speed}{wet}"


def _later(left: list[tuple[Line, float]], ground: Ground) -> tuple[Later, ...]:
    """What waits, with the feeding it is for: each takes what the worms then take."""
    each = takes_of(ground).mid
    found, planned = [], 0.0
    for line, kg in left:
        if kg <= CLOSE:
            continue
        if _guidance(line, ground) == "avoid":
            row = ground.pantry.meant(line.name)
            reason = row.reason if row is not None and row.reason else "it is best left out"
            found.append(Later(line.name, kg, None, f"Leave it out: {reason}."))
            continue
        planned += kg
        feeding = int((planned - CLOSE) / each) + 1 if each > 0 else MOST_FEEDINGS + 1
        day = ground.stack.as_of + timedelta(days=ground.days * feeding)
        found.append(Later(line.name, kg, day if feeding <= MOST_FEEDINGS else None, KEEPING))
    return tuple(found)
