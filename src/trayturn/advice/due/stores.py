"""What runs short in stock: it goes by itself once more came in, or was counted."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.due.item import Due, Press, due_at
from trayturn.advice.stock.outlook import short_of
from trayturn.advice.stock.words import gather_line, story
from trayturn.domain.stack import Stack


def supplies(stack: Stack) -> Iterator[Due]:
    """Each supply that does not reach through the next month and turn, by the day from which it is short."""
    for one in short_of(stack):
        press = Press.NOW if one.gather_by is not None and one.gather_by <= stack.as_of else Press.LATER
        what = gather_line(one, stack.as_of, stack.setup.units)
        why = tuple(story(one, stack)[1:])
        yield due_at(stack, "supplies", what, why, one.gather_by, press=press, code=one.code)
