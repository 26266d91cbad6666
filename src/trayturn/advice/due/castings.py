"""What lots of castings wait for: a bait, a look, drying, the sieve, jars, being used in time."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.due.item import Due, Press, due_at
from trayturn.domain.stack import Stack


def castings(stack: Stack) -> Iterator[Due]:
    """The next thing of each open lot. Its tray, as a due thing, is the lot's code."""
    if not stack.lots:
        return
    from trayturn.advice.castings.stages import nexts
    from trayturn.advice.castings.words import lot_story

    for lot, coming in nexts(stack):
        press = Press.ANY_TIME if coming.due is None else Press.LATER
        if coming.due is not None and coming.due <= stack.as_of:
            press = Press.NOW
        why = (*coming.why, *lot_story(lot, stack)[1:])
        code = f"{coming.code}-{lot.code.lower()}"
        yield due_at(stack, "castings", coming.what, why, coming.due, None, press, code, coming.page)
