"""What several ask of the same stack is worked out once."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from functools import wraps
from typing import TypeVar

from trayturn.domain.stack import Stack

T = TypeVar("T")
LATEST = 16
"""As many stacks are remembered: those of a home, and a few more."""


def once(work: Callable[[Stack], list[T]]) -> Callable[[Stack], list[T]]:
    """The same list of a stack, without working it out again. A stack never changes: a new one stands anew.

    It is told by being the very same one. It is held meanwhile, so that no other can come to stand for it.
    """
    known: OrderedDict[int, tuple[Stack, tuple[T, ...]]] = OrderedDict()

    @wraps(work)
    def asked(stack: Stack) -> list[T]:
        found = known.get(id(stack))
        if found is None:
            found = known[id(stack)] = stack, tuple(work(stack))
            while len(known) > LATEST:
                known.popitem(last=False)
        return list(found[1])

    return asked
