"""The meal as it is put together: lines of what goes in, in the order in which it is fed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum

from trayturn.advice.composing import steps
from trayturn.domain.setup import Units


class Part(StrEnum):
    """What a line is in the meal, in feeding order."""

    BEDDING = "bedding"
    SCRAPS = "scraps"
    AMENDMENTS = "amendments"
    GRIT = "grit"
    WATER = "water"
    COVER = "cover"


TURN = {
    Part.BEDDING: 1,
    Part.SCRAPS: 2,
    Part.AMENDMENTS: 3,
    Part.GRIT: 3,
    Part.WATER: 3,
    Part.COVER: 4,
}
"""Feeding order: bedding, scraps, amendments, cover. Common practice, no source."""
EATEN = (Part.SCRAPS, Part.AMENDMENTS)
SHREDS = (Part.BEDDING, Part.COVER)
ALONE = (Part.GRIT, Part.WATER)
"""Parts of which there is one line, named like the part."""


@dataclass(frozen=True, slots=True)
class Line:
    """One thing of the meal, kg fresh. `measure` is what it was measured by, such as `handful`.

    `held_kg` is all there is of it in the caddy: what of that does not go in waits. `last_kg` is what one
    press of + puts in when there is none yet.
    """

    part: Part
    name: str
    kg: float = 0.0
    measure: str = ""
    held_kg: float = 0.0
    last_kg: float | None = None

    @property
    def key(self) -> str:
        return f"{self.part}:{self.name}"

    @property
    def waits_kg(self) -> float:
        """What of it stays in the caddy."""
        return max(0.0, self.held_kg - self.kg)


@dataclass(frozen=True, slots=True)
class Draft:
    """A meal for one tray. `follows` says that bedding, grit, water and cover keep to the proposal."""

    tray: str
    lines: tuple[Line, ...] = ()
    note: str = ""
    follows: bool = field(default=False)

    def __iter__(self) -> Iterator[Line]:
        """The lines in feeding order; within a part in the order they were added."""
        order = list(Part)
        return iter(sorted(self.lines, key=lambda line: order.index(line.part)))

    def of(self, *parts: Part) -> tuple[Line, ...]:
        """The lines of some parts, or of no part named all of them."""
        return tuple(line for line in self if not parts or line.part in parts)

    def line(self, part: Part, name: str) -> Line | None:
        return next((one for one in self.lines if (one.part, one.name) == (part, name)), None)

    def at(self, key: str) -> Line | None:
        """The line of a key, such as `scraps:cabbage`."""
        return next((one for one in self.lines if one.key == key), None)

    def kg(self, *parts: Part) -> float:
        """How much of some parts goes in; of no part named, how much of all."""
        return sum(line.kg for line in self.lines if not parts or line.part in parts)

    def masses(self, *parts: Part) -> dict[str, float]:
        """What of some parts goes in, kg by name, nothing left out but what is none."""
        found: dict[str, float] = {}
        for line in self.of(*parts):
            if line.kg > 0:
                found[line.name] = found.get(line.name, 0.0) + line.kg
        return found

    @property
    def waits(self) -> dict[str, float]:
        """What stays in the caddy, kg by name."""
        found: dict[str, float] = {}
        for line in self:
            if line.waits_kg > steps.CLOSE:
                found[line.name] = found.get(line.name, 0.0) + line.waits_kg
        return found

    @property
    def empty(self) -> bool:
        """Whether nothing goes in."""
        return all(line.kg <= 0 for line in self.lines)

    def put(self, line: Line) -> Draft:
        """With this line, in the place of the one of its part and name if there is one."""
        if self.line(line.part, line.name) is None:
            return self._by_hand(line.part, (*self.lines, line))
        return self._by_hand(line.part, tuple(line if one.key == line.key else one for one in self.lines))

    def plus(self, line: Line) -> Draft:
        """With so much more of a thing."""
        there = self.line(line.part, line.name)
        if there is None:
            return self.put(line)
        return self.put(replace(there, kg=there.kg + line.kg, measure=line.measure or there.measure))

    def set(self, part: Part, name: str, kg: float, measure: str = "") -> Draft:
        """With so much of it."""
        line = self.line(part, name) or Line(part, name)
        return self.put(replace(line, kg=max(0.0, kg), measure=measure))

    def more(self, key: str, units: Units, each_kg: float | None = None) -> Draft:
        """One step more of a line; of none, as much as last time or all that waits."""
        line = self.at(key)
        if line is None:
            return self
        first = (line.held_kg or line.last_kg) if line.kg == 0 else None
        return self.put(replace(line, kg=first or steps.more(line.kg, units, each_kg)))

    def less(self, key: str, units: Units, each_kg: float | None = None) -> Draft:
        """One step less of a line. What came from the caddy goes back to it."""
        line = self.at(key)
        return self if line is None else self.put(replace(line, kg=steps.less(line.kg, units, each_kg)))

    def out(self, key: str) -> Draft:
        """Without the line. What came from the caddy goes back there first, and is gone the second time."""
        line = self.at(key)
        if line is None:
            return self
        if line.held_kg and line.kg:
            return self.put(replace(line, kg=0.0))
        return self._by_hand(line.part, tuple(one for one in self.lines if one.key != key))

    def without(self, *parts: Part) -> Draft:
        """Without all lines of some parts."""
        return replace(self, lines=tuple(line for line in self.lines if line.part not in parts))

    def with_caddy(self, before: Mapping[str, float], now: Mapping[str, float]) -> Draft:
        """The same meal when the caddy has changed meanwhile: what waits follows it."""
        lines = [
            replace(line, held_kg=max(0.0, line.held_kg - before.get(line.name, 0.0) + now.get(line.name, 0)))
            if line.part in EATEN
            else line
            for line in self.lines
        ]
        have = {line.name for line in lines if line.part in EATEN}
        new = (Line(Part.SCRAPS, name, held_kg=kg) for name, kg in now.items() if name not in have)
        return replace(self, lines=(*lines, *new))

    def _by_hand(self, part: Part, lines: tuple[Line, ...]) -> Draft:
        """Once a part that follows the proposal is changed by hand, all of them stay as they are."""
        return replace(self, lines=lines, follows=self.follows and part in EATEN)
