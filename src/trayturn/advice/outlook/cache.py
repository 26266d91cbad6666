"""Answers kept in memory by what they rest on. Nothing is stored on disk."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from hashlib import sha256
from threading import Lock
from typing import Generic, TypeVar

from trayturn.advice.outlook.history import History
from trayturn.domain.profile import Profile

Answer = TypeVar("Answer")


COUNTED = frozenset(
    {
        *("tray_started", "fed", "checked", "turned", "worms_added", "worms_removed"),
        *("separation_begun", "settled", "separation_ended", "hatchlings_recovered"),
        *("supplies_added", "supplies_used", "supplies_counted"),
    }
)
"""Kinds of entries that an outlook rests on: a note changes nothing."""


class Cache(Generic[Answer]):
    """The latest few answers by their keys. Screens ask from several threads."""

    def __init__(self, most: int) -> None:
        self._most, self._lock = most, Lock()
        self._kept: OrderedDict[str, Answer] = OrderedDict()

    def get(self, key: str, make: Callable[[], Answer]) -> Answer:
        """The answer kept, or one made now, outside the lock."""
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
                return self._kept[key]
        answer = make()
        with self._lock:
            self._kept[key] = answer
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
        return answer


def digest(profile: Profile, history: History) -> str:
    """A fingerprint of the setup, the ingredients, and the entries up to its moment that count."""
    found = sha256(history.calendar.now.date().isoformat().encode())
    for model in (profile.bin, *profile.trays, *profile.ingredients):
        found.update(model.model_dump_json().encode("utf-8", "replace"))
    for one in history.tolds:
        if one.entry.kind in COUNTED:
            found.update(str(one.place).encode() + one.entry.model_dump_json().encode("utf-8", "replace"))
    return found.hexdigest()
