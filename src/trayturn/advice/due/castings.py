"""What lots of castings wait for: a bait, a look, drying, the sieve, jars, being used in time."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.due.item import Due, Press, due_at
from trayturn.domain.lots import Lot
from trayturn.domain.stack import Stack


def castings(stack: Stack) -> Iterator[Due]:
    """The next thing of each open lot, told apart by the lot in its code: `lure-c1`."""
    if not stack.lots:
        return
    from trayturn.advice.castings.coming import next_line
    from trayturn.advice.castings.stages import nexts
    from trayturn.advice.castings.words import lot_story

    for lot, coming in nexts(stack):
        press = Press.ANY_TIME if coming.due is None else Press.LATER
        if coming.due is not None and coming.due <= stack.as_of:
            press = Press.NOW
        why = (*coming.why, *lot_story(lot, stack)[1:])
        what = next_line(coming, stack)
        code = f"{coming.code}-{lot.code.lower()}"
        yield due_at(stack, "castings", what, why, coming.due, None, press, code, coming.page)


def lot_of(due: Due, stack: Stack) -> Lot | None:
    """The lot that a due thing of this kind is about."""
    code = due.code.partition("-")[2]
    return next((lot for lot in stack.lots if lot.code.lower() == code), None)
