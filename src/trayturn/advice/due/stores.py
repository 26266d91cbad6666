"""What runs short in stock: it goes by itself once more came in, or was counted."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.due.item import Due, Press, due_at
from trayturn.advice.stock.outlook import Outlook, short_of
from trayturn.advice.stock.turns import support_lines, turn_supported
from trayturn.advice.stock.words import gather_line, story
from trayturn.domain.stack import Stack
from trayturn.domain.supplies import fold


def supplies(stack: Stack) -> Iterator[Due]:
    """Each supply that does not reach through the next month and turn, by the day from which it is short."""
    for one in short_of(stack):
        press = Press.NOW if one.gather_by is not None and one.gather_by <= stack.as_of else Press.LATER
        what = gather_line(one, stack.as_of, stack.setup.units)
        why = (*story(one, stack)[1:], *_instead(one, stack))
        yield due_at(stack, "supplies", what, why, one.gather_by, press=press, code=one.code)


def _instead(one: Outlook, stack: Stack) -> tuple[str, ...]:
    """What else can be done at the next turn, where it is the turn's bedding that is short."""
    support = turn_supported(stack) if one.turn is not None else None
    if support is None or fold(support.bedding) != fold(one.name):
        return ()
    return support_lines(support)[2:]
