"""What is said under a form about what is typed in it: what came in with such before."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime

from trayturn.advice.found.hints import source_hints
from trayturn.domain.stack import Stack
from trayturn.tui.screens.forms.lists import read_masses

MOST = 2
"""So many hints, the worst, are said at once."""


def minded(stack: Stack, fields: Sequence[str]) -> Callable[[Mapping[str, str], datetime], str]:
    """The words under a form, by the names in these fields. What cannot be read yet says nothing."""

    def words(texts: Mapping[str, str], now: datetime) -> str:
        names = [name for field in fields for name in _names(texts.get(field, ""), stack)]
        return "\n".join(hint.what for hint in source_hints(stack, names)[:MOST])

    return words


def _names(text: str, stack: Stack) -> list[str]:
    try:
        return list(read_masses(text, stack.setup.units, zero=True))
    except ValueError:
        return []
