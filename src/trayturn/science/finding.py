"""Finding a row by a name as people type it: case, plurals, word order and small slips do not matter."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping, Sequence
from functools import lru_cache

Names = Mapping[str, Sequence[str]]
"""The names of each row by its id, the shown one first."""
CLOSE = 0.8
"""How alike two words have to be for one to be a slip of the other."""
FILLERS = frozenset({"of", "the", "a", "an", "and", "some"})


def find(words: str, names: Names) -> tuple[str | None, list[str]]:
    """The id of the row meant, or None and the shown names of the three nearest.

    An exact name wins, then the same words in any order, then all words within a name or but for a slip; of
    several the name that is shortest, and then the first in the table.
    """
    wanted = stems(words)
    if not wanted:
        return None, []
    # To look for slips costs a hundred times as much, and finds nothing better than the same words.
    for rule in (_same, _rank):
        ranked = [
            (rank, len(name), place, row)
            for place, (row, own) in enumerate(names.items())
            for name in own
            if (rank := rule(wanted, stems(name))) is not None
        ]
        if ranked:
            return min(ranked)[3], []
    return None, _nearest(words, names)


def search(words: str, names: Names) -> set[str]:
    """The ids of all rows with a name that holds every word, or one close to it; all rows for no words."""
    wanted = stems(words)
    return {
        row for row, own in names.items() if not wanted or any(holds(stems(name), wanted) for name in own)
    }


@lru_cache(maxsize=4096)
def stems(text: str) -> tuple[str, ...]:
    """The words of a name without case, plural endings and fillers: `Banana peels` as banana, peel."""
    found = re.findall(r"[^\W_]+", text.casefold())
    return tuple(_stem(word) for word in found if word not in FILLERS) or tuple(found)


def _stem(word: str) -> str:
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(("oes", "shes", "ches", "xes")):
        return word[:-2]
    if word.endswith(("eaves", "oaves", "alves", "elves", "arves")):
        return word[:-3] + "f"
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def _same(wanted: tuple[str, ...], have: tuple[str, ...]) -> int | None:
    """0 for the same words, 1 for the same in another order or run together."""
    if wanted == have:
        return 0
    same = len("".join(wanted)) == len("".join(have))
    return 1 if same and (sorted(wanted) == sorted(have) or "".join(wanted) == "".join(have)) else None


def _rank(wanted: tuple[str, ...], have: tuple[str, ...]) -> int | None:
    if len(wanted) == len(have) and holds(have, wanted):
        return 2
    if set(wanted) <= set(have):
        return 3
    return 4 if holds(have, wanted) else None


def holds(have: Sequence[str], wanted: Sequence[str]) -> bool:
    """Whether every wanted word is there, or one that it is a slip of. Both are stems."""
    return all(word in have or difflib.get_close_matches(word, have, 1, CLOSE) for word in wanted)


def _nearest(words: str, names: Names) -> list[str]:
    shown = {name.casefold(): own[0] for own in names.values() for name in own}
    close = difflib.get_close_matches(words.casefold().strip(), list(shown), 6, 0.4)
    return list(dict.fromkeys(shown[name] for name in close))[:3]
