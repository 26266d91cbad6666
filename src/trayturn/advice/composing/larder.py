"""Names for a few typed letters: what was fed of late, the keeper's own, and the table.

The names are prepared once; a letter is then answered by comparing beginnings of words. Only where nothing
begins so is it asked what is close to it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from trayturn.advice.composing.draft import Part
from trayturn.advice.composing.recent import History
from trayturn.advice.pantry import Pantry
from trayturn.science.finding import search
from trayturn.science.materials import Material

ORIGINS = ("recent", "own", "table", "new")
MOST = 8
SHORTEST_SLIP = 3
"""From how many letters on a slip is looked for: of fewer anything is close."""


@dataclass(frozen=True, slots=True)
class Suggestion:
    """One name that may be meant. `via` is the other name it was found by; `last_kg` what went in last."""

    name: str
    part: Part
    origin: str
    guidance: str = "ok"
    reason: str = ""
    last_kg: float | None = None
    via: str = ""


@dataclass(frozen=True, slots=True)
class _Shelf:
    """A suggestion with the words it is found by: of each of its names, the shown one first."""

    suggestion: Suggestion
    names: tuple[tuple[str, tuple[str, ...]], ...]


class Larder:
    """Every name that can be picked, ready to be looked up."""

    def __init__(self, pantry: Pantry, history: History) -> None:
        self.pantry, self.history = pantry, history
        self._shelves = tuple(self._all())
        self._slips: dict[str, list[Suggestion]] = {}

    def _all(self) -> Iterable[_Shelf]:
        seen: set[str] = set()
        for one in self.history.recent:
            row = self.pantry.meant(one.name)
            part = part_of(row) if row is not None and part_of(row) in (Part.AMENDMENTS,) else one.part
            seen |= {one.name.casefold(), *((row.id,) if row is not None else ())}
            yield _shelf(one.name, part, "recent", row, one.kg)
        yield _Shelf(Suggestion("grit", Part.GRIT, "table"), _names(("grit",)))
        for row in self.pantry.table.rows:
            if row.id not in seen and row.name.casefold() not in seen:
                yield _shelf(row.name, part_of(row), "own" if row.sure == "own" else "table", row, None)

    def suggest(self, text: str, most: int = MOST) -> list[Suggestion]:
        """The names that may be meant, recent ones first, then the keeper's own, then the table.

        What is typed can always be taken as it stands: where it is no known name it comes last, as new.
        """
        typed = _words(text)
        if not typed:
            return [shelf.suggestion for shelf in self._shelves[:most]]
        found = self._beginning(text.casefold().strip(), typed) or self._close(text, typed)
        if any(one.name.casefold() == text.casefold().strip() for one in found):
            return found[:most]
        return [*found[: most - 1], self._new(text)]

    def _beginning(self, text: str, typed: tuple[str, ...]) -> list[Suggestion]:
        ranked = []
        for place, shelf in enumerate(self._shelves):
            rank, via = _rank(shelf, text, typed)
            if rank is None:
                continue
            origin = ORIGINS.index(shelf.suggestion.origin)
            ranked.append((rank, origin, place, _found_by(shelf.suggestion, via)))
            if (other := _by_its_other_name(shelf, typed)) is not None:
                ranked.append((0, origin, place, other))
        # The very name wins over all that only begins so.
        ranked.sort(key=lambda one: (one[0] != 0, one[1], one[0], one[2]))
        return [suggestion for *_, suggestion in ranked]

    def _close(self, text: str, typed: tuple[str, ...]) -> list[Suggestion]:
        if sum(map(len, typed)) < SHORTEST_SLIP:
            return []
        if text not in self._slips:
            names = {
                str(place): [name for name, _ in shelf.names] for place, shelf in enumerate(self._shelves)
            }
            hits = search(text, names)
            self._slips[text] = [
                shelf.suggestion for place, shelf in enumerate(self._shelves) if str(place) in hits
            ]
        return self._slips[text]

    @staticmethod
    def _new(text: str) -> Suggestion:
        """The text as a name of its own. What it may stand for is looked up once it is taken."""
        return Suggestion(" ".join(text.split())[:200], Part.SCRAPS, "new", reason="as typed")


def part_of(row: Material | None) -> Part:
    """Where in the meal a row of the table belongs."""
    if row is None:
        return Part.SCRAPS
    if row.group == "water":
        return Part.WATER
    return {"bedding": Part.BEDDING, "amendment": Part.AMENDMENTS}.get(row.role, Part.SCRAPS)


def part_named(name: str, pantry: Pantry) -> Part:
    """Where in the meal a name as it was typed belongs."""
    return Part.GRIT if name.casefold() == Part.GRIT else part_of(pantry.meant(name))


def _shelf(name: str, part: Part, origin: str, row: Material | None, last_kg: float | None) -> _Shelf:
    if row is None:
        return _Shelf(Suggestion(name, part, origin, last_kg=last_kg), _names((name,)))
    names = dict.fromkeys((name, row.name, *row.aliases))
    return _Shelf(Suggestion(name, part, origin, row.guidance, row.reason, last_kg), _names(names))


def _names(names: Iterable[str]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    return tuple((name, _words(name)) for name in names)


def _words(text: str) -> tuple[str, ...]:
    return tuple(re.findall(r"[^\W_]+", text.casefold()))


def _rank(shelf: _Shelf, text: str, typed: tuple[str, ...]) -> tuple[int | None, str]:
    """How well a name fits, 0 for the very name; and the other name it was found by."""
    for place, (name, words) in enumerate(shelf.names):
        if not _begins(words, typed):
            continue
        if place:
            return 3, name
        return (0 if words == typed else 1 if name.casefold().startswith(text) else 2), ""
    return None, ""


def _begins(words: tuple[str, ...], typed: tuple[str, ...]) -> bool:
    """Whether each typed beginning is that of a word of its own."""
    left = list(words)
    for part in typed:
        word = next((one for one in left if one.startswith(part)), None)
        if word is None:
            return False
        left.remove(word)
    return True


def _by_its_other_name(shelf: _Shelf, typed: tuple[str, ...]) -> Suggestion | None:
    """A row under the name that was typed in full, so that it is written down in the keeper's own words."""
    (_, shown), *others = shelf.names
    name = next((name for name, words in others if words == typed != shown), None)
    if name is None:
        return None
    one = shelf.suggestion
    origin = "table" if one.origin == "recent" else one.origin
    return Suggestion(name, one.part, origin, one.guidance, one.reason)


def _found_by(suggestion: Suggestion, via: str) -> Suggestion:
    if not via:
        return suggestion
    one = suggestion
    return Suggestion(one.name, one.part, one.origin, one.guidance, one.reason, one.last_kg, via)
